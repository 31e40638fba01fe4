"""Published approaches as records, retyped from public data; each with its source."""

from lpv.approach.database import Database, DatabaseFix, held_path_point
from lpv.approach.record import Approach
from lpv.approach.schema import Chart, Fix, Identity
from lpv.core.dms import latitude_deg, longitude_deg

# A published approach: FAA CIFP cycle 2003, KHWD RNAV (GPS) RWY 28L; see the check values for its numbers.

KHWD_RECORD = [
    "SUSAP KHWDK2PR28L  RW28L001 0000W28A0N3739186640W12206531315-001720310N3740030660W12208304530106751224000350F"
    "40050040227B2E108911212",
    "SUSAP KHWDK2PR28L  RW28L002E      +00152+00152LPV       40330                                                "
    "              108921212",
]
KHWD_FIXES = (  # name, role, position, altitude, rule, coded course and distance of the leg to it
    ("JOBUS", "IF", "N37 30 04.71", "W121 46 45.65", 5700, "at or above", None, None),
    ("OKIVY", "step-down", "N37 31 42.15", "W121 50 17.17", 4800, "at or above", 285.1, 3.2),
    ("WESCH", "step-down", "N37 33 19.49", "W121 53 48.83", 3900, "at or above", 285.0, 3.2),
    ("SUDGE", "PFAF", "N37 34 35.12", "W121 56 33.57", 3200, "at or above", 285.0, 2.5),
    ("FENRA", "step-down", "N37 36 13.04", "W122 00 07.15", 2126, "on path", 285.0, 3.3),
    ("BOGRE", "step-down", "N37 37 21.95", "W122 02 37.69", 1369, "on path", 284.9, 2.3),
    ("HUZBY", "step-down", "N37 37 54.88", "W122 03 49.72", 1007, "on path", 284.9, 1.1),
    ("RW28L", "MAP", "N37 39 18.66", "W122 06 53.13", None, None, 284.9, 2.8),
)


def khwd(variation_deg=15.0):
    fixes = tuple(
        Fix(name=name, role=role, latitude_deg=latitude_deg(north), longitude_deg=longitude_deg(west),
            altitude_ft=altitude, altitude_rule=rule, leg_course_deg=course, leg_distance_nm=distance)
        for name, role, north, west, altitude, rule, course, distance in KHWD_FIXES
    )
    return Approach(
        identity=Identity(
            airport="KHWD", airport_name="KHWD", runway="28L", title="RNAV (GPS) RWY 28L", level_of_service="LPV",
            channel=40330, path_id="W28A", cycle="2003", rule="FAA"),
        chart=Chart(
            course_deg=284.9, course_reference="magnetic", variation_deg=variation_deg, glidepath_deg=3.10, tch_ft=35,
            threshold_elevation_ft=50, airport_elevation_ft=52, runway_length_ft=5694, displaced_threshold_ft=676,
            fixes=fixes, minima=()),
        database=Database(
            path_point=held_path_point(KHWD_RECORD), cycle="2003",
            fixes=tuple(DatabaseFix(name=fix.name, course_deg=fix.leg_course_deg, distance_nm=fix.leg_distance_nm)
                        for fix in fixes)),
    )

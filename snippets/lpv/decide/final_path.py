"""The final approach as it is flown today: where the PFAF is, what the altimeter reads, what a dot means.

`approach` is the approach record, or the same from its JSON form (`lpv.core.record`); distances before the threshold
in NM, altitudes in ft above mean sea level on an altimeter set right.
"""

from lpv.air.altimetry import aerodrome_isa_deviation_c
from lpv.core.course import magnetic_deg
from lpv.core.errors import DomainError
from lpv.core.text import quantity
from lpv.decide.cold import role_of
from lpv.path.deviation import final_full_scale_ft, from_two_dots_ft
from lpv.path.profile import (
    barometric_path_angle_deg,
    barometric_path_distance_nm,
    barometric_path_height_ft,
    straight_path_distance_nm,
    straight_path_height_ft,
)
from lpv.path.scale import lpv_cap_distance_nm, lpv_floor_distance_nm, lpv_full_scale_ft, origin_distance_nm
from lpv.path.temperature import indicated_on_path_ft, path_met_distance_nm

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.approach.record import Approach

ROUND_DISTANCES_NM = (5, 3, 1)


def has_glidepath(approach: "Approach") -> bool:
    """Whether SBAS guides in the vertical: LPV does, LP does not, even with an angle on its chart."""
    return approach.identity.level_of_service == "LPV"


def fix_distance_nm(approach: "Approach", name: str) -> float:
    """Distance of a fix before the threshold, along the final course; DomainError where its position is unknown."""
    for position in approach.geometry.fixes:
        if position.name == name:
            return position.along_nm
    raise DomainError(f"position of {name}: found none within reach of the segment; allowed: within 5000 NM.")


def pfaf_distance_nm(approach: "Approach") -> float:
    """Distance of the PFAF before the threshold, along the final course."""
    return fix_distance_nm(approach, role_of(approach, "PFAF").name)


def in_chart_reference_deg(approach: "Approach", true_deg: float) -> float:
    """A true course as the chart would print it: magnetic by its variation of record, or true."""
    if approach.chart.course_reference == "true":
        return true_deg
    return magnetic_deg(true_deg, approach.chart.variation_deg)


def threshold_and_crossing_ft(approach: "Approach") -> "tuple[float, float]":
    """Elevation of the threshold and crossing height: the chart's, else the data block's."""
    chart = approach.chart
    return chart.threshold_elevation_ft, approach.segment.tch_ft if chart.tch_ft is None else chart.tch_ft


def glidepath(approach: "Approach") -> "tuple[float, float, float]":
    """Threshold elevation (ft), crossing height (ft) and angle (deg) of the SBAS glidepath; DomainError on LP."""
    if not has_glidepath(approach) or approach.chart.glidepath_deg is None:
        raise DomainError("glidepath: found none; allowed: an approach to LPV minima.")
    threshold_ft, tch_ft = threshold_and_crossing_ft(approach)
    return threshold_ft, tch_ft, approach.chart.glidepath_deg


def descent_angle_deg(approach: "Approach") -> float:
    """The glidepath angle; without one, the angle of a steady descent from the PFAF's altitude.

    DomainError where the chart prints neither an angle nor an altitude at the PFAF.
    """
    if approach.chart.glidepath_deg is not None:
        return approach.chart.glidepath_deg
    return barometric_path_angle_deg(
        pfaf_distance_nm(approach), charted_pfaf_ft(approach), *threshold_and_crossing_ft(approach))


def charted_pfaf_ft(approach: "Approach") -> float:
    """Charted altitude at the PFAF; DomainError where the chart prints none."""
    altitude_ft = role_of(approach, "PFAF").altitude_ft
    if altitude_ft is None:
        raise DomainError("altitude at the FAF: found none; allowed: a number.")
    return altitude_ft


def descent_altitude_ft(approach: "Approach", distance_nm: float) -> float:
    """Altitude on the SBAS glidepath, or on the steady descent by the altimeter where there is none."""
    height_ft = straight_path_height_ft if has_glidepath(approach) else barometric_path_height_ft
    return height_ft(distance_nm, *threshold_and_crossing_ft(approach), descent_angle_deg(approach))


def distance_at_altitude_nm(approach: "Approach", altitude_ft: float) -> float:
    """Distance before the threshold at which the descent (as `descent_altitude_ft`) reaches an altitude."""
    distance_nm = straight_path_distance_nm if has_glidepath(approach) else barometric_path_distance_nm
    return distance_nm(altitude_ft, *threshold_and_crossing_ft(approach), descent_angle_deg(approach))


def standard_temperature_c(approach: "Approach") -> float:
    """Standard temperature at the airport's elevation."""
    return 0.0 - aerodrome_isa_deviation_c(0.0, approach.chart.airport_elevation_ft)


def altimeter_ft(approach: "Approach", distance_nm: float, temperature_c: float) -> float:
    """What the altimeter shows on the SBAS glidepath, by the temperature at the airport; DomainError on LP."""
    return indicated_on_path_ft(
        distance_nm, *glidepath(approach), temperature_c, approach.chart.airport_elevation_ft)


def altimeter_at_pfaf_ft(approach: "Approach", temperature_c: float) -> float:
    """What the altimeter shows at the PFAF on the SBAS glidepath; DomainError on LP."""
    return altimeter_ft(approach, pfaf_distance_nm(approach), temperature_c)


def altimeter_over_charted_ft(approach: "Approach", temperature_c: float) -> float:
    """By how much the altimeter shows more than the charted altitude at the PFAF, on the glidepath; negative for less.

    DomainError on LP, and where the chart prints no altitude.
    """
    return altimeter_at_pfaf_ft(approach, temperature_c) - charted_pfaf_ft(approach)


def glidepath_met_nm(approach: "Approach", indicated_ft: float, temperature_c: float) -> float:
    """Distance before the threshold at which level flight at an indicated altitude meets the glidepath."""
    return path_met_distance_nm(
        indicated_ft, *glidepath(approach), temperature_c, approach.chart.airport_elevation_ft)


def path_limits_nm(approach: "Approach") -> "tuple[float, float]":
    """Distances before the threshold outside which the path's full scale of LPV is capped, inside which it is floored.

    DomainError on LP.
    """
    _, tch_ft, gpa_deg = glidepath(approach)
    before_nm = origin_distance_nm(0.0, tch_ft, gpa_deg)
    return lpv_cap_distance_nm(gpa_deg) - before_nm, lpv_floor_distance_nm(gpa_deg) - before_nm


def course_full_scale_ft(approach: "Approach", distance_nm: float) -> float:
    """Full-scale course deviation on the final approach segment."""
    geometry = approach.geometry
    return final_full_scale_ft(distance_nm, geometry.half_width_ft, geometry.garp_distance_ft)


def path_full_scale_ft(approach: "Approach", distance_nm: float) -> float:
    """Full-scale path deviation of LPV; DomainError on LP."""
    _, tch_ft, gpa_deg = glidepath(approach)
    return lpv_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)


def course_dot_ft(approach: "Approach", distance_nm: float) -> float:
    """One dot of a two-dot scale of the course."""
    return from_two_dots_ft(1.0, course_full_scale_ft(approach, distance_nm))


def path_dot_ft(approach: "Approach", distance_nm: float) -> float:
    """One dot of a two-dot scale of the glidepath; DomainError on LP."""
    return from_two_dots_ft(1.0, path_full_scale_ft(approach, distance_nm))


def scale_places(approach: "Approach", minimum_ft: "float | None", minimum_kind: str) -> "list[tuple[str, float]]":
    """Where dots are worth knowing: FAF, round distances inside it, the minimum; (name, NM), farthest first.

    The minimum is left out where there is none, or where it is not before the threshold.
    """
    begin_nm = pfaf_distance_nm(approach)
    places = [("FAF", begin_nm)]
    places += [(quantity(distance, "NM"), float(distance)) for distance in ROUND_DISTANCES_NM if distance < begin_nm]
    try:
        at_nm = -1.0 if minimum_ft is None else distance_at_altitude_nm(approach, minimum_ft)
    except DomainError:
        at_nm = -1.0
    if at_nm >= 0.0:
        places.append((minimum_kind, at_nm))
    return sorted(places, key=lambda place: -place[1])

"""What a recorded flight is compared with: an approach, the level flown, and the type, taken from their records.

This is all that the rest of the room knows of an approach and of a type.  `approach` and `aircraft` are records, or
the same from their JSON form (`lpv.core.record`); decisions are those of `lpv.decide`.
"""

from lpv.core.errors import DomainError
from lpv.decide.climb import climb_gradient_ft_per_nm
from lpv.decide.cold import Cold, cold, pfaf_addition_ft
from lpv.decide.final_path import glidepath, has_glidepath, standard_temperature_c
from lpv.decide.lines import WITHOUT_PATH, row_for, rows_of
from lpv.decide.minimum import Day, minimum, missed_altitude
from lpv.decide.missed import design_height_loss_ft, height_loss_ft
from lpv.decide.stabilised import GATES, Gate
from lpv.facts import remembered, value
from lpv.path.profile import barometric_path_height_ft
from lpv.path.sbas_scale import course_full_scale_ft, path_full_scale_ft
from lpv.path.scale import lnav_vnav_full_scale_ft, origin_distance_nm

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.aircraft.record import Aircraft
    from lpv.approach.record import Approach

LPV, BARO = "LPV", "LNAV/VNAV baro"
# Level flown -> (line of the chart's minima, in words); "" takes the best one that the approach offers.
LEVELS = {
    LPV: (LPV, "LPV"), "LP": ("LP", "LP"), "LNAV/VNAV": ("LNAV/VNAV", "LNAV/VNAV, path by SBAS"),
    BARO: ("LNAV/VNAV", "LNAV/VNAV, path by the altimeter"), "LNAV": ("LNAV", "LNAV"),
}
BOUND = ("at", "at or above", "at or below")
FASTEST_FPM = 3000.0  # of `lpv.decide.missed`
BEFORE_FINAL = ("IAF", "IF", "PFAF")


class Fix:
    """A fix of the procedure: role and altitude as on the chart, distance before and right of the threshold's course.

    altitude_ft, altitude_rule: None without an altitude
    leg_from: name of the fix where the leg to it begins, "" for none;  arc: whether that leg is coded as one
    """

    def __init__(
        self, name: str, role: str, altitude_ft: "float | None", altitude_rule: "str | None", along_nm: float,
        across_nm: float, leg_from: str = "", arc: bool = False,
    ) -> None:
        self.leg_from, self.arc = leg_from, arc
        self.name, self.role, self.altitude_ft, self.altitude_rule = name, role, altitude_ft, altitude_rule
        self.along_nm, self.across_nm = along_nm, across_nm


class Target:
    """One approach, flown to one level by one type.

    level:        a key of LEVELS;  has_path: whether it guides in the vertical;  kind: of its minimum, DA or MDA
    slug, airport, title, rule: as in the chart's margin
    airport_ft, threshold_ft: elevations;  threshold_height_m: of the LTP above the ellipsoid
    gpa_deg, tch_ft: the path;  course_deg: true
    fixes:        those of the approach up to the one before the MAP, in the order flown;  pfaf: one of them
    """

    def __init__(
        self, approach: "Approach", aircraft: "Aircraft | None" = None, level: str = "", on_vectors: bool = False,
    ) -> None:
        identity, chart, segment = approach.identity, approach.chart, approach.segment
        self.approach, self.aircraft, self.on_vectors = approach, aircraft, on_vectors
        self.level = level_of(approach, level)
        self.slug, self.airport, self.title, self.rule = approach.slug, identity.airport, identity.title, identity.rule
        self.airport_ft, self.threshold_ft = chart.airport_elevation_ft, chart.threshold_elevation_ft
        self.threshold_height_m = segment.ltp_height_m
        self.latitude_deg, self.longitude_deg = segment.ltp_latitude_deg, segment.ltp_longitude_deg
        self.course_deg = approach.geometry.true_course_deg
        self.gpa_deg, self.tch_ft = segment.gpa_deg, segment.tch_ft
        self.fixes = _fixes(approach)
        self.pfaf = [fix for fix in self.fixes if fix.role == "PFAF"][0]  # noqa: RUF015
        self.pfaf_nm = self.pfaf.along_nm
        self.category = aircraft.type.category if aircraft else None
        self.operator = aircraft.operator if aircraft else None

    def fix(self, name: str) -> "Fix | None":
        """The fix of this name, None if there is none."""
        for fix in self.fixes:
            if fix.name == name:
                return fix
        return None

    @property
    def has_path(self) -> bool:
        """Whether the level flown guides in the vertical."""
        return self.level not in WITHOUT_PATH

    @property
    def kind(self) -> str:
        """DA or MDA."""
        return "DA" if self.has_path else "MDA"

    @property
    def level_words(self) -> str:
        """The level as a person reads it."""
        return LEVELS[self.level][1]

    def course_ft(self, distance_nm: float) -> float:
        """Full scale of the course (ft), by the distance before the threshold."""
        geometry = self.approach.geometry
        return course_full_scale_ft(
            distance_nm, self.pfaf_nm, geometry.half_width_ft, geometry.garp_distance_ft, self.on_vectors)

    def path_ft(self, distance_nm: float) -> float:
        """Full scale of the path (ft): of the level flown; of a path by the altimeter two dots of a fixed size."""
        if self.level == BARO:
            return 2.0 * value("baro_vnav_deviation_ft")
        if self.level == LPV:
            return path_full_scale_ft(distance_nm, self.tch_ft, self.gpa_deg)
        return lnav_vnav_full_scale_ft(
            origin_distance_nm(max(0.0, distance_nm), self.tch_ft, self.gpa_deg), self.gpa_deg)

    def scale_remembered(self) -> str:
        """A sentence where the scale of the path of the level flown was read in no document, else nothing."""
        if self.level == BARO:
            basis = remembered("baro_vnav_deviation_ft")
        elif self.level == LPV:
            basis = remembered("lpv_vertical_share", "lpv_vertical_cap_m", "lpv_vertical_floor_m")
        else:
            basis = remembered("lnav_vnav_vertical_share", "lnav_vnav_vertical_cap_m", "lnav_vnav_vertical_floor_m")
        return " The scale of the glidepath is from memory." if self.has_path and basis else ""

    def barometric_path_ft(self, distance_nm: float) -> float:
        """Altitude on the altimeter of a path by the altimeter; behind the threshold that at it."""
        return barometric_path_height_ft(max(0.0, distance_nm), self.threshold_ft, self.tch_ft, self.gpa_deg)

    def standard_c(self) -> float:
        """Standard temperature at the airport."""
        return standard_temperature_c(self.approach)

    def cold(self, temperature_c: "float | None") -> Cold:
        """Whether altitudes are corrected at a temperature."""
        return cold(self.approach, temperature_c, self.operator)

    def minimum_ft(self, temperature_c: "float | None" = None) -> "float | None":
        """The minimum to use at a temperature, without one as in mild air; None where the chart prints none.

        DomainError if the chart has the line, and none for the type's category.
        """
        line = LEVELS[self.level][0]
        rows = rows_of(self.approach, line)
        if rows and row_for(self.approach, line, self.category) is None:
            raise DomainError(f"{self.slug}: found no {line} minimum for category {self.category}.")
        minimum_line = minimum(self.approach, line, self.category, self.operator, Day(temperature_c))
        return None if minimum_line is None else minimum_line.altitude_ft

    def pfaf_addition_ft(self, temperature_c: float) -> float:
        """What cold adds at the PFAF."""
        return pfaf_addition_ft(self.approach, temperature_c)

    def missed_ft(self, temperature_c: "float | None") -> "float | None":
        """The missed approach altitude, with what cold adds where asked; None where the file has none."""
        missed = missed_altitude(self.approach, self.operator, Day(temperature_c))
        return None if missed is None else missed.altitude_ft

    def missed_gradient_ft_per_nm(self) -> float:
        """The climb gradient that the missed approach needs."""
        return climb_gradient_ft_per_nm(self.approach)

    def touchdown_zone_ft(self) -> float:
        """Length of the touchdown zone from the threshold: 3000 ft, or a third of the runway if that is less."""
        chart = self.approach.chart
        usable_ft = chart.runway_length_ft - (chart.displaced_threshold_ft or 0.0)
        return min(value("touchdown_zone_ft"), usable_ft / 3.0)

    def gates(self) -> "list[Gate]":
        """Those of the literature and the operator's own, highest first."""
        every = list(GATES) + operator_gates(self.aircraft)
        return [every[place] for _, place in sorted([(-gate.height_ft, place) for place, gate in enumerate(every)])]

    def height_loss_ft(self, sink_fpm: float) -> "tuple[float, float]":
        """(height that a go-around loses, uncertainty): the type's; without a type from nothing to the most of design.

        sink_fpm: rate of descent when it was decided
        """
        if self.aircraft is None:
            half_ft = design_height_loss_ft("D") / 2.0
            return half_ft, half_ft
        around = self.aircraft.go_around
        rate_fpm = max(0.0, min(FASTEST_FPM, sink_fpm))
        return height_loss_ft(rate_fpm, around.reaction_s, around.acceleration_g), 0.0


def level_of(approach: "Approach", level: str) -> str:
    """The level flown: the one chosen, or the best of the approach for ""; DomainError for one that it has not."""
    if not level:
        return LPV if has_glidepath(approach) else "LP"
    if level not in LEVELS:
        raise DomainError(f"level: found {level}; allowed: {', '.join(LEVEL_NAMES)}.")
    if level == LPV:
        glidepath(approach)
    elif not rows_of(approach, LEVELS[level][0]):
        raise DomainError(f"{approach.slug}: found no line {LEVELS[level][0]} on the chart; choose one that it has.")
    if level in ("LNAV/VNAV", BARO) and approach.chart.glidepath_deg is None:
        raise DomainError(f"{approach.slug}: found no glidepath angle; allowed: one, for {LEVELS[level][1]}.")
    return level


LEVEL_NAMES = ("LPV", "LP", "LNAV/VNAV", BARO, "LNAV")  # in order: a phone keeps none in a dict


def operator_gates(aircraft: "Aircraft | None") -> "list[Gate]":
    """The operator's own gates."""
    return [] if aircraft is None else [
        Gate(row.name, row.height_ft, row.above, row.slowest_kt, row.fastest_kt, row.sink_rate_fpm, row.lateral_dots,
             row.vertical_dots, row.bank_deg, tuple(row.required)) for row in aircraft.gates]


def _fixes(approach: "Approach") -> "list[Fix]":
    """The fixes up to the one before the MAP, those of the missed approach left out."""
    places = {position.name: position for position in approach.geometry.fixes}
    arcs = [leg.fix for leg in approach.database.legs or () if leg.terminator == "RF"]
    fixes, before = [], ""
    for fix in approach.chart.fixes:
        if fix.role == "MAP":
            break
        if fix.name in places:
            at = places[fix.name]
            leg_from = fix.leg_from or ("" if fix.role == "IAF" else before)
            fixes.append(Fix(fix.name, fix.role, fix.altitude_ft, fix.altitude_rule, at.along_nm, at.across_nm,
                             leg_from, fix.name in arcs))
        before = fix.name
    if not [fix for fix in fixes if fix.role == "PFAF"]:
        raise DomainError(f"{approach.slug}: found no FAF within reach of the segment; allowed: one.")
    return fixes

"""What an approach file holds, table by table; `lpv.approach.record` says how it is read and gives an example.

This is the identity and what the chart prints; `lpv.approach.database` has the other side.
Altitudes are in ft above mean sea level, courses in the chart's reference.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, ClassVar

from lpv.core import airac
from lpv.core.text import course_digits, trimmed, trimmed_quantity
from lpv.files import schema

FaultRow = tuple[str, str, str, str]

LEVELS = ("LPV", "LP")
RULES = ("FAA", "ICAO", "EASA")
ROLES = ("IAF", "IF", "PFAF", "step-down", "MAP", "missed", "missed hold")
FIX_NAME = "[A-Z0-9]{1,6}"
LEG_VALUES = ("course", "distance")
ALTITUDE_RULES = ("at", "at or above", "at or below", "on path")
KINDS = {"LPV": "DA", "LNAV/VNAV": "DA", "LP": "MDA", "LNAV": "MDA", "circling": "MDA"}
# What coded records cannot hold; a file made from them lists these keys until somebody has read the chart.
TO_BE_FILLED = {
    "minima": "lines of minima with their visibility",
    "notes": "notes",
    "tdze_ft": "touchdown zone elevation",
    "variation_year": "year of the variation of record",
    "vnav_lowest_c": "lowest temperature for baro-VNAV",
    "vnav_highest_c": "highest temperature for baro-VNAV",
    "cold_temperature_airport_c": "cold temperature airport",
    "lights": "approach lights",
    "missed": "missed approach",
    "missed.climb_gradient_ft_per_nm": "climb gradient of the missed approach",
}
VISIBILITIES = ("visibility_sm", "visibility_m", "rvr_ft", "rvr_m")  # at most one of them stands beside a minimum
LOWEST_ALTITUDE_FT = -1500
HIGHEST_ALTITUDE_FT = 30000


CYCLE_PATTERN = "[0-9]{2}(0[1-9]|1[0-4])"


def cycle_ident(value: object) -> str:
    """The number of a data cycle, if it is one; DomainError otherwise."""
    return airac.cycle(value).ident  # type: ignore[arg-type]


@dataclass(frozen=True, kw_only=True)
class Identity:
    """Which approach it is, as printed in the chart's margin."""

    airport: str = schema.text("location identifier of the airport", pattern="[A-Z0-9]{3,4}", example="ZZAA")
    airport_name: str = schema.text("name of the airport")
    runway: str = schema.text("runway", pattern="(0[1-9]|[12][0-9]|3[0-6])[LCR]?", example="09 or 27R")
    title: str = schema.text("title of the procedure", example="RNAV (GPS) RWY 09")
    level_of_service: str = schema.choice("best line of minima that SBAS serves", LEVELS)
    channel: int = schema.whole("SBAS channel number", "", 0, 99999)
    path_id: str = schema.text("reference path identifier", pattern="[A-Z0-9]{4}", example="W09A")
    cycle: str = schema.parsed("data cycle of the chart", cycle_ident, example='"2612"', pattern=CYCLE_PATTERN)
    rule: str = schema.choice("whose rules the chart follows", RULES)
    invented: bool = schema.flag("whether the approach is made up")


@dataclass(frozen=True, kw_only=True)
class Fix:
    """One fix in the order flown; its leg is the one that leads to it."""

    SCHEMA_ALSO: ClassVar[tuple[dict[str, Any], ...]] = (schema.both_or_neither("altitude_ft", "altitude_rule"),)

    name: str = schema.text("name of the fix", pattern=FIX_NAME, example="SANDY")
    role: str = schema.choice("what the fix is for", ROLES)
    also: tuple[str, ...] = schema.choices("what else the fix is for", ROLES)
    latitude_deg: float = schema.latitude("latitude")
    longitude_deg: float = schema.longitude("longitude")
    altitude_ft: float | None = schema.number(
        "altitude printed at the fix", "ft", LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT, required=False)
    altitude_rule: str | None = schema.choice("altitude restriction", ALTITUDE_RULES, required=False)
    path_altitude_ft: float | None = schema.number(
        "altitude coded as on the vertical path at the fix", "ft", LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT,
        required=False)
    leg_from: str | None = schema.text(
        "where the leg begins, if not at the fix listed before", pattern=FIX_NAME, example="SANDY", required=False)
    leg_course_deg: float | None = schema.number("course printed along the leg", "deg", 0, 360, required=False)
    leg_distance_nm: float | None = schema.number("length printed along the leg", "NM", 0, 200, required=False)
    leg_computed: tuple[str, ...] = schema.choices(
        "what of the leg was computed from positions, and not yet read from the chart", LEG_VALUES)

    def faults(self) -> Iterator[FaultRow]:
        """An altitude and its rule go together; what was computed is there; a second role is another one."""
        if (self.altitude_ft is None) != (self.altitude_rule is None):
            yield ("altitude_rule", "an altitude without a rule, or a rule without an altitude",
                   "both or neither", "Add the missing one.")
        values = {"course": self.leg_course_deg, "distance": self.leg_distance_nm}
        for key in self.leg_computed:
            if values[key] is None:
                yield "leg_computed", f"{key}, which the leg does not have", "what is there", "Remove it from the list."
        if self.role in self.also:
            yield "also", f"{self.role}, which is its role", "other roles", "Remove it from the list."

    def serves(self, *roles: str) -> bool:
        """Whether it has one of these roles, on the way in or after it."""
        return any(role in roles for role in (self.role, *self.also))


@dataclass(frozen=True, kw_only=True)
class Minima:
    """One line of minima; visibility as printed, in one unit, or none if the chart prints none."""

    # What a schema for editors can say of several keys together; `faults` decides.
    SCHEMA_ALSO: ClassVar[tuple[dict[str, Any], ...]] = (
        *({"if": {"properties": {"line": {"const": line}}, "required": ["line"]},
           "then": {"properties": {"kind": {"const": kind}}}} for line, kind in KINDS.items()),
        {"not": {"anyOf": [{"required": [first, second]} for at, first in enumerate(VISIBILITIES)
                           for second in VISIBILITIES[at + 1 :]]}},
    )

    line: str = schema.choice("line of minima", tuple(KINDS))
    kind: str = schema.choice("decision altitude or minimum descent altitude", ("DA", "MDA"))
    categories: str = schema.text("aircraft approach categories", pattern="A?B?C?D?E?", example="ABCD")
    altitude_ft: float = schema.number("the minimum", "ft", LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT)
    hat_ft: float | None = schema.number("height printed beside it", "ft", 0, 5000, required=False)
    visibility_sm: float | None = schema.number("visibility", "SM", 0, 10, required=False)
    visibility_m: float | None = schema.number("visibility", "m", 0, 20000, required=False)
    rvr_ft: float | None = schema.number("runway visual range", "ft", 0, 10000, required=False)
    rvr_m: float | None = schema.number("runway visual range", "m", 0, 4000, required=False)

    def faults(self) -> Iterator[FaultRow]:
        """The kind follows from the line, and there is one visibility at most."""
        if self.kind != KINDS[self.line]:
            yield "kind", f"{self.kind} on a line {self.line}", KINDS[self.line], "Correct the kind or the line."
        printed = [value for key in VISIBILITIES if (value := getattr(self, key)) is not None]
        if len(printed) > 1:
            yield "", f"{len(printed)} visibilities", "one", "Keep the one that the chart prints."


@dataclass(frozen=True, kw_only=True)
class Missed:
    """The missed approach as the chart describes it."""

    instruction: str = schema.text("the missed approach in words", longest=400, key="text")
    altitude_ft: float = schema.number(
        "altitude to climb to", "ft", LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT)
    climb_gradient_ft_per_nm: float | None = schema.number(
        "climb gradient, if the chart prints one", "ft/NM", 100, 1000, required=False)


@dataclass(frozen=True, kw_only=True)
class Lights:
    """The approach lights."""

    name: str = schema.text("kind of approach lights", example="MALSR")
    length_ft: float = schema.number("from the threshold to the outermost light", "ft", 0, 4000)


@dataclass(frozen=True, kw_only=True)
class SafeAltitude:
    """One sector of the minimum safe altitude; its limits are bearings to the centre, clockwise."""

    centre: str = schema.text("what the sector is drawn about", pattern=FIX_NAME, example="RW09")
    from_deg: float = schema.number("bearing to the center at which the sector begins", "deg", 0, 360)
    to_deg: float = schema.number("bearing to the center at which it ends", "deg", 0, 360)
    altitude_ft: float = schema.number("the minimum safe altitude", "ft", 0, HIGHEST_ALTITUDE_FT)
    radius_nm: float = schema.number("radius of the sector", "NM", 1, 60)

    @property
    def name(self) -> str:
        """The sector in a few characters: "RW09 180-180"."""
        return f"{self.centre} {course_digits(self.from_deg)}-{course_digits(self.to_deg)}"


@dataclass(frozen=True, kw_only=True)
class Runway:
    """The runway as surveyed, from the airport's data and not from the approach's.

    It is a second opinion on the final segment: a chart and a data block that were both made from a wrong
    threshold agree with each other.
    """

    threshold_latitude_deg: float = schema.latitude("latitude of the landing threshold", key="")
    threshold_longitude_deg: float = schema.longitude("longitude of the landing threshold", key="")
    bearing_true_deg: float | None = schema.number(
        "true bearing of the runway, from the positions of both ends where they are known", "deg", 0, 360,
        required=False)
    length_ft: float = schema.number("length of the runway, end to end", "ft", 500, 20000)
    displaced_threshold_ft: float = schema.number(
        "from the runway's beginning to the landing threshold, 0 if they are one", "ft", 0, 10000)
    threshold_elevation_ft: float = schema.number(
        "elevation of the landing threshold", "ft", LOWEST_ALTITUDE_FT, 16000)
    source: str = schema.text("where these figures are from", longest=120, example="the runway's coded record")

    def faults(self) -> Iterator[FaultRow]:
        """The landing threshold lies on the runway."""
        if self.displaced_threshold_ft >= self.length_ft:
            actual = f"{trimmed(self.displaced_threshold_ft)} on a runway of {trimmed_quantity(self.length_ft, 'ft')}"
            yield ("displaced_threshold_ft", actual, "less than the length of the runway", "Correct one of the two.")


@dataclass(frozen=True, kw_only=True)
class Chart:
    """What the chart prints."""

    course_deg: float = schema.number("final approach course", "deg", 0, 360)
    course_reference: str = schema.choice("what courses are measured from", ("magnetic", "true"))
    course_computed: bool = schema.flag("whether the course was computed from the segment, and not yet read")
    variation_deg: float = schema.number("magnetic variation of record, east positive", "deg", -180, 180)
    variation_year: int | None = schema.whole("year of the variation of record", "", 1940, 2100, required=False)
    glidepath_deg: float | None = schema.number("glidepath angle", "deg", 2, 9, required=False)
    tch_ft: float | None = schema.number("threshold crossing height", "ft", 0, 200, required=False)
    threshold_elevation_ft: float = schema.number("threshold elevation", "ft", LOWEST_ALTITUDE_FT, 16000)
    tdze_ft: float | None = schema.number(
        "touchdown zone elevation", "ft", LOWEST_ALTITUDE_FT, 16000, required=False)
    airport_elevation_ft: float = schema.number("airport elevation", "ft", LOWEST_ALTITUDE_FT, 16000)
    runway_length_ft: float = schema.number("length of the runway, end to end", "ft", 500, 20000)
    displaced_threshold_ft: float | None = schema.number(
        "from the runway's beginning to the threshold", "ft", 0, 10000, required=False)
    vnav_lowest_c: float | None = schema.number(
        "lowest temperature for uncompensated baro-VNAV", "deg C", -80, 40, required=False)
    vnav_highest_c: float | None = schema.number(
        "highest temperature for uncompensated baro-VNAV", "deg C", 0, 80, required=False)
    cold_temperature_airport_c: float | None = schema.number(
        "at and below which altitudes are corrected for cold", "deg C", -80, 20, required=False)
    notes: tuple[str, ...] = schema.texts("notes that bear on the approach")
    fixes: tuple[Fix, ...] = schema.tables(Fix, "fixes in the order flown", least=2, unique="name", key="fix")
    minima: tuple[Minima, ...] = schema.tables(Minima, "lines of minima", least=1, excused="to_be_filled")
    missed: Missed | None = schema.table(Missed, "the missed approach", required=False)
    lights: Lights | None = schema.table(Lights, "the approach lights, if there are any", required=False)
    msa: tuple[SafeAltitude, ...] = schema.tables(SafeAltitude, "minimum safe altitudes by sector")
    from_coded_record: bool = schema.flag("whether this side was filled from coded records, the chart not yet read")
    to_be_filled: tuple[str, ...] = schema.choices("what is to be filled from the chart", tuple(TO_BE_FILLED))
    coded_legs: tuple[str, ...] = schema.texts("what is coded and not understood, in words", most=200)

    @property
    def touchdown_zone_ft(self) -> float:
        """What heights above touchdown count from, ft: the TDZE, the threshold's elevation where none is printed."""
        return self.threshold_elevation_ft if self.tdze_ft is None else self.tdze_ft

    def derived_fields(self) -> dict[str, object]:
        """The touchdown zone elevation that counts, for the phone."""
        return {"touchdown_zone_ft": self.touchdown_zone_ft}

    def faults(self) -> Iterator[FaultRow]:
        """One PFAF, one MAP, in that order, legs that begin at other fixes, and one minimum per line and category."""
        names = [fix.name for fix in self.fixes]
        roles = [fix.role for fix in self.fixes]
        for role in ("PFAF", "MAP"):
            if roles.count(role) != 1:
                yield "fix", f"{roles.count(role)} fixes of role {role}", "one", "Correct the roles."
        if roles.count("PFAF") == roles.count("MAP") == 1 and roles.index("PFAF") > roles.index("MAP"):
            yield "fix", "the MAP before the PFAF", "fixes in the order flown", "Reorder them."
        first = self.fixes[0]
        if first.leg_from is None and (first.leg_course_deg, first.leg_distance_nm) != (None, None):
            yield "fix[1]", "a leg to the first fix", "a leg with leg_from", "Say where the leg begins."
        for number, fix in enumerate(self.fixes, 1):
            if fix.leg_from is not None and (fix.leg_from not in names or fix.leg_from == fix.name):
                yield f"fix[{number}].leg_from", fix.leg_from, "another fix of this list", "Correct the name."
        yield from self._one_minimum()
        yield from self._filled()

    def _one_minimum(self) -> Iterator[FaultRow]:
        """A category stands once under a line of minima: which of two counts, nobody could say."""
        categories: dict[str, str] = {}
        for number, row in enumerate(self.minima, 1):
            before = categories.get(row.line, "")
            if again := "".join(letter for letter in row.categories if letter in before):
                yield (f"minima[{number}].categories", f"{again} under {row.line} again",
                       f"each category once under {row.line}",
                       "Correct the categories; of two minima keep the higher one, and name the other in notes.")
            categories[row.line] = before + row.categories

    def _filled(self) -> Iterator[FaultRow]:
        """What is listed as to be filled is not there yet."""
        for key in self.to_be_filled:
            table, _, inner = key.rpartition(".")
            holder = getattr(self, table) if table else self
            if holder is not None and getattr(holder, inner) not in (None, ()):
                yield "to_be_filled", f"{key}, which is filled", "keys that are missing", "Remove it from the list."

"""What each side of the cockpit has set, and what the approach asks for: plain records, for `lpv.setup.checks`."""

from lpv.core.errors import DomainError, shown

NAMES = ("left", "right")
SOURCES = ("SBAS", "ILS", "FMS lateral navigation")
LEVELS = ("LPV", "LP", "LNAV/VNAV", "LNAV", "none")
KINDS = ("DA", "MDA")
UNITS = ("inHg", "hPa")
ALTIMETER_RANGE = {"inHg": (27.0, 32.0), "hPa": (914.0, 1084.0)}


class Line:
    """One line of minima: its name, its kind (DA or MDA) and its altitude in ft."""

    def __init__(self, name: str, kind: str, altitude_ft: float) -> None:
        self.name = _one_of("line", name, LEVELS[:4])
        self.kind = _one_of("kind of minimum", kind, KINDS)
        self.altitude_ft = altitude_ft


class Wanted:
    """What the approach asks for.

    title, channel, path_id, course_deg, cycle: as the chart prints them
    best_level:   level of service that the approach is made for, LPV or LP
    lines:        Line for each line of minima of the aircraft's category, straight in
    missed_altitude_ft: altitude of the missed approach, None if the chart prints none
    airport_elevation_ft: what heights for cold corrections count from
    cold_c:       at and below which altitudes are corrected for cold, None if nowhere
    lowest_da_ft: lowest DA that the operator allows here, None if it has no floor
    above_mda_ft: what the operator adds to an MDA, so that the go-around begins above it
    """

    def __init__(
        self, title: str, channel: int, path_id: str, course_deg: float, cycle: str, best_level: str,
        lines: "list[Line]", missed_altitude_ft: "float | None", airport_elevation_ft: float,
        cold_c: "float | None" = None, lowest_da_ft: "float | None" = None,
        above_mda_ft: float = 0.0,
    ) -> None:
        self.title = title
        self.channel = channel
        self.path_id = path_id
        self.course_deg = course_deg
        self.cycle = cycle
        self.best_level = best_level
        self.lines = lines
        self.missed_altitude_ft = missed_altitude_ft
        self.airport_elevation_ft = airport_elevation_ft
        self.cold_c = cold_c
        self.lowest_da_ft = lowest_da_ft
        self.above_mda_ft = above_mda_ft

    def line(self, name: str) -> "Line | None":
        """The line of minima of this name, None if there is none."""
        for line in self.lines:
            if line.name == name:
                return line
        return None


class Side:
    """What one side has set.

    name: left or right;  title, channel, path_id: of the loaded procedure
    source: the guidance source that is selected, one of SOURCES
    tuned_mhz: every navigation frequency that is tuned
    course_deg, minimum_kind (DA or MDA), minimum_ft, altimeter, missed_altitude_ft: as set
    level: the level of service that is announced, one of LEVELS
    """

    def __init__(
        self, name: str, title: str, channel: int, path_id: str, source: str, tuned_mhz: "list[float]",
        course_deg: float, altimeter: float, level: str, minimum_kind: str, minimum_ft: float,
        missed_altitude_ft: float,
    ) -> None:
        self.name = _one_of("side", name, NAMES)
        self.title = title
        self.channel = channel
        self.path_id = path_id
        self.source = _one_of("source", source, SOURCES)
        self.tuned_mhz = list(tuned_mhz)
        self.course_deg = course_deg
        self.altimeter = altimeter
        self.level = _one_of("level", level, LEVELS)
        self.minimum_kind = _one_of("kind of minimum", minimum_kind, KINDS)
        self.minimum_ft = minimum_ft
        self.missed_altitude_ft = missed_altitude_ft


class Setup:
    """The cockpit: both sides, and what they have in common.

    flying: the side of the pilot flying;  left, right: a Side each
    day: day number of the flight (`lpv.core.airac`);  cycle: data cycle in the aircraft
    altimeter_unit: inHg or hPa;  reported: the altimeter setting reported, in that unit
    temperature_c: reported at the aerodrome, None if it does not matter
    armed: whether the approach is armed
    across_nm, track_deg: where the aircraft is (right of the final course positive) and where it flies to,
        in the reference of the courses; None if not in flight
    previous_course_deg: final course of the approach set up before, None if there was none
    """

    def __init__(
        self, flying: str, left: Side, right: Side, day: int, cycle: str, altimeter_unit: str, reported: float,
        temperature_c: "float | None" = None, armed: bool = False, across_nm: "float | None" = None,
        track_deg: "float | None" = None, previous_course_deg: "float | None" = None,
    ) -> None:
        self.flying = _one_of("pilot flying", flying, NAMES)
        self.left = left
        self.right = right
        self.day = day
        self.cycle = cycle
        self.altimeter_unit = _one_of("altimeter unit", altimeter_unit, UNITS)
        self.reported = reported
        self.temperature_c = temperature_c
        self.armed = armed
        self.across_nm = across_nm
        self.track_deg = track_deg
        self.previous_course_deg = previous_course_deg

    def sides(self) -> "tuple[Side, Side]":
        """Left and right, in this order."""
        return self.left, self.right


def _one_of(what: str, word: str, allowed: "tuple[str, ...]") -> str:
    if word not in allowed:
        raise DomainError(f"{what}: found {shown(word)}; allowed: {', '.join(allowed)}.")
    return word

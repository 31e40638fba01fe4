"""What each side of the cockpit has set.  None stands for what nobody has read; it is never taken as right."""

from lpv.core.errors import DomainError, shown
from lpv.decide.lines import LEVELS

NAMES = ("left", "right")
SOURCES = ("SBAS", "ILS", "FMS lateral navigation")
KINDS = ("DA", "MDA")
UNITS = ("inHg", "hPa")
ALTIMETER_RANGE = {"inHg": (27.0, 32.0), "hPa": (914.0, 1084.0)}


class Side:
    """What one side has set.

    name: left or right;  title, channel, path_id: of the loaded procedure
    source: the guidance source that is selected, one of SOURCES
    tuned_mhz: every navigation frequency that is tuned
    course_deg, minimum_kind (DA or MDA), minimum_ft, altimeter, missed_altitude_ft: as set
    level: the level of service that is annunciated, one of LEVELS
    """

    def __init__(
        self, name: str, title: "str | None" = None, channel: "int | None" = None, path_id: "str | None" = None,
        source: "str | None" = None, tuned_mhz: "list[float] | None" = None, course_deg: "float | None" = None,
        altimeter: "float | None" = None, level: "str | None" = None, minimum_kind: "str | None" = None,
        minimum_ft: "float | None" = None, missed_altitude_ft: "float | None" = None,
    ) -> None:
        self.name = _one_of("side", name, NAMES)
        self.title = title
        self.channel = channel
        self.path_id = path_id
        self.source = _one_of_or_none("source", source, SOURCES)
        self.tuned_mhz = None if tuned_mhz is None else list(tuned_mhz)
        self.course_deg = course_deg
        self.altimeter = altimeter
        self.level = _one_of_or_none("level", level, LEVELS)
        self.minimum_kind = _one_of_or_none("kind of minimum", minimum_kind, KINDS)
        self.minimum_ft = minimum_ft
        self.missed_altitude_ft = missed_altitude_ft


class Setup:
    """The cockpit: both sides, and what they have in common.

    flying: the side of the pilot flying;  left, right: a Side each
    day: day number of the flight (`lpv.core.airac`);  cycle: data cycle in the aircraft
    altimeter_unit: inHg or hPa;  reported: the altimeter setting reported, in that unit
    temperature_c: reported at the aerodrome
    armed: whether the approach is armed
    across_nm, track_deg: where the aircraft is (right of the final course positive) and where it flies to,
        in the reference of the courses; None if not in flight
    previous_course_deg: final course of the approach set up before, None if there was none
    speed_kt: to be flown, if above VREF: a higher category's minima may bind
    remote_addition_ft: printed for a remote altimeter setting, if one is in use
    zone_not_clear: whether the precision obstacle free zone may not be clear
    cold_segments: segments that the list of cold temperature airports marks, () for all
    """

    def __init__(
        self, flying: "str | None", left: Side, right: Side, day: "int | None" = None, cycle: "str | None" = None,
        altimeter_unit: "str | None" = None, reported: "float | None" = None, temperature_c: "float | None" = None,
        armed: "bool | None" = None, across_nm: "float | None" = None, track_deg: "float | None" = None,
        previous_course_deg: "float | None" = None, speed_kt: "float | None" = None,
        remote_addition_ft: "float | None" = None, zone_not_clear: "bool | None" = None,
        cold_segments: "tuple[str, ...]" = (),
    ) -> None:
        self.speed_kt, self.remote_addition_ft = speed_kt, remote_addition_ft
        self.zone_not_clear, self.cold_segments = zone_not_clear, tuple(cold_segments)
        self.flying = _one_of_or_none("pilot flying", flying, NAMES)
        self.left = left
        self.right = right
        self.day = day
        self.cycle = cycle
        self.altimeter_unit = _one_of_or_none("altimeter unit", altimeter_unit, UNITS)
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


def _one_of_or_none(what: str, word: "str | None", allowed: "tuple[str, ...]") -> "str | None":
    return None if word is None else _one_of(what, word, allowed)

"""Legs of a coded approach: what their columns say, and the same in words.

Source: ARINC Specification 424-18.  The meaning of the altitude descriptions +, V and blank is confirmed by
published records; that of the others, and of waypoint descriptions those records lack, is from memory.
"""

from dataclasses import dataclass

from lpv.arinc.columns import LEG, altitude_ft, columns_of, course_deg, distance_nm, time_min
from lpv.arinc.reader import Record, position_key
from lpv.core.errors import DataError, Fault

TO_A_FIX = {"IF": "begin at", "TF": "track to", "CF": "course to", "DF": "direct to", "RF": "arc to"}
HOLDS = {"HF": "hold once at", "HM": "hold at"}
UNDERSTOOD = {**TO_A_FIX, **HOLDS, "CA": "climb"}
STRAIGHT = ("TF", "CF")
AT = {" ": "at", "X": "at", "G": "at", "I": "at", "+": "at or above", "V": "at or above", "H": "at or above",
      "J": "at or above", "-": "at or below", "Y": "at or below"}
SECOND_ON_PATH = "VXYGHIJ"
INITIAL = ("A", "C", "D")  # initial approach fix, the same with a hold, the same on the final course


@dataclass(frozen=True)
class Leg:
    """One leg: the line that it stands on, and the texts of its columns (`lpv.arinc.columns.LEG`)."""

    number: int
    approach: str
    route: str
    transition: str
    sequence: str
    fix: str
    fix_region: str
    fix_section: str
    continuation: str
    description: str
    turn: str
    terminator: str
    radius: str
    course: str
    distance: str
    altitude_is: str
    altitude: str
    altitude_2: str
    speed: str
    angle: str
    centre: str
    multiple: str
    cycle: str

    @property
    def position_key(self) -> str:
        """Under which name the position of its fix is known; "" without a fix."""
        return position_key(self.fix_section, self.fix_region, self.fix) if self.fix else ""

    @property
    def use(self) -> str:
        """What its fix is for: the fourth letter of the description, F final approach, M missed approach point."""
        return f"{self.description:4}"[3]

    @property
    def is_understood(self) -> bool:
        """Whether this project knows what its path terminator means."""
        return self.terminator in UNDERSTOOD


def legs_of(records: list[Record], file: str) -> list[Leg]:
    """The primary records of one approach as legs, in order; DataError with every fault of every column."""
    legs, faults = [], []
    for record in records:
        texts, found = columns_of(record.text, LEG, file, f"line {record.number}")
        faults += found
        if not found:
            legs.append(Leg(record.number, **texts))
    if not faults:
        faults = _out_of_order(legs, file)
    if faults:
        raise DataError(faults)
    return legs


def _out_of_order(legs: list[Leg], file: str) -> list[Fault]:
    """Sequence numbers rise within a route; the same number again is a second record."""
    faults: list[Fault] = []
    last: dict[tuple[str, str], str] = {}
    for leg in legs:
        before = last.get((leg.route, leg.transition), "")
        if leg.sequence <= before:
            again = "a second record" if leg.sequence == before else "a record out of its order"
            faults.append(Fault(file, f"line {leg.number}", f"{again} of {place(leg)}",
                                "one of each, in rising order", "Get the file again."))
        last[leg.route, leg.transition] = leg.sequence
    return faults


def place(leg: Leg) -> str:
    """Which leg it is: "R28L VINCO 020"."""
    return " ".join(part for part in (leg.approach, leg.transition, leg.sequence) if part)


def stated(leg: Leg, *, on_path: bool = False) -> tuple[dict[str, int | str], str]:
    """The altitudes of a leg as keys of a fix, and in words what these keys cannot hold ("" for nothing).

    on_path: whether a plain altitude is one on the vertical path, as at the missed approach point.
    """
    code, first, second = leg.altitude_is or " ", altitude_ft(leg.altitude), altitude_ft(leg.altitude_2)
    if not leg.altitude and not leg.altitude_2:
        return {}, ""
    if code == " " and first is not None and on_path:
        return {"path_altitude_ft": first}, ""
    if code == "B" and first is not None and second is not None:
        low, high = sorted((first, second))
        return {"altitude_ft": low, "altitude_rule": "at or above"}, f"and at or below {high} ft"
    if code not in AT or first is None or (leg.altitude_2 and (second is None or code not in SECOND_ON_PATH)):
        return {}, f"altitude coded as {' '.join(filter(None, (code.strip(), leg.altitude, leg.altitude_2)))}"
    keys: dict[str, int | str] = {"altitude_ft": first, "altitude_rule": AT[code]}
    return keys | ({} if second is None else {"path_altitude_ft": second}), ""


def words(leg: Leg) -> str:
    """A leg in words, everything of it that this project reads: "course 284.9 to 600 ft or above"."""
    kind = UNDERSTOOD.get(leg.terminator, f"path terminator {leg.terminator}, not read here,")
    turn = {"L": "turn left, ", "R": "turn right, "}.get(leg.turn, "")
    if leg.terminator in HOLDS:
        turn = ""
    parts = [f"{turn}{kind} {leg.fix}".strip(), *_course_words(leg), _altitude_words(leg)]
    if leg.speed:
        parts.append(f"speed limit {int(leg.speed)} kt")
    return ", ".join(part for part in parts if part)


def _course_words(leg: Leg) -> list[str]:
    parts = []
    if (course := course_deg(leg.course)) is not None:
        name = "inbound course" if leg.terminator in HOLDS else "course"
        parts.append(f"{name} {course[0]:05.1f}{' true' if course[1] else ''}")
    if leg.terminator in HOLDS:
        parts.append({"L": "left turns", "R": "right turns"}.get(leg.turn, "turns not coded"))
    if (distance := distance_nm(leg.distance)) is not None:
        parts.append(f"{distance:.1f} NM")
    if (minutes := time_min(leg.distance)) is not None:
        parts.append(f"{minutes:.1f} min")
    if leg.radius:
        parts.append(f"radius {int(leg.radius) / 1000:.3f} NM about {leg.centre}")
    return parts


def _altitude_words(leg: Leg) -> str:
    keys, more = stated(leg)
    said = [f"{keys['altitude_rule']} {keys['altitude_ft']} ft"] if "altitude_ft" in keys else []
    said += [f"{keys['path_altitude_ft']} ft on the path"] if "path_altitude_ft" in keys else []
    return ", ".join([*said, *([more] if more else [])])

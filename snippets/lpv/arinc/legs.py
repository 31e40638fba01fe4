"""Legs of a coded approach: what their columns say.

Source: ARINC Specification 424-18; `lpv.arinc.codes` says which meanings published records confirm.
"""

from dataclasses import dataclass
from functools import lru_cache

from lpv.arinc import codes
from lpv.arinc.columns import altitude_ft, angle_coded_deg, level_ft
from lpv.arinc.leg_layouts import LEG
from lpv.arinc.lines import Record
from lpv.arinc.positions import Reference
from lpv.core.errors import DataError, Fault

FINAL, TRANSITION, MISSED = "final", "transition", "missed approach"


@dataclass(frozen=True)
class Stated:
    """The altitudes of a leg.

    rule:       how `altitude_ft` binds, "" without one; `codes.BETWEEN` has a highest altitude too
    path_ft, glide_slope_ft: the second altitude where it is one on the path or on the glideslope
    is_level:   whether they are flight levels, in feet at standard pressure
    unknown:    what is coded and not understood, as it stands; "" for nothing
    """

    rule: str = ""
    altitude_ft: int | None = None
    highest_ft: int | None = None
    path_ft: int | None = None
    glide_slope_ft: int | None = None
    is_level: bool = False
    unknown: str = ""


@dataclass(frozen=True)
class Leg:
    """One leg: the line that it stands on, its record, and the texts of its columns (`lpv.arinc.leg_layouts.LEG`)."""

    number: int
    line: str
    texts: dict[str, str]

    def __getattr__(self, name: str) -> str:
        """The text of a column, without the blanks behind."""
        try:
            return self.texts[name]
        except KeyError:
            raise AttributeError(name) from None

    @property
    def fix_reference(self) -> Reference:
        """How the record names its fix."""
        return Reference(self.fix, self.fix_region, self.fix_section)

    @property
    def centre_reference(self) -> Reference:
        """How the record names the centre of its arc, or of the safe altitudes."""
        return Reference(self.centre, self.centre_region, self.centre_section)

    def described(self, letter: int) -> str:
        """One of the four letters of the waypoint description, counted from 1; " " for none."""
        return f"{self.description:4}"[letter - 1]

    @property
    def role(self) -> str:
        """What its fix is for, by the fourth letter of the description; "" for nothing."""
        return codes.ROLES.get(self.described(4), "")

    @property
    def is_fly_over(self) -> bool:
        """Whether its fix is to be flown over."""
        return bool(self.fix) and self.described(2) in codes.FLY_OVER

    @property
    def is_understood(self) -> bool:
        """Whether this project knows what its path terminator means."""
        return self.terminator in codes.TERMINATORS

    @property
    def angle_deg(self) -> float | None:
        """The vertical angle, descent negative; None where none is coded."""
        return angle_coded_deg(self.angle)


def legs_of(records: list[Record], file: str) -> list[Leg]:
    """The primary records of one approach as legs, in order; DataError with every fault of every column."""
    legs, faults = [], []
    for record in records:
        texts, line_faults = LEG.texts(record.text, file, f"line {record.number}")
        faults += line_faults
        if not line_faults:
            legs.append(Leg(record.number, record.text, texts))
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
            again = "a second record" if leg.sequence == before else "a record out of sequence"
            faults.append(Fault(file, f"line {leg.number}", f"{again} of {place(leg)}",
                                "one of each, in rising order", "Get the file again."))
        last[leg.route, leg.transition] = leg.sequence
    return faults


def place(leg: Leg) -> str:
    """Which leg it is: "R28L VINCO 020"."""
    return " ".join(part for part in (leg.approach, leg.transition, leg.sequence) if part)


def stated(leg: Leg) -> Stated:
    """The altitudes of a leg, as its altitude description binds them."""
    return _stated(leg.altitude_is, leg.altitude, leg.altitude_2)


@lru_cache(maxsize=4096)
def _stated(code: str, altitude: str, altitude_2: str) -> Stated:
    if not altitude and not altitude_2:
        return Stated(unknown=f"altitude description {code} without an altitude") if code else Stated()
    levels = [text for text in (altitude, altitude_2) if level_ft(text) is not None]
    plain = [text for text in (altitude, altitude_2) if text and text not in levels]
    first, second = feet(altitude), feet(altitude_2)
    rule, other = codes.ALTITUDES.get(code or " ", ("", ""))
    unknown = Stated(unknown=f"altitude coded as {' '.join(filter(None, (code, altitude, altitude_2)))}")
    is_level = bool(levels)
    if levels and plain:
        return unknown
    if rule == codes.BETWEEN and first is not None and second is not None:
        return Stated(rule, min(first, second), max(first, second), is_level=is_level)
    if not rule and other and first is None and second is not None:
        return Stated(other, second, is_level=is_level)
    if rule in ("", codes.BETWEEN) or first is None or (altitude_2 and (second is None or not other)):
        return unknown
    return Stated(rule, first, None, second if other == codes.ON_PATH else None,
                  second if other == codes.GLIDE_SLOPE else None, is_level)


def feet(text: str) -> int | None:
    """An altitude or flight level in ft; None for blanks and unknown ones."""
    altitude = altitude_ft(text)
    return level_ft(text) if altitude is None else altitude

"""Visibility and runway visual range: the regulations' tables, read as they say.

United States: 14 CFR 91.175(h)(2), a value between two rows takes the next
higher row, nothing is interpolated (FAA AIM 5-4-20.a).  EASA: runway visual
range by decision height and approach lights (AMC5 CAT.OP.MPA.110, Table 5).
"""

import math

from lpv.core.errors import in_range
from lpv.core.text import miles, trimmed_quantity, with_unit
from lpv.core.units import FT_PER_SM, FT_PER_UNIT, M_PER_FT
from lpv.facts import value, value_of
from lpv.facts.visual import EASA_RVR_ROWS, LIGHT_CLASSES, RVR_ROWS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.approach.schema import Minima

RVR_FT = tuple(row[0] for row in RVR_ROWS)
# Key of a row of minima -> its unit, and whether it is a runway visual range; a row has one of them at most.
PRINTED = (("visibility_sm", "SM", False), ("visibility_m", "m", False), ("rvr_ft", "ft", True), ("rvr_m", "m", True))


class PrintedVisibility:
    """What a row of minima prints: its size in its own unit (SM, m or ft), and whether it is a runway visual range."""

    def __init__(self, size: float, unit: str, is_rvr: bool) -> None:
        self.size, self.unit, self.is_rvr = size, unit, is_rvr

    @property
    def length_ft(self) -> float:
        """The same length in ft: a conversion of units alone, by no table."""
        return self.size * FT_PER_UNIT[self.unit]

    @property
    def short(self) -> str:
        """As the chart prints it: "1 1/4 SM", "1500 m", "RVR 2400 ft"."""
        if self.unit == "SM":
            return with_unit(miles(self.size), "SM")
        return ("RVR " if self.is_rvr else "") + trimmed_quantity(self.size, self.unit)

    @property
    def words(self) -> str:
        """The same in a sentence: "visibility 1 1/4 SM", "RVR 2400 ft"."""
        return self.short if self.is_rvr else "visibility " + self.short


def printed_visibility(row: "Minima") -> "PrintedVisibility | None":
    """The visibility or runway visual range of a row of the chart; None where it prints none."""
    for key, unit, is_rvr in PRINTED:
        size = getattr(row, key)
        if size is not None:
            return PrintedVisibility(size, unit, is_rvr)
    return None


def printed_visibility_ft(row: "Minima") -> "float | None":
    """The printed visibility or runway visual range in ft; None where none is printed."""
    printed = printed_visibility(row)
    return None if printed is None else printed.length_ft


def printed_visibility_text(row: "Minima") -> str:
    """The printed visibility as `PrintedVisibility.short`; "" where none is printed."""
    printed = printed_visibility(row)
    return "" if printed is None else printed.short


def visibility_for_rvr_sm(rvr_ft: float) -> float:
    """Ground visibility, statute miles, in place of a prescribed runway visual range (United States).

    rvr_ft: 1600 to 6000; DomainError outside: the table ends there.
    Source: 14 CFR 91.175(h)(2); between rows the next higher, AIM 5-4-20.a.
    """
    in_range("runway visual range", rvr_ft, RVR_FT[0], RVR_FT[-1], "ft")
    row_ft = next(row for row in RVR_FT if row >= rvr_ft)
    return _row_sm(row_ft)


def rvr_for_visibility_ft(visibility_sm: float) -> float:
    """Runway visual range, ft, beside a visibility in the table; between rows the next higher.

    visibility_sm: 1/4 to 1 1/4 statute miles; DomainError outside
    Source: 14 CFR 91.175(h)(2) read from the other side.
    """
    lowest_sm, highest_sm = _row_sm(RVR_FT[0]), _row_sm(RVR_FT[-1])
    in_range("visibility", visibility_sm, lowest_sm, highest_sm, "SM")
    return float(next(row for row in RVR_FT if _row_sm(row) >= visibility_sm))


def _row_sm(rvr_ft: int) -> float:
    return value_of(f"rvr_{rvr_ft}_ft_as_sm")


def visibility_ft(visibility_sm: float) -> float:
    """A visibility of 0 to 100 statute miles in ft: a unit conversion, not the table."""
    return in_range("visibility", visibility_sm, 0.0, 100.0, "SM") * FT_PER_SM


def light_class_easa(lights_m: float) -> str:
    """EASA's class of an approach light system of 0 to 2000 m: "full", "intermediate", "basic" or "no".

    GM2 CAT.OP.MPA.110, Table 1; DomainError outside.
    """
    in_range("length of the lights", lights_m, 0.0, 2000.0, "m")
    for name in LIGHT_CLASSES[:-1]:
        if lights_m >= value_of(f"lights_{name}_m"):
            return name
    return LIGHT_CLASSES[-1]


def rvr_for_decision_height_easa_m(decision_height_ft: float, lights_m: float) -> float:
    """Lowest runway visual range, m, by EASA's table for a decision height and a length of lights.

    decision_height_ft: 200 to 400 (the rows here); lights_m: 0 to 2000; DomainError outside.
    Source: AMC5 CAT.OP.MPA.110, Table 5; the same rows in AMC2 NCO.OP.110, Table 2.
    """
    in_range("decision height", decision_height_ft, 200.0, EASA_RVR_ROWS[-1][0], "ft")
    row_ft = next(row[0] for row in EASA_RVR_ROWS if row[0] >= decision_height_ft)
    return value_of(f"easa_rvr_dh_{row_ft}_ft_{light_class_easa(lights_m)}_lights_m")


def rvr_by_formula_easa_m(decision_height_ft: float, angle_deg: float, lights_m: float) -> float:
    """The runway visual range, m, of the formula behind that table: what is seen from the decision height.

    decision_height_ft: 0 to 2000; angle_deg of the descent: 1 to 10; lights_m: 0 to 2000; DomainError outside.
    Source: AMC5 CAT.OP.MPA.110(a)(2); the table rounds it, and is never under 550 m.
    """
    in_range("decision height", decision_height_ft, 0.0, 2000.0, "ft")
    in_range("angle", angle_deg, 1.0, 10.0, "deg")
    in_range("length of the lights", lights_m, 0.0, 2000.0, "m")
    return decision_height_ft * M_PER_FT / math.tan(math.radians(angle_deg)) - lights_m


def needs_head_up_display_easa(rvr_m: float) -> bool:
    """Whether EASA asks for full lights, touchdown zone and centerline lights and a head-up display at this RVR.

    An approach with vertical guidance that is no precision approach, under 750 m: AMC5 CAT.OP.MPA.110(a)(4)(iii).
    rvr_m: 0 to 20 000; DomainError outside
    """
    return in_range("runway visual range", rvr_m, 0.0, 20000.0, "m") < value("easa_rvr_head_up_below_m")


def visibility_for_reported_rvr_sm(rvr_ft: float) -> float:
    """The visibility in SM that a reported runway visual range is worth: the next lower row, never rounded up.

    rvr_ft: 1600 to 10 000; outside DomainError, over the table its last row.  Source: 14 CFR 91.175(h)(2); reading it
    downwards is this handbook's caution, since the table is written for what a chart asks.
    """
    in_range("reported runway visual range", rvr_ft, RVR_FT[0], 10000.0, "ft")
    return _row_sm(max(row for row in RVR_FT if row <= rvr_ft))

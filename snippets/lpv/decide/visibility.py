"""Visibility and runway visual range: the regulations' tables, read as they say.

United States: 14 CFR 91.175(h)(2), a value between two rows takes the next
higher row, nothing is interpolated (FAA AIM 5-4-20.a).  EASA: runway visual
range by decision height and approach lights, from memory.
"""

from lpv.core.errors import in_range
from lpv.core.units import FT_PER_SM
from lpv.facts import value
from lpv.facts.visual import EASA_RVR_ROWS, LIGHT_CLASSES, RVR_ROWS

RVR_FT = tuple(row[0] for row in RVR_ROWS)


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
    return value(f"rvr_{rvr_ft}_ft_as_sm")


def visibility_ft(visibility_sm: float) -> float:
    """A visibility of 0 to 100 statute miles in ft: a unit conversion, not the table."""
    return in_range("visibility", visibility_sm, 0.0, 100.0, "SM") * FT_PER_SM


def light_class_easa(lights_m: float) -> str:
    """EASA's class of an approach light system of 0 to 2000 m: "full", "intermediate", "basic" or "no".

    From memory; DomainError outside.
    """
    in_range("length of the lights", lights_m, 0.0, 2000.0, "m")
    for name in LIGHT_CLASSES[:-1]:
        if lights_m >= value(f"lights_{name}_m"):
            return name
    return LIGHT_CLASSES[-1]


def rvr_for_decision_height_easa_m(decision_height_ft: float, lights_m: float) -> float:
    """Lowest runway visual range, m, by EASA's table for a decision height and a length of lights.

    decision_height_ft: 200 to 400 (the rows here); lights_m: 0 to 2000; DomainError outside.
    Source: AMC5 CAT.OP.MPA.110 and the older EU-OPS 1.430 Table 5, from memory.
    """
    in_range("decision height", decision_height_ft, 200.0, EASA_RVR_ROWS[-1][0], "ft")
    row_ft = next(row[0] for row in EASA_RVR_ROWS if row[0] >= decision_height_ft)
    return value(f"easa_rvr_dh_{row_ft}_ft_{light_class_easa(lights_m)}_lights_m")

"""Full scale of the course from the DA of the example into the missed approach, and what it makes of one offset."""

from lpv.core.text import number, quantity
from lpv.core.units import FT_PER_NM
from lpv.decide.final_path import course_dot_ft, course_full_scale_ft, distance_at_altitude_nm
from lpv.path.deviation import missed_after_turn_full_scale_ft, missed_first_leg_full_scale_ft
from lpv_site.department.data import example, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table


def show() -> Shown:
    """A row for each part of the way."""
    approach = example()
    da_nm = distance_at_altitude_nm(approach, example_row().altitude_ft)
    at_da_ft, offset_ft, turn_deg = (
        course_full_scale_ft(approach, da_nm), course_dot_ft(approach, da_nm), approach.geometry.missed_turn_deg)
    scales = [("at the DA, on final", at_da_ft)]
    if turn_deg is not None:
        scales.append((f"first leg, {quantity(abs(turn_deg), 'deg')} off the final",
                       missed_first_leg_full_scale_ft(turn_deg)))
    scales.append(("after the first turn", missed_after_turn_full_scale_ft()))
    rows = [
        (where, number(full_ft), number(full_ft / FT_PER_NM, 0.01), quantity(100.0 * offset_ft / full_ft, "%"))
        for where, full_ft in scales
    ]
    return Shown(table(["where", "full scale, ft", "NM", "same offset"], rows), {
        "offset": Value.of(offset_ft, "ft"), "at_da": Value.of(at_da_ft, "ft")})

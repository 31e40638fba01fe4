"""The same intercept turned in time and ten seconds late, in a wind behind: the page's live figure draws it."""

from lpv.core.text import nautical_miles, number, quantity
from lpv.core.units import FT_PER_NM
from lpv.fas.segment import garp_distance_ft, half_width_ft
from lpv.intercept.course import overshoot_late_nm, turn_onto_course
from lpv.motion.kinematics import wind_triangle
from lpv.path.deviation import two_dots, vectors_full_scale_ft
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import finding_and_table

# The final course runs north and is met 9 NM out, from its right.
TRACK_DEG, ANGLE_DEG, AIRSPEED_KT, WIND, LATE_S, MEETS_NM = 330.0, 30.0, 170.0, (120.0, 30.0), 10.0, 9.0


def show() -> Shown:
    """Where the turn ends when it begins in time, and when it begins late."""
    flying, segment = example_aircraft().flying, example().segment
    roll = flying.roll_rate_deg_per_s
    turn = turn_onto_course(TRACK_DEG, 0.0, AIRSPEED_KT, flying.bank_limit_deg, roll, *WIND)
    ground_kt = wind_triangle(TRACK_DEG, AIRSPEED_KT, *WIND).ground_speed_kt
    past_nm = overshoot_late_nm(ANGLE_DEG, ground_kt, LATE_S)
    width_ft = vectors_full_scale_ft(MEETS_NM, half_width_ft(segment, 0.0), garp_distance_ft(segment))
    dots = two_dots(past_nm * FT_PER_NM, width_ft)
    late = f"{quantity(LATE_S, 's')} late", f"{nautical_miles(past_nm, 0.01)} past", number(dots, 0.1)
    return Shown(finding_and_table(
        finding=f"Rolling in {nautical_miles(turn.cross_track_nm, 0.01)} from the course ends on it. "
        f"{quantity(LATE_S, 's')} later the same turn ends {nautical_miles(past_nm, 0.01)} past it: "
        f"{quantity(dots, 'dots', 0.1)} of two, at {nautical_miles(MEETS_NM, 1)}.",
        headers=["roll in", "ends", "dots"], rows=[("in time", "on the course", "0.0"), late],
    ), {
        "roll_in": Value.of(turn.cross_track_nm, "NM", 2), "past": Value.of(past_nm, "NM", 2),
        "dots": Value.of(dots, "dots", 1)})

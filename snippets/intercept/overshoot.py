"""The same intercept turned in time and ten seconds late, in a wind that pushes through the course."""

import math
from functools import partial
from typing import Any

from lpv.core.text import nautical_miles, number, quantity
from lpv.core.units import FT_PER_NM
from lpv.fas.segment import garp_distance_ft, half_width_ft
from lpv.intercept.course import TurnOn, overshoot_late_nm, turn_onto_course
from lpv.intercept.turn_track import turn_track
from lpv.motion.kinematics import distance_flown_ft, wind_triangle
from lpv.path.deviation import two_dots, vectors_full_scale_ft
from lpv_site.department.data import example, example_aircraft
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

# The final course runs north and is met 9 NM out, from its right.
TRACK_DEG, ANGLE_DEG, AIRSPEED_KT, WIND, LATE_S, MEETS_NM = 330.0, 30.0, 170.0, (120.0, 30.0), 10.0, 9.0
Place = tuple[float, float]


def show() -> Shown:
    """The figure: where the turn ends when it begins in time, and when it begins late."""
    flying, segment = example_aircraft().flying, example().segment
    roll = flying.roll_rate_deg_per_s
    turn = turn_onto_course(TRACK_DEG, 0.0, AIRSPEED_KT, flying.bank_limit_deg, roll, *WIND)
    curve = turn_track(turn, TRACK_DEG, 0.0, AIRSPEED_KT, roll, *WIND)
    ground_kt = wind_triangle(TRACK_DEG, AIRSPEED_KT, *WIND).ground_speed_kt
    past_nm = overshoot_late_nm(ANGLE_DEG, ground_kt, LATE_S)
    width_ft = vectors_full_scale_ft(MEETS_NM, half_width_ft(segment, 0.0), garp_distance_ft(segment))
    dots = two_dots(past_nm * FT_PER_NM, width_ft)
    late = f"{quantity(LATE_S, 's')} late", f"{nautical_miles(past_nm, 0.01)} past", number(dots, 0.1)
    late_nm = distance_flown_ft(ground_kt, LATE_S) / FT_PER_NM
    return Shown(figure(
        "overshoot-figure", partial(draw, turn, curve, late_nm, past_nm),
        finding=f"Rolling in {nautical_miles(turn.cross_track_nm, 0.01)} from the course ends on it. "
        f"{quantity(LATE_S, 's')} later the same turn ends {nautical_miles(past_nm, 0.01)} past it: "
        f"{quantity(dots, 'dots', 0.1)} of two, at {nautical_miles(MEETS_NM, 1)}.",
        headers=["roll in", "ends", "dots"], rows=[("in time", "on the course", "0.0"), late], height_in=2.4,
    ), {
        "roll_in": Value.of(turn.cross_track_nm, "NM", 2), "past": Value.of(past_nm, "NM", 2),
        "dots": Value.of(dots, "dots", 1)})


def ahead(place: Place, direction_deg: float, distance_nm: float) -> Place:
    """A place (before the threshold, right of the course) moved over the ground, NM."""
    angle = math.radians(direction_deg)
    return place[0] - distance_nm * math.cos(angle), place[1] + distance_nm * math.sin(angle)


def draw(turn: TurnOn, curve: list[Place], late_nm: float, past_nm: float, axes: Any) -> None:
    """Both turns from above, with the wind."""
    meets, arrow = (MEETS_NM, 0.0), (8.2, 0.85)
    starts = [ahead(meets, TRACK_DEG, -turn.lead_nm + late) for late in (late_nm, 0.0)]
    for start, colour, line in zip(starts, ("second", "first"), ("--", "-"), strict=True):
        turned = [(start[0] - along, start[1] + right) for along, right in curve]
        way = [ahead(meets, TRACK_DEG, -2.0), *turned, ahead(turned[-1], 0.0, 0.6)]
        axes.plot(*zip(*way, strict=True), line, color=COLOURS[colour])
    axes.axhline(0.0, color=COLOURS["ink"], linewidth=1.0)
    axes.plot(*starts[1], "o", color=COLOURS["answer"])
    axes.text(starts[1][0] - 0.1, 0.4, f"roll in, {nautical_miles(turn.cross_track_nm, 0.01)}",
              color=COLOURS["answer"], weight="bold")
    axes.text(8.3, -0.33, f"{quantity(LATE_S, 's')} late, {nautical_miles(past_nm, 0.01)} past",
              color=COLOURS["second"], ha="center")
    axes.text(10.2, -0.06, "final course")
    axes.text(8.3, 0.8, f"wind\n{quantity(WIND[1], 'kt')}", ha="right", va="center")
    axes.annotate("", ahead(arrow, WIND[0], -0.5), arrow, arrowprops={"arrowstyle": "->", "color": COLOURS["ink"]})
    axes.set_yticks([-0.5, 0.0, 0.5, 1.0], ["0.5 L", "0", "0.5 R", "1.0 R"])
    axes.set(xlabel="to the threshold, NM", ylabel="from the course, NM", xlim=(10.3, 7.3), ylim=(1.1, -0.6))

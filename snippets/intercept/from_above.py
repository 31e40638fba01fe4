"""From above the path: the rate that regains it before the stabilised gate."""

from functools import partial
from typing import Any

from lpv.core.text import feet, nautical_miles, number, quantity, rounded_down
from lpv.core.units import FT_PER_NM
from lpv.decide.final_path import descent_angle_deg
from lpv.facts import value
from lpv.intercept.glidepath import above_path_late_ft, regain_rate_fpm, regained_ft
from lpv.motion.kinematics import descent_rate_fpm, distance_for_height_ft
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

SPEED_KT, FAST_KT = 140.0, 160.0
SPEEDS = ((120.0, "third"), (SPEED_KT, "first"), (FAST_KT, "second"))
FROM_FT, HIGHEST_FT, ROOM_FT, LATE_S, STEP_FT = 2000.0, 600.0, 120.0, 10.0, 10.0


def show() -> Shown:
    """The figure: rate against height above the path at three ground speeds."""
    gate_ft, limit_fpm, gpa_deg = value("gate_imc_ft"), value("gate_sink_rate_fpm"), descent_angle_deg(example())
    within_nm = distance_for_height_ft(FROM_FT - gate_ft, gpa_deg) / FT_PER_NM
    most_ft = {speed_kt: regained_ft(limit_fpm, gpa_deg, within_nm, speed_kt) for speed_kt, _ in SPEEDS}
    down = {speed_kt: rounded_down(height_ft, STEP_FT) for speed_kt, height_ft in most_ft.items()}
    rate = partial(regain_rate_fpm, gpa_deg=gpa_deg, within_nm=within_nm)
    rows = [(quantity(speed_kt, "kt"), quantity(rate(0.0, ground_speed_kt=speed_kt), "ft/min"), feet(down[speed_kt]))
            for speed_kt, _ in SPEEDS]
    return Shown(figure(
        "above-figure", partial(draw, rate, down, limit_fpm),
        finding=f"From {number(FROM_FT)} down to {feet(gate_ft)} above the airport, {nautical_miles(within_nm)}, at no "
        f"more than {quantity(limit_fpm, 'ft/min')}, you can regain {feet(down[SPEED_KT])} from above the glidepath "
        f"at {quantity(SPEED_KT, 'kt')} ground speed, {feet(down[FAST_KT])} at {quantity(FAST_KT, 'kt')}.",
        headers=["ground speed", "on the glidepath", "most above"], rows=rows,
    ), {
        "late_s": quantity(LATE_S, "s"), "speed": quantity(SPEED_KT, "kt"),
        "late_ft": Value.of(above_path_late_ft(LATE_S, gpa_deg, SPEED_KT), "ft"),
        "most": Value(most_ft[SPEED_KT], "ft", quantity(down[SPEED_KT], "ft")),
        "false_rate": Value.of(descent_rate_fpm(SPEED_KT, value("ils_false_path_deg")), "ft/min"),
    })


def draw(rate: Any, most_ft: dict[float, float], limit_fpm: float, axes: Any) -> None:
    """A line for each speed, up to the limit."""
    lowest_fpm, highest_fpm = 550, 1420
    axes.axhspan(limit_fpm, highest_fpm, color=COLOURS["shade"], linewidth=0)
    axes.axhline(limit_fpm, color=COLOURS["ink"], linewidth=1.0)
    note = {"textcoords": "offset points"}
    axes.annotate("more than the highest sink rate", (0, highest_fpm), xytext=(4, -4), va="top", fontsize=8, **note)
    for speed_kt, colour in SPEEDS:
        rates = {above_ft: rate(above_ft, ground_speed_kt=speed_kt) for above_ft in (0.0, HIGHEST_FT)}
        axes.plot(list(rates), list(rates.values()), color=COLOURS[colour])
        axes.annotate(quantity(speed_kt, "kt"), (HIGHEST_FT, rates[HIGHEST_FT]), xytext=(3, 0), color=COLOURS[colour],
                      **note)
        place = most_ft[speed_kt], limit_fpm
        axes.plot(*place, "o", color=COLOURS["answer"])
        axes.annotate(number(most_ft[speed_kt]), place, xytext=(8, -4), va="top", color=COLOURS["answer"],
                      weight="bold", **note)
    axes.set(xlabel="above the glidepath, ft", ylabel="rate of descent, ft/min", xlim=(0, HIGHEST_FT + ROOM_FT),
             ylim=(lowest_fpm, highest_fpm))

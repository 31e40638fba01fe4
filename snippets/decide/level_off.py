"""Level at the DA instead of deciding: how fast the path falls away below, and what it takes to rejoin."""

from functools import partial
from typing import Any

from lpv.core.text import quantity
from lpv.decide.last_mile import LevelOff, level_off, off_scale_s
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example, example_row, example_speed_kt
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

SECONDS, LEVEL_S = range(9), 5


def show() -> Shown:
    """The figure: the aircraft, and full scale, above the path."""
    speed_kt, da_ft = example_speed_kt(), example_row().altitude_ft

    def after(time_s: float) -> LevelOff:
        return level_off(example(), da_ft, speed_kt, time_s)

    lost_s, angle_deg = off_scale_s(example(), da_ft, speed_kt), after(LEVEL_S).angle_deg
    return Shown(figure(
        "level-off-figure", partial(draw, after, lost_s),
        headers=["level for", "above the glidepath", "angle to rejoin"],
        rows=[(quantity(seconds, "s"), quantity(after(seconds).above_path_ft, "ft"),
               quantity(after(seconds).angle_deg, "deg", 0.1)) for seconds in SECONDS[::2]],
        finding=f"Level at the DA at {quantity(speed_kt, 'kt')}, the glidepath is full scale (from memory) below after "
        f"{quantity(lost_s, 's', 0.1)}; after {quantity(LEVEL_S, 's')} the runway's aiming point takes "
        f"{quantity(angle_deg, 'deg', 0.1)}.",
    ), {
        "off_scale": Value(lost_s, "s", quantity(lost_s, "s") + " (scale from memory)"),
        "level_for": Value.of(LEVEL_S, "s"), "angle": Value.of(angle_deg, "deg", 1),
        "rate": Value.of(descent_rate_fpm(speed_kt, angle_deg), "ft/min"),
    })


def draw(after: Any, lost_s: float, axes: Any) -> None:
    """Height above the path against full scale, by time."""
    levels = [after(seconds) for seconds in SECONDS]
    lost, last = (lost_s, after(lost_s).above_path_ft), levels[-1]
    axes.plot(SECONDS, [level.above_path_ft for level in levels], color=COLOURS["first"])
    axes.plot(SECONDS, [level.full_scale_ft for level in levels], "--", color=COLOURS["second"])
    axes.plot(*lost, "o", color=COLOURS["answer"])
    note = {"textcoords": "offset points", "ha": "right"}
    axes.annotate("full scale (from memory)", (SECONDS[-1], last.full_scale_ft), xytext=(0, -12),
                  color=COLOURS["second"], **note)
    axes.annotate("aircraft", (SECONDS[-1], last.above_path_ft), xytext=(-30, -4), color=COLOURS["first"], **note)
    axes.annotate(quantity(lost_s, "s", 0.1), lost, xytext=(-6, 6), color=COLOURS["answer"], **note)
    axes.set(xlabel="level at the DA for, s", ylabel="above the glidepath, ft", xlim=(SECONDS[0], SECONDS[-1]),
             ylim=(0, None))

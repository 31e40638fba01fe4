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
        "level-off-figure", partial(draw, after, lost_s), headers=["level for", "above the path", "angle to rejoin"],
        rows=[(quantity(seconds, "s"), quantity(after(seconds).above_path_ft, "ft"),
               quantity(after(seconds).angle_deg, "deg", 0.1)) for seconds in SECONDS[::2]],
        finding=f"Level at the DA at {quantity(speed_kt, 'kt')}, the path is full scale (from memory) below after "
        f"{quantity(lost_s, 's', 0.1)}; after {quantity(LEVEL_S, 's')} the runway's aiming point takes "
        f"{quantity(angle_deg, 'deg', 0.1)}.",
    ), {
        "off_scale": Value(lost_s, "s", quantity(lost_s, "s") + " (scale from memory)"),
        "level_for": Value.of(LEVEL_S, "s"), "angle": Value.of(angle_deg, "deg", 1),
        "rate": Value.of(descent_rate_fpm(speed_kt, angle_deg), "ft/min"),
    })


def draw(after: Any, lost_s: float, axes: Any) -> None:
    """Height above the path against full scale, by time."""
    def note(text: str, time_s: float, height_ft: float, offset: tuple[float, float], role: str) -> None:
        axes.annotate(text, (time_s, height_ft), offset, textcoords="offset points", ha="right", color=COLOURS[role])

    axes.plot(SECONDS, [after(seconds).above_path_ft for seconds in SECONDS], color=COLOURS["first"])
    axes.plot(SECONDS, [after(seconds).full_scale_ft for seconds in SECONDS], "--", color=COLOURS["second"])
    axes.plot(lost_s, after(lost_s).above_path_ft, "o", color=COLOURS["answer"])
    note("full scale (from memory)", 8, after(8).full_scale_ft, (0, -12), "second")
    note("aircraft", 7, after(7).above_path_ft, (-6, 4), "first")
    note(quantity(lost_s, "s", 0.1), lost_s, after(lost_s).above_path_ft, (-6, 6), "answer")
    axes.set(xlabel="level at the DA for, s", ylabel="above the path, ft", xlim=(0, 8), ylim=(0, None))

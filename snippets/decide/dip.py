"""How far the go-around of the aircraft dips below the decision, decided at once and late."""

from functools import partial
from typing import Any

from lpv.core.text import feet, quantity
from lpv.decide.final_path import descent_angle_deg
from lpv.decide.missed import design_height_loss_ft, dip, height_change_ft, reaction_loss_ft, rotation_loss_ft
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example, example_aircraft, example_speed_kt
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value
from lpv_site.text.text import escape

LATE_S, TENTHS = 2.0, range(121)


def show() -> Shown:
    """The figure: decided at once, and later."""
    jet = example_aircraft()
    around, rate_fpm = jet.go_around, descent_rate_fpm(example_speed_kt(), descent_angle_deg(example()))
    reactions_s = (around.reaction_s, around.reaction_s + LATE_S)
    dips = [dip(rate_fpm, around.climb_rate_fpm, seconds, around.acceleration_g) for seconds in reactions_s]

    def change_ft(time_s: float, reaction_s: float) -> float:
        return height_change_ft(time_s, rate_fpm, around.climb_rate_fpm, reaction_s, around.acceleration_g)

    at_once, late = (quantity(each.loss_ft, "ft") for each in dips)
    back, back_late = (quantity(each.back_s, "s") for each in dips)
    name = escape(jet.type.name.lower())
    return Shown(figure(
        "dip-figure", partial(draw, change_ft, list(zip(reactions_s, dips, strict=True)), jet.type.category),
        headers=["path changes after", "lowest below the DA", "back at the DA after"],
        rows=[(quantity(seconds, "s", 0.1), quantity(each.loss_ft, "ft"), quantity(each.back_s, "s", 0.1))
              for seconds, each in zip(reactions_s, dips, strict=True)],
        finding=f"From {quantity(rate_fpm, 'ft/min')} the {name} dips {at_once} below the DA when its path begins to "
        f"change after {quantity(reactions_s[0], 's', 0.1)}, and {late} when that comes {quantity(LATE_S, 's')} later. "
        f"It is back at the DA after {back} and {back_late}.",
    ), {
        "loss": Value.of(dips[0].loss_ft, "ft"), "per_second": Value.of(reaction_loss_ft(rate_fpm, 1.0), "ft"),
        "rotation": Value.of(rotation_loss_ft(rate_fpm, around.acceleration_g), "ft"), "jet": name,
        "acceleration": Value(around.acceleration_g, "g", f"{quantity(around.acceleration_g, 'g', 0.01)} (invented)"),
    })


def draw(change_ft: Any, dips: Any, category: str, axes: Any) -> None:
    """Height about the DA by time, for both decisions."""
    margin_ft = design_height_loss_ft(category)
    axes.axhline(0, color=COLOURS["ink"], linewidth=1)
    axes.axhline(-margin_ft, color=COLOURS["second"], linestyle="--")
    axes.annotate(f"design margin, category {category}", (12, -margin_ft), xytext=(0, 4), ha="right",
                  textcoords="offset points", color=COLOURS["second"], fontsize=8)
    axes.annotate("DA", (0, 0), xytext=(4, 3), textcoords="offset points", fontsize=8)
    for (reaction_s, lowest), role, up in zip(dips, ("first", "third"), (6, -13), strict=True):
        axes.plot([t / 10 for t in TENTHS], [change_ft(t / 10, reaction_s) for t in TENTHS], color=COLOURS[role])
        axes.plot(lowest.lowest_s, -lowest.loss_ft, "o", color=COLOURS["answer"])
        axes.annotate(f"{feet(lowest.loss_ft)}", (lowest.lowest_s, -lowest.loss_ft), xytext=(0, up), ha="center",
                      textcoords="offset points", color=COLOURS["answer"], weight="bold")
    axes.set(xlabel="since the decision, s", ylabel="above the DA, ft", xlim=(0, 12), ylim=(-margin_ft - 15, 60))
    axes.yaxis.labelpad = 0

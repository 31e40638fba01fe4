"""The obstacle surface under the missed approach, the least climb above it, and the margin between them."""

from functools import partial
from typing import Any

from lpv.core.text import number, quantity
from lpv.decide.missed import margin_over_surface_ft, surface_height_ft
from lpv.decide.surfaces import surface_rise_ft_per_nm, surface_slope_for_gradient
from lpv.facts import value
from lpv.motion.kinematics import gradient_for_climb_rate_ft_per_nm
from lpv_site.department.data import example_aircraft, example_speed_kt
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

DISTANCES_NM, MARKED_NM = range(7), 5


def show() -> Shown:
    """The figure: surface, least climb, climb with one engine out."""
    least = value("missed_gradient_ft_per_nm")
    one_out = gradient_for_climb_rate_ft_per_nm(
        example_speed_kt(), example_aircraft().go_around.climb_rate_one_out_fpm)
    margin = quantity(margin_over_surface_ft(MARKED_NM, 0.0, least, least), "ft")
    return Shown(figure(
        "surface-figure", partial(draw, least, one_out), headers=["from its start", "surface", "least climb", "margin"],
        rows=[(quantity(nm, "NM"), quantity(surface_height_ft(nm, 0.0, least), "ft"), quantity(least * nm, "ft"),
               quantity(margin_over_surface_ft(nm, 0.0, least, least), "ft")) for nm in DISTANCES_NM[1:]],
        finding=f"At {quantity(MARKED_NM, 'NM')} a climb of {quantity(least, 'ft/NM')} is {margin} above the obstacle "
        "surface; the margin grows with the distance.",
    ), {"rise": Value.of(surface_rise_ft_per_nm(least), "ft/NM"), "margin": Value.of(
        margin_over_surface_ft(MARKED_NM, 0.0, least, least), "ft")})


def draw(least: float, one_out: float, axes: Any) -> None:
    """The surface, the climb it is made for, and the climb with one engine out."""
    def note(text: str, gradient: float, offset: tuple[float, float], colour: str) -> None:
        axes.annotate(text, (MARKED_NM, gradient * MARKED_NM), xytext=offset, textcoords="offset points", fontsize=8,
                      color=COLOURS[colour], ha="right")

    surface_ft = [surface_height_ft(nm, 0.0, least) for nm in DISTANCES_NM]
    axes.fill_between(DISTANCES_NM, surface_ft, color=COLOURS["shade"])
    axes.plot(DISTANCES_NM, surface_ft, color=COLOURS["second"])
    axes.plot(DISTANCES_NM, [least * nm for nm in DISTANCES_NM], color=COLOURS["first"])
    axes.plot(DISTANCES_NM, [one_out * nm for nm in DISTANCES_NM], "--", color=COLOURS["third"])
    note(f"one engine out,\n{quantity(one_out, 'ft/NM')}", one_out, (-10, -8), "third")
    axes.annotate(f"least climb, {quantity(least, 'ft/NM')}", (6, least * 6), xytext=(0, 6), textcoords="offset points",
                  fontsize=8, color=COLOURS["first"], ha="right")
    slope = number(surface_slope_for_gradient(least))
    note(f"obstacle surface, {slope}:1", surface_rise_ft_per_nm(least), (0, -40), "second")
    low_ft = surface_ft[MARKED_NM]
    axes.plot([MARKED_NM, MARKED_NM], [low_ft, least * MARKED_NM], color=COLOURS["answer"], linewidth=3)
    axes.annotate(quantity(margin_over_surface_ft(MARKED_NM, 0.0, least, least), "ft"), (MARKED_NM, low_ft),
                  xytext=(4, -4), textcoords="offset points", color=COLOURS["answer"], weight="bold", va="top")
    axes.set(xlabel="from its start, NM", ylabel="above its start, ft", xlim=(0, 6), ylim=(0, None))

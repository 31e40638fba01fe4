"""The obstacle surface under the missed approach, the least climb above it, and the margin between them."""

from lpv.decide.missed import margin_over_surface_ft, surface_height_ft
from lpv.decide.surfaces import surface_rise_ft_per_nm, surface_slope_for_gradient
from lpv.facts import value
from lpv.motion.kinematics import gradient_for_climb_rate_ft_per_nm
from lpv_site.department.data import example_aircraft
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import quantity

jet = example_aircraft()
speed_kt = jet.target_speeds_kt(jet.landing.max_weight_lb)[-1]
one_out = gradient_for_climb_rate_ft_per_nm(speed_kt, jet.go_around.climb_rate_one_out_fpm)
LEAST, DISTANCES_NM, MARKED_NM = value("missed_gradient_ft_per_nm"), range(7), 5
slope = surface_slope_for_gradient(LEAST)


def note(axes, text, gradient, offset, colour):
    axes.annotate(text, (MARKED_NM, gradient * MARKED_NM), xytext=offset, textcoords="offset points", fontsize=8,
                  color=COLOURS[colour], ha="right")


def draw(axes):
    surface_ft = [surface_height_ft(nm, 0.0, LEAST) for nm in DISTANCES_NM]
    axes.fill_between(DISTANCES_NM, surface_ft, color=COLOURS["shade"])
    axes.plot(DISTANCES_NM, surface_ft, color=COLOURS["second"])
    axes.plot(DISTANCES_NM, [LEAST * nm for nm in DISTANCES_NM], color=COLOURS["first"])
    axes.plot(DISTANCES_NM, [one_out * nm for nm in DISTANCES_NM], "--", color=COLOURS["third"])
    note(axes, f"one engine out,\n{one_out:.0f} ft/NM", one_out, (-10, -8), "third")
    axes.annotate(f"least climb, {LEAST:.0f} ft/NM", (6, LEAST * 6), xytext=(0, 6), textcoords="offset points",
                  fontsize=8, color=COLOURS["first"], ha="right")
    note(axes, f"obstacle surface, {slope:.0f}:1", surface_rise_ft_per_nm(LEAST), (0, -40), "second")
    low, high = surface_height_ft(MARKED_NM, 0.0, LEAST), LEAST * MARKED_NM
    axes.plot([MARKED_NM, MARKED_NM], [low, high], color=COLOURS["answer"], linewidth=3)
    axes.annotate(f"{high - low:.0f} ft", (MARKED_NM, low), xytext=(4, -4), textcoords="offset points",
                  color=COLOURS["answer"], weight="bold", va="top")
    axes.set(xlabel="from its start, NM", ylabel="above its start, ft", xlim=(0, 6), ylim=(0, None))


rows = [
    (
        f"{nm} NM",
        f"{surface_height_ft(nm, 0.0, LEAST):.0f} ft",
        f"{LEAST * nm:.0f} ft",
        f"{margin_over_surface_ft(nm, 0.0, LEAST, LEAST):.0f} ft",
    )
    for nm in DISTANCES_NM[1:]
]
print(
    figure(
        "surface-figure", draw, rows=rows, headers=["from its start", "surface", "least climb", "margin"],
        finding=f"At {MARKED_NM} NM a climb of {LEAST:.0f} ft/NM is {rows[MARKED_NM - 1][3]} above the obstacle "
        "surface; the margin grows with the distance.",
    )
)
values = {"rise": quantity(surface_rise_ft_per_nm(LEAST), "ft/NM")}

"""How far the go-around of the aircraft dips below the decision, decided at once and late."""

from lpv.decide.missed import design_height_loss_ft, dip, height_change_ft, reaction_loss_ft, rotation_loss_ft
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example, example_aircraft
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import escape, quantity

jet, chart = example_aircraft(), example().chart
going_around, category = jet.go_around, jet.type.category
speed_kt = jet.target_speeds_kt(jet.landing.max_weight_lb)[-1]
rate_fpm = descent_rate_fpm(speed_kt, chart.glidepath_deg)
LATE_S, TENTHS = 2.0, range(121)
reactions_s = (going_around.reaction_s, going_around.reaction_s + LATE_S)
rows, lowest = [], []
for reaction_s in reactions_s:
    found = dip(rate_fpm, going_around.climb_rate_fpm, reaction_s, going_around.acceleration_g)
    lowest.append(found)
    rows.append((f"{reaction_s:.1f} s", f"{found.loss_ft:.0f} ft", f"{found.back_s:.1f} s"))
margin_ft = design_height_loss_ft(category)


def change_ft(time_s, reaction_s):
    return height_change_ft(time_s, rate_fpm, going_around.climb_rate_fpm, reaction_s, going_around.acceleration_g)


def draw(axes):
    axes.axhline(0, color=COLOURS["ink"], linewidth=1)
    axes.axhline(-margin_ft, color=COLOURS["second"], linestyle="--")
    axes.annotate(f"design margin, category {category} (from memory)", (12, -margin_ft), xytext=(0, 4), ha="right",
                  textcoords="offset points", color=COLOURS["second"], fontsize=8)
    axes.annotate("DA", (0, 0), xytext=(4, 3), textcoords="offset points", fontsize=8)
    for reaction_s, found, role, up in zip(reactions_s, lowest, ("first", "third"), (6, -13), strict=True):
        axes.plot([t / 10 for t in TENTHS], [change_ft(t / 10, reaction_s) for t in TENTHS], color=COLOURS[role])
        axes.plot(found.lowest_s, -found.loss_ft, "o", color=COLOURS["answer"])
        axes.annotate(f"{found.loss_ft:.0f} ft", (found.lowest_s, -found.loss_ft), xytext=(0, up), ha="center",
                      textcoords="offset points", color=COLOURS["answer"], weight="bold")
    axes.set(xlabel="since the decision, s", ylabel="above the DA, ft", xlim=(0, 12), ylim=(-margin_ft - 15, 60))
    axes.yaxis.labelpad = 0


print(
    figure(
        "dip-figure", draw, rows=rows, headers=["path changes after", "lowest below the DA", "back at the DA after"],
        finding=f"From {rate_fpm:.0f} ft/min the {jet.type.name.lower()} dips {lowest[0].loss_ft:.0f} ft below the DA "
        f"when its path begins to change after {reactions_s[0]:.1f} s, and {lowest[1].loss_ft:.0f} ft when that comes "
        f"{LATE_S:.0f} s later. It is back at the DA after {lowest[0].back_s:.0f} and {lowest[1].back_s:.0f} s.",
    )
)
values = {
    "loss": quantity(lowest[0].loss_ft, "ft"),
    "per_second": quantity(reaction_loss_ft(rate_fpm, 1.0), "ft"),
    "rotation": quantity(rotation_loss_ft(rate_fpm, going_around.acceleration_g), "ft"),
    "jet": escape(jet.type.name.lower()),
    "acceleration": f"{going_around.acceleration_g:.2f} g (invented)",
}

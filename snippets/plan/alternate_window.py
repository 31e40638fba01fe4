"""The destination's forecast ceiling around the ETA, and what the alternate rule asks of it."""

from datetime import timedelta

from lpv.facts import value
from lpv.plan.alternate import alternate_needed
from lpv.plan.forecast import in_words, worst
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.pages.plan_sheet import example_case

case = example_case()
forecast, eta = case.scenario.forecast, case.scenario.flight.eta
window_h, asked_ft = value("no_alternate_window_h"), value("no_alternate_ceiling_ft")
TOP_FT = 2600.0
needed = alternate_needed(forecast, eta).answer
weather = worst(forecast, eta - timedelta(hours=window_h), eta + timedelta(hours=window_h))


def hours(moment):
    return (moment - eta).total_seconds() / 3600.0


def draw(axes):
    axes.axvspan(-window_h, window_h, color=COLOURS["shade"], zorder=0)
    axes.axhline(asked_ft, color=COLOURS["ink"], linestyle="--", linewidth=1.2)
    axes.annotate(f"asked: {asked_ft:.0f} ft", (2.9, asked_ft), xytext=(0, 4), textcoords="offset points", ha="right")
    for period in forecast.periods:
        feet = TOP_FT if period.ceiling_ft is None else min(period.ceiling_ft, TOP_FT)
        colour = COLOURS["first"] if period.kind == "prevailing" else COLOURS["second"]
        axes.plot([hours(period.start), hours(period.end)], [feet, feet], color=colour, linewidth=3)
        axes.annotate(period.kind, (max(hours(period.start), -2.0), feet), xytext=(3, -4), va="top", fontsize=8,
                      textcoords="offset points", color=colour)
    if weather.ceiling_ft is not None:
        axes.annotate(f"counts: {weather.ceiling_ft:.0f} ft", (window_h, min(weather.ceiling_ft, TOP_FT)),
                      xytext=(12, 0), textcoords="offset points", va="center", color=COLOURS["answer"], weight="bold",
                      arrowprops={"arrowstyle": "-", "color": COLOURS["answer"]})
        axes.plot([-window_h, window_h], [weather.ceiling_ft] * 2, ":", color=COLOURS["answer"])
    axes.set(xlabel="hours from the ETA", ylabel="ceiling, ft", xlim=(-2, 3), ylim=(0, TOP_FT))


rows = [(period.kind, f"{period.start:%d %H:%M} to {period.end:%d %H:%M}",
         "none" if period.ceiling_ft is None else f"{period.ceiling_ft:.0f} ft", f"{period.visibility_sm:g} SM")
        for period in forecast.periods]
print(figure("alternate-figure", draw, headers=["forecast", "UTC", "ceiling", "visibility"], rows=rows,
             finding=f"From one hour before to one hour after the ETA the worst is {in_words(weather)}: an alternate "
             f"is {'needed' if needed else 'not needed'}. Temporary groups count as if they came."))

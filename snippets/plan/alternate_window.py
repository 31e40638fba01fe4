"""The destination's forecast ceiling around the ETA, and what the alternate rule asks of it."""

from datetime import datetime, timedelta
from typing import Any

from lpv.core.text import quantity
from lpv.facts import value
from lpv.plan.alternate import destination_of
from lpv.plan.case import Case
from lpv.plan.forecast import Period, in_words, worst
from lpv.plan.rules import alternate_needed, rule_set
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.pages.plan_sheet import example_case
from lpv_site.text.shown import Shown, Value

TOP_FT, FROM_H, TO_H = 2600.0, -2.0, 3.0
BY = {"textcoords": "offset points"}


def show() -> Shown:
    """The figure, by 14 CFR 91.169; values: the ceiling and the visibility that count."""
    case, window = example_case(), timedelta(hours=value("no_alternate_window_h"))
    forecast, eta = case.scenario.forecast, case.scenario.flight.eta
    weather = worst(forecast, eta - window, eta + window)
    needed = alternate_needed(rule_set("FAA part 91"), destination_of(case)).answer
    finding = (f"From one hour before to one hour after the ETA the worst is {in_words(weather)}: an alternate is "
               f"{'needed' if needed else 'not needed'}. Temporary groups count as if they came.")
    html = figure("alternate-figure", _draw, headers=["forecast", "UTC", "ceiling", "visibility"],
                  rows=[_row(period) for period in forecast.periods], finding=finding, data=(case, weather.ceiling_ft))
    ceiling = "no ceiling" if weather.ceiling_ft is None else Value.of(weather.ceiling_ft, "ft")
    return Shown(html, {"ceiling": ceiling, "visibility": Value.of(weather.visibility_sm, "SM", 2)})


def _row(period: Period) -> tuple[str, ...]:
    ceiling = "none" if period.ceiling_ft is None else quantity(period.ceiling_ft, "ft")
    return (period.kind, f"{period.start:%d %H:%M} to {period.end:%d %H:%M}", ceiling,
            quantity(period.visibility_sm, "SM", 0.01))


def _draw(axes: Any, data: tuple[Case, float | None]) -> None:
    (case, ceiling_ft), window_h, asked_ft = data, value("no_alternate_window_h"), value("no_alternate_ceiling_ft")
    axes.axvspan(-window_h, window_h, color=COLOURS["shade"], zorder=0)
    axes.axhline(asked_ft, color=COLOURS["ink"], linestyle="--", linewidth=1.2)
    axes.annotate(f"asked: {quantity(asked_ft, 'ft')}", (TO_H, asked_ft), xytext=(-4, 4), ha="right", **BY)
    for period in case.scenario.forecast.periods:
        _draw_period(axes, period, case.scenario.flight.eta)
    if ceiling_ft is not None:
        answer = {"color": COLOURS["answer"]}
        axes.plot([-window_h, window_h], [min(ceiling_ft, TOP_FT)] * 2, ":", **answer)
        axes.annotate(f"counts: {quantity(ceiling_ft, 'ft')}", (window_h, min(ceiling_ft, TOP_FT)), xytext=(12, 0),
                      va="center", weight="bold", arrowprops={"arrowstyle": "-", **answer}, **answer, **BY)
    axes.set(xlabel="hours from the ETA", ylabel="ceiling, ft", xlim=(FROM_H, TO_H), ylim=(0, TOP_FT))


def _draw_period(axes: Any, period: Period, eta: datetime) -> None:
    from_h, to_h = ((moment - eta) / timedelta(hours=1) for moment in (period.start, period.end))
    feet = TOP_FT if period.ceiling_ft is None else min(period.ceiling_ft, TOP_FT)
    colour = COLOURS["first" if period.kind == "prevailing" else "second"]
    axes.plot([from_h, to_h], [feet, feet], color=colour, linewidth=3)
    axes.annotate(period.kind, (max(from_h, FROM_H), feet), xytext=(3, -4), va="top", fontsize=8, color=colour, **BY)

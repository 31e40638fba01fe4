"""Protection levels over a day at the example approach: all satellites, then one and two of them missing."""

from collections.abc import Mapping, Sequence
from typing import Any, Literal

from lpv.core.text import percent, quantity
from lpv.sbas.constellation import baseline, baseline_epoch_gps_s
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity_fast import missed_most
from lpv.sbas.level import availability
from lpv.sbas.masks import Masks
from lpv.sbas.service import Epoch, gap_lengths_s, highest_m, limits_of, site_of, times
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown
from lpv_site.text.table import table

Days = Mapping[str, Sequence[Epoch]]
Level = Literal["vpl_m", "hpl_pa_m"]
HOURS = range(0, 24, 4)


def show() -> Shown:
    """A table of gaps, and one figure each for VPL and HPL."""
    segment = example().segment
    limits, moments = limits_of(segment), times(baseline_epoch_gps_s())
    found = missed_most(baseline(), 2, site_of(segment), moments, Masks(), default_error_model(), limits, "LPV")
    days = {f"without {' and '.join(out)}" if out else f"with all {len(baseline())}": day for out, day in found.items()}
    rows = []
    for name, day in days.items():
        gaps_s = gap_lengths_s(day, limits, "LPV")
        longest = quantity(max(gaps_s) / 60.0, "min") if gaps_s else "none"
        rows.append((name, percent(availability(day, limits, "LPV")), len(gaps_s), longest))
    figures = (_figure(days, "vpl_m", "VAL", limits.val_m), _figure(days, "hpl_pa_m", "HAL", limits.hal_m))
    return Shown("\n".join([table(["satellites", "LPV", "gaps", "longest"], rows), *figures]))


def _figure(days: Days, level: Level, limit_name: str, limit_m: float) -> str:
    tops = ", ".join(f"{_words(highest_m(day, level, 0, 24))} {name}" for name, day in days.items())
    rows = [(f"{h} to {h + 4}", *(_words(highest_m(day, level, h, h + 4)) for day in days.values())) for h in HOURS]
    finding = f"Highest {limit_name[0]}PL of the day: {tops}. The {limit_name} is {quantity(limit_m, 'm')}."
    return figure(f"integrity-{level[:3]}", _draw, finding=finding, height_in=2.6, rows=rows,
                  headers=["hours, highest", *days], data=(days, level, limit_name, limit_m))


def _words(metres: float | None) -> str:
    return "none" if metres is None else quantity(metres, "m")


def _draw(axes: Any, data: tuple[Days, Level, str, float]) -> None:
    days, level, limit_name, limit_m = data
    for (name, day), role, y in zip(days.items(), ("first", "second", "third"), (53, 59, 65), strict=True):
        hours = [(moment.gps_s - day[0].gps_s) / 3600.0 for moment in day]
        axes.plot(hours, [min(getattr(m, level) or 99.0, 99.0) for m in day], color=COLOURS[role], zorder=100 - y)
        axes.text(23.8, y, name, ha="right", color=COLOURS[role])
    answer, label = COLOURS["answer"], f"{limit_name} {quantity(limit_m, 'm')}"
    axes.axhline(limit_m, color=answer, lw=1.4)
    axes.text(23.8, limit_m + 1.5, label, ha="right", color=answer, weight="bold")
    axes.set(xlabel="hours of the day", ylabel=f"{limit_name[0]}PL, m", xlim=(0, 24), ylim=(0, 70), xticks=[*HOURS, 24])

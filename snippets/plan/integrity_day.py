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
DAY_H, PART_H, TOP_M = 24, 4, 99.0  # so high that it is drawn beyond the top
HOURS = range(0, DAY_H, PART_H)
ROLES = {"first": 53, "second": 59, "third": 65}  # of each line, and the height at which its name stands


def show() -> Shown:
    """A table of gaps, and one figure each for VPL and HPL."""
    segment = example().segment
    limits, moments = limits_of(segment), times(baseline_epoch_gps_s())
    worst = missed_most(baseline(), 2, site_of(segment), moments, Masks(), default_error_model(), limits, "LPV")
    days = {f"without {' and '.join(out)}" if out else f"with all {len(baseline())}": day for out, day in worst.items()}
    rows = []
    for name, day in days.items():
        gaps_s = gap_lengths_s(day, limits, "LPV")
        longest = quantity(max(gaps_s) / 60.0, "min") if gaps_s else "none"
        rows.append((name, percent(availability(day, limits, "LPV")), len(gaps_s), longest))
    figures = (_figure(days, "vpl_m", "VAL", limits.val_m), _figure(days, "hpl_pa_m", "HAL", limits.hal_m))
    return Shown("\n".join([table(["satellites", "LPV", "gaps", "longest"], rows), *figures]))


def _figure(days: Days, level: Level, limit_name: str, limit_m: float) -> str:
    tops = ", ".join(f"{_words(highest_m(day, level, 0, DAY_H))} {name}" for name, day in days.items())
    rows = [(f"{h} to {h + PART_H}", *(_words(highest_m(day, level, h, h + PART_H)) for day in days.values()))
            for h in HOURS]
    finding = f"Highest {limit_name[:1]}PL of the day: {tops}. The {limit_name} is {quantity(limit_m, 'm')}."
    return figure(f"integrity-{level.partition('_')[0]}", _draw, finding=finding, height_in=2.6, rows=rows,
                  headers=["hours, highest", *days], data=(days, level, limit_name, limit_m))


def _words(metres: float | None) -> str:
    return "none" if metres is None else quantity(metres, "m")


def _draw(axes: Any, data: tuple[Days, Level, str, float]) -> None:
    days, level, limit_name, limit_m = data
    roles, note = iter(ROLES.items()), {"textcoords": "offset points", "ha": "right"}
    for name, day in days.items():
        role, y = next(roles)
        hours = [(moment.gps_s - day[0].gps_s) / 3600.0 for moment in day]
        levels_m = [TOP_M if (metres := getattr(moment, level)) is None else min(metres, TOP_M) for moment in day]
        axes.plot(hours, levels_m, color=COLOURS[role], zorder=100 - y)
        axes.annotate(name, (DAY_H, y), xytext=(-2, 0), color=COLOURS[role], **note)
    answer, label = COLOURS["answer"], f"{limit_name} {quantity(limit_m, 'm')}"
    axes.axhline(limit_m, color=answer, linewidth=1.4)
    axes.annotate(label, (DAY_H, limit_m), xytext=(-2, 3), color=answer, weight="bold", **note)
    axes.set_xticks([*HOURS, DAY_H])
    axes.set(xlabel="hours of the day", ylabel=f"{limit_name[:1]}PL, m", xlim=(0, DAY_H), ylim=(0, 70))

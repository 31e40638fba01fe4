"""Protection levels over a day at the example approach: all satellites, then one and two of them missing."""

from lpv.sbas.constellation import baseline, baseline_epoch_gps_s, without
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity_fast import missing_one, span
from lpv.sbas.service import STEP_S, availability, limits_of, outages, site_of, times
from lpv.sbas.sky import Masks
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.table import table
from lpv_site.text.text import percent, quantity

segment, start_s = example().segment, baseline_epoch_gps_s()
limits = limits_of(segment)
scene = site_of(segment), times(start_s), Masks(), default_error_model()
out: list[str] = []
days = {f"with all {len(baseline())}": span(baseline(), *scene)}
for _ in range(2):
    fewer = missing_one(without(baseline(), out), *scene)
    out.append(min(fewer, key=lambda name: availability(fewer[name], limits, "LPV")))  # missed most
    days["without " + " and ".join(out)] = fewer[out[-1]]


def highest(day, name: str, first_hour: int = 0, last_hour: int = 24) -> str:
    """The highest protection level between two hours; none where there is a moment without a position."""
    found = [getattr(m, name) for m in day if first_hour <= (m.gps_s - start_s) / 3600.0 < last_hour]
    return "none" if None in found else quantity(max(found), "m")


def draw(axes, data):
    name, limit_name, limit_m = data
    for (case, day), role, y in zip(days.items(), ("first", "second", "third"), (53, 59, 65), strict=True):
        hours = [(moment.gps_s - start_s) / 3600.0 for moment in day]
        metres = [min(getattr(moment, name) or 99.0, 99.0) for moment in day]
        axes.plot(hours, metres, color=COLOURS[role], zorder=100 - y)
        axes.text(23.8, y, case, ha="right", color=COLOURS[role])
    axes.axhline(limit_m, color=COLOURS["answer"], lw=1.4)
    axes.text(23.8, limit_m + 1.5, f"{limit_name} {limit_m:.0f} m", ha="right", color=COLOURS["answer"], weight="bold")
    axes.set(xlabel="hours of the day", ylabel=f"{limit_name[0]}PL, m", xlim=(0, 24), ylim=(0, 70))
    axes.set(xticks=range(0, 25, 4))


gaps_s = {case: [last - first + STEP_S for first, last in outages(day, limits, "LPV")] for case, day in days.items()}
rows = []
for case, day in days.items():
    longest = quantity(max(gaps_s[case]) / 60.0, "min") if gaps_s[case] else "none"
    share = percent(availability(day, limits, "LPV"))
    rows.append((case, share, len(gaps_s[case]), longest))
print(table(["satellites", "LPV", "gaps", "longest"], rows))
for name, limit_name, limit_m in (("vpl_m", "VAL", limits.val_m), ("hpl_pa_m", "HAL", limits.hal_m)):
    tops = ", ".join(f"{highest(day, name)} {case}" for case, day in days.items())
    finding = f"Highest {limit_name[0]}PL of the day: {tops}. The {limit_name} is {quantity(limit_m, 'm')}."
    parts = [(f"{h} to {h + 4}", *(highest(day, name, h, h + 4) for day in days.values())) for h in range(0, 24, 4)]
    args = {"data": (name, limit_name, limit_m), "headers": ["hours, highest", *days], "rows": parts}
    print(figure(f"integrity-{name[:3]}", draw, finding=finding, height_in=2.6, **args))

"""Energy against distance of the demo aircraft: on time, and late with a tailwind."""

from typing import Any

from intercept.timeline import LATE_NM, TAILWIND_KT, schedules
from lpv.core.text import feet, nautical_miles, number, quantity
from lpv.facts import value
from lpv.intercept.schedule import Schedule
from lpv.motion.energy import moment_at
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

Curve = list[tuple[float, float]]


def show() -> Shown:
    planned, late = schedules()
    curves = [_curve(schedule) for schedule in (planned, late)]
    height = [(nm, planned.height_ft(nm)) for nm, _ in curves[0]]
    places = ("FAF", planned.pfaf_nm), (f"{feet(value('gate_imc_ft'))} above", planned.gate_nm)
    rows = [(name, *[feet(ft) for ft in (planned.height_ft(nm), _at(planned, nm), _at(late, nm))])
            for name, nm in places]
    over_ft = _at(late, planned.gate_nm) - _at(planned, planned.gate_nm)
    finding = (
        "Height and speed as one: height flown, and above it what the speed is worth. On time, the excess is gone "
        f"before the path. {nautical_miles(LATE_NM, 0.1)} late with {quantity(TAILWIND_KT, 'kt')} of tailwind, "
        f"{feet(over_ft)} too much is left at the gate."
    )
    return Shown(
        figure("energy-figure", lambda axes: _draw(axes, planned, curves, height), finding=finding,
               headers=["where", "height", "on time", "late"], rows=rows),
        {"over": Value.of(over_ft, "ft")},
    )


def _at(schedule: Schedule, distance_nm: float) -> float:
    return schedule.energy_ft(moment_at(schedule.flown(), distance_nm))


def _curve(schedule: Schedule) -> Curve:
    return [(moment.distance_nm, schedule.energy_ft(moment)) for moment in schedule.flown()[::5]]


def _draw(axes: Any, planned: Schedule, curves: list[Curve], height: Curve) -> None:
    for curve, colour, line in ((curves[1], "second", "--"), (curves[0], "first", "-"), (height, "ink", "-")):
        axes.plot(*zip(*curve, strict=True), line, color=COLOURS[colour])
    axes.fill_between([nm for nm, _ in height], [ft for _, ft in height], color=COLOURS["shade"], linewidth=0)
    for place_nm, name in ((planned.pfaf_nm, "FAF"), (planned.gate_nm, "gate")):
        axes.axvline(place_nm, ymax=0.9, color=COLOURS["muted"], linewidth=1.0)
        axes.text(place_nm, height[0][1] * 2.23, name, ha="center")
    late_nm, late_ft = next(point for point in curves[1] if point[0] <= planned.pfaf_nm + 1.5)
    axes.text(late_nm, late_ft + 130, "late", color=COLOURS["second"])
    on_time_nm, on_time_ft = next(point for point in curves[0] if point[0] <= planned.pfaf_nm + 3.2)
    axes.text(on_time_nm, on_time_ft - 60, "on time", va="top", ha="right", color=COLOURS["first"])
    axes.text(planned.from_nm - 0.4, height[0][1] - 80, f"height, {number(height[0][1])}", va="top")
    axes.set(xlabel="to the threshold, NM", ylabel="energy height, ft", xlim=(planned.from_nm + 0.4, 0),
             ylim=(0, height[0][1] * 2.4))

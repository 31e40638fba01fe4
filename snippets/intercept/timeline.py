"""Speed against distance of the demo aircraft on the demo approach: on time, and late with a tailwind."""

from typing import Any

from lpv.core.text import feet, nautical_miles, number, quantity
from lpv.facts import value
from lpv.intercept.schedule import Schedule
from lpv.motion.energy import Moment, moment_at
from lpv_site.department.data import example, example_aircraft
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

LATE_NM, TAILWIND_KT = 3.5, 10.0
Way = list[Moment]


def schedules() -> tuple[Schedule, Schedule]:
    """On time in calm air, and late with a tailwind."""
    approach, aircraft = example(), example_aircraft()
    weight_lb = aircraft.landing.max_weight_lb
    return Schedule(approach, aircraft, weight_lb), Schedule(approach, aircraft, weight_lb, TAILWIND_KT, LATE_NM)


def show() -> Shown:
    planned, late = schedules()
    ways = planned.flown(), late.flown()
    at_pfaf, at_gate = ([moment_at(way, nm).airspeed_kt for way in ways] for nm in (planned.pfaf_nm, planned.gate_nm))
    gate = f"{feet(value('gate_imc_ft'))} above the airport"
    target_kt = planned.steps[-1].target_kt
    over_kt = at_gate[1] - target_kt
    finding = (
        f"{planned.aircraft.type.name}: by its schedule {quantity(at_gate[0], 'kt')} at {gate}. Every step "
        f"{nautical_miles(LATE_NM, 0.1)} late with {quantity(TAILWIND_KT, 'kt')} of tailwind: "
        f"{quantity(at_gate[1], 'kt')} there, {quantity(over_kt, 'kt')} over the target. "
        + ("Dotted: idle gains speed." if any(gaining(way) for way in ways) else "")
    )
    rows = [(where, *[quantity(kt, "kt") for kt in speeds]) for where, speeds in (("FAF", at_pfaf), (gate, at_gate))]
    return Shown(
        figure("timeline-figure", lambda axes: draw(axes, planned, ways, at_gate), finding=finding,
               headers=["where", "on time", "late"], rows=rows),
        {"gate": Value.of(at_gate[0], "kt"), "gate_late": Value.of(at_gate[1], "kt"),
         "pfaf": Value.of(at_pfaf[0], "kt"), "pfaf_late": Value.of(at_pfaf[1], "kt")},
    )


def gaining(way: Way) -> Way:
    """Where idle would gain speed."""
    return [moment for moment in way if moment.rate_kt_per_s < 0.0]


def draw(axes: Any, planned: Schedule, ways: tuple[Way, Way], at_gate: list[float]) -> None:
    for moments, colour, line in ((ways[1], "second", "--"), (ways[0], "first", "-")):
        axes.plot([m.distance_nm for m in moments], [m.airspeed_kt for m in moments], line, color=COLOURS[colour])
        gains = gaining(moments)
        axes.plot([m.distance_nm for m in gains], [m.airspeed_kt for m in gains], ":", color=COLOURS["answer"],
                  linewidth=3.0)
    for row, step in zip(planned.aircraft.schedule, planned.steps, strict=True):
        first = step is planned.steps[0]
        axes.text(step.begins_nm + 0.15, step.target_kt - 5, row.label, va="center", ha="left" if first else "right")
        axes.plot(step.begins_nm, moment_at(ways[0], step.begins_nm).airspeed_kt, "|", color=COLOURS["first"],
                  markersize=11)
    for place_nm, name in ((planned.pfaf_nm, "FAF"), (planned.gate_nm, feet(value("gate_imc_ft")))):
        axes.axvline(place_nm, ymax=0.92, color=COLOURS["muted"], linewidth=1.0)
        axes.text(place_nm, planned.first_kt + 2, name, ha="center")
    axes.plot(planned.gate_nm, at_gate[0], "o", color=COLOURS["answer"])
    for kt, offset, va, role, words in (
        (at_gate[0], -4, "top", "answer", quantity(at_gate[0], "kt")),
        (at_gate[1], 4, "bottom", "second", f"{number(at_gate[1])}, late"),
    ):
        axes.text(planned.gate_nm - 0.2, kt + offset, words, va=va, color=COLOURS[role])
    axes.set(xlabel="to the threshold, NM", ylabel="airspeed, kt")
    axes.set(xlim=(planned.from_nm + 0.4, 0), ylim=(planned.steps[-1].target_kt - 20, planned.first_kt + 12))

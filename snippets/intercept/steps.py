"""The demo aircraft's schedule on the demo approach, step by step, and the latest place for the last one."""

from lpv.core.text import number, quantity
from lpv.intercept.planned import planned
from lpv.motion.energy import Moment, Step, moment_at, reached_nm
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    approach, aircraft = example(), example_aircraft()
    weight_lb, tail_kt = aircraft.landing.max_weight_lb, aircraft.flying.tailwind_limit_kt
    timely, tail = planned(approach, aircraft, weight_lb), planned(approach, aircraft, weight_lb, tail_kt)
    moments = timely.flown()
    at_pfaf, at_gate = moment_at(moments, timely.pfaf_nm), moment_at(moments, timely.gate_nm)
    rows = [(f"**{escape(row.label)}**", number(step.begins_nm, 0.1), quantity(step.target_kt, "kt"),
             _by(moments, step))
            for row, step in zip(aircraft.schedule, timely.steps, strict=True)]
    rows.append(("gate", number(timely.gate_nm, 0.1), quantity(at_gate.airspeed_kt, "kt"), ""))
    head = f"{escape(aircraft.type.name)} at its maximum landing weight, calm; distances to the threshold in NM:\n\n"
    return Shown(head + table(["step", "begins", "speed", "reached"], rows), {
        "last": escape(aircraft.schedule[-1].label),
        "latest": _place(timely.latest_last_step_nm()), "latest_tail": _place(tail.latest_last_step_nm()),
        "spare": _place(timely.latest_shift_nm()), "tailwind": Value.of(tail_kt, "kt"),
        "to_pfaf": Value.of(at_pfaf.time_s / 60.0, "min", 1),
        "pfaf_to_gate": Value.of(at_gate.time_s - at_pfaf.time_s, "s"),
    })


def _by(moments: list[Moment], step: Step) -> str:
    reached = reached_nm(moments, step.target_kt)
    return "not reached" if reached is None else number(reached, 0.1)


def _place(distance_nm: float | None) -> Value | str:
    return "no place of it" if distance_nm is None else Value.of(distance_nm, "NM", 1)

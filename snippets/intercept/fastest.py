"""The fastest that the demo aircraft may come to the FAF and still be ready at the gate, by what is set there."""

from lpv.core.text import number
from lpv.intercept.planned import planned
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    approach, aircraft = example(), example_aircraft()
    weight_lb, tail_kt = aircraft.landing.max_weight_lb, aircraft.flying.tailwind_limit_kt
    calm, tail = planned(approach, aircraft, weight_lb), planned(approach, aircraft, weight_lb, tail_kt)
    rows = [
        (f"**{escape(name)}**", _kt(calm.fastest_at_pfaf_kt(moved)), _kt(tail.fastest_at_pfaf_kt(moved)),
         _kt(calm.fastest_at_pfaf_with_brake_kt(moved) if calm.brake_kt_per_s else None))
        for moved, name in enumerate(["clean", *[step.label for step in aircraft.schedule]])
    ]
    brake = aircraft.speed_brake
    return Shown(table(["set at the FAF", "calm", "tailwind", "brake"], rows), {
        "tailwind": Value.of(tail_kt, "kt"),
        "brake": "none" if brake is None else Value.of(brake.adds_kt_per_s, "kt", 1),
        "lowest": "no height" if brake is None else Value.of(brake.lowest_ft, "ft"),
        "clean": _value(calm.fastest_at_pfaf_kt(0)),
        "clean_brake": _value(calm.fastest_at_pfaf_with_brake_kt(0) if calm.brake_kt_per_s else None),
        "settled": Value.of(calm.settled_s, "s"),
    })


def _kt(speed_kt: float | None) -> str:
    return "none" if speed_kt is None else number(speed_kt)


def _value(speed_kt: float | None) -> Value | str:
    return "no speed" if speed_kt is None else Value.of(speed_kt, "kt")

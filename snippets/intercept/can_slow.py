"""Whether each configuration of the demo aircraft slows down on the path of the demo approach."""

from lpv.core.text import number, quantity
from lpv.intercept.planned import planned
from lpv.intercept.schedule import slowing
from lpv.motion.energy import gravity_kt_per_s
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    approach, aircraft = example(), example_aircraft()
    calm = planned(approach, aircraft, aircraft.landing.max_weight_lb)
    found = slowing(calm)
    rows = [
        (f"**{escape(one.label)}**<br>{quantity(one.airspeed_kt, 'kt')}", number(one.level_kt_per_s, 0.1),
         _on_path(one.path_kt_per_s), quantity(one.held_deg, "°", 0.1))
        for one in found
    ]
    return Shown(table(["set, at", "level", "on the path", "holds"], rows), {
        "gravity": Value.of(gravity_kt_per_s(calm.course.angle_deg), "kt", 2),
        "angle": Value.of(calm.course.angle_deg, "°", 1),
        "clean": Value.of(abs(found[0].path_kt_per_s), "kt", 2),
        "clean_does": "gains" if found[0].path_kt_per_s < 0.0 else "loses",
        "landing": Value.of(found[-1].path_kt_per_s, "kt", 1),
        "landing_per_nm": Value.of(found[-1].path_kt_per_nm(), "kt/NM"),
        "clean_speed": Value.of(found[0].airspeed_kt, "kt"),
    })


def _on_path(rate_kt_per_s: float) -> str:
    if rate_kt_per_s < 0.0:
        return f"✕ gains {number(-rate_kt_per_s, 0.01)}"
    return f"loses {number(rate_kt_per_s, 0.01)}"

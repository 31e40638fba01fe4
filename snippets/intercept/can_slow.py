"""Whether each configuration of the demo aircraft slows down on the path of the demo approach."""

from lpv.core.text import number, quantity
from lpv.intercept.planned import planned
from lpv.intercept.schedule import Slowing, slowing
from lpv.motion.energy import gravity_kt_per_s
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

MARKS = {"gains": "✕ "}


def show() -> Shown:
    approach, aircraft = example(), example_aircraft()
    calm = planned(approach, aircraft, aircraft.landing.max_weight_lb)
    clean, *others = slowing(calm)
    landing = others[-1]
    rows = [
        (f"**{escape(one.label)}**<br>{quantity(one.airspeed_kt, 'kt')}", number(one.level_kt_per_s, 0.1),
         _on_path(one), quantity(one.held_deg, "°", 0.1))
        for one in (clean, *others)
    ]
    return Shown(table(["set, at", "level", "on the glidepath", "holds"], rows), {
        "gravity": Value.of(gravity_kt_per_s(calm.course.angle_deg), "kt", 2),
        "angle": Value.of(calm.course.angle_deg, "°", 1),
        "clean": Value.of(abs(clean.path_kt_per_s), "kt", 2),
        "clean_does": clean.on_path(),
        "landing": Value.of(landing.path_kt_per_s, "kt", 1),
        "landing_per_nm": Value.of(landing.path_kt_per_nm(), "kt/NM"),
        "clean_speed": Value.of(clean.airspeed_kt, "kt"),
    })


def _on_path(one: Slowing) -> str:
    return f"{MARKS.get(one.on_path(), '')}{one.on_path()} {number(abs(one.path_kt_per_s), 0.01)}"

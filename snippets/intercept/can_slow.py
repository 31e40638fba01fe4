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
        (f"**{escape(stage.label)}**<br>{quantity(stage.airspeed_kt, 'kt')}", number(stage.level_kt_per_s, 0.1),
         _on_path(stage), quantity(stage.held_deg, "°", 0.1))
        for stage in (clean, *others)
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


def _on_path(stage: Slowing) -> str:
    return f"{MARKS.get(stage.on_path(), '')}{stage.on_path()} {number(abs(stage.path_kt_per_s), 0.01)}"

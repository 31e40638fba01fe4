"""Rate of descent on the example's path from 100 to 180 kt, with the wind along it."""

from functools import partial
from typing import Any

from lpv.core.text import number, quantity
from lpv.decide.final_path import descent_angle_deg
from lpv.facts import value
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

AIRSPEEDS_KT, SHOWN_KT, WIND_KT = list(range(100, 181, 10)), 140, 20
WINDS = ((WIND_KT, "20 kt tail", "second"), (0, "calm", "first"), (-WIND_KT, "20 kt head", "third"))


def show() -> Shown:
    """The figure: one line for each wind."""
    angle_deg = descent_angle_deg(example())

    def rate_fpm(airspeed_kt: float, tailwind_kt: float) -> float:
        return descent_rate_fpm(airspeed_kt + tailwind_kt, angle_deg)

    head, tail = (quantity(rate_fpm(SHOWN_KT, wind_kt), "ft/min") for wind_kt in (-WIND_KT, WIND_KT))
    return Shown(figure(
        "final-rate-wind-figure", partial(draw, rate_fpm), height_in=3.4,
        finding=f"At {quantity(SHOWN_KT, 'kt')} true airspeed on {quantity(angle_deg, 'deg', 0.01)}, a headwind of "
        f"{quantity(WIND_KT, 'kt')} asks for {head}, a tailwind of {quantity(WIND_KT, 'kt')} for {tail}.",
        headers=["true airspeed", *[label for _, label, _ in WINDS]],
        rows=[(quantity(kt, "kt"), *[quantity(rate_fpm(kt, wind_kt), "ft/min") for wind_kt, _, _ in WINDS])
              for kt in AIRSPEEDS_KT],
    ), {"per_ten_wind": Value.of(descent_rate_fpm(10.0, angle_deg), "ft/min")})


def draw(rate_fpm: Any, axes: Any) -> None:
    """A line for each wind."""
    limit_fpm, fastest_kt = value("gate_sink_rate_fpm"), AIRSPEEDS_KT[-1]
    for wind_kt, label, role in WINDS:
        axes.plot(AIRSPEEDS_KT, [rate_fpm(kt, wind_kt) for kt in AIRSPEEDS_KT], color=COLOURS[role])
        axes.text(fastest_kt + 2, rate_fpm(fastest_kt, wind_kt), label, color=COLOURS[role], va="center")
        point = SHOWN_KT, rate_fpm(SHOWN_KT, wind_kt)
        axes.plot(*point, "o", color=COLOURS["answer"])
        axes.annotate(number(point[1]), point, xytext=(-4, 3), textcoords="offset points", ha="right",
                      color=COLOURS["answer"], weight="bold")
    axes.axhline(limit_fpm, color=COLOURS["muted"], linestyle="--")
    axes.text(101, limit_fpm + 12, "criterion", color=COLOURS["muted"])
    highest_fpm = max(limit_fpm, rate_fpm(fastest_kt, WIND_KT))
    axes.set(xlabel="true airspeed, kt", ylabel="rate of descent, ft/min", xlim=(100, 212),
             ylim=(400, highest_fpm + 40))
    axes.set_xticks(range(100, 181, 20))

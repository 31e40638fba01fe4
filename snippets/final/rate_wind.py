"""Rate of descent on the example's path from 100 to 180 kt, with the wind along it."""

from collections.abc import Mapping
from functools import partial
from typing import Any

from lpv.core.text import number, quantity
from lpv.decide.final_path import descent_angle_deg
from lpv.facts import value
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

AIRSPEEDS_KT, SHOWN_KT, WIND_KT, ROOM_KT, ROOM_FPM = range(100, 190, 10), 140, 20, 32, 40
WIND = quantity(WIND_KT, "kt")
WINDS = ((WIND_KT, f"{WIND} tail", "second"), (0, "calm", "first"), (-WIND_KT, f"{WIND} head", "third"))


def show() -> Shown:
    """The figure: one line for each wind."""
    angle_deg = descent_angle_deg(example())
    rates_fpm = {wind_kt: {kt: descent_rate_fpm(kt + wind_kt, angle_deg) for kt in AIRSPEEDS_KT}
                 for wind_kt, _, _ in WINDS}
    head, tail = (quantity(rates_fpm[wind_kt][SHOWN_KT], "ft/min") for wind_kt in (-WIND_KT, WIND_KT))
    return Shown(figure(
        "final-rate-wind-figure", partial(draw, rates_fpm), height_in=3.4,
        finding=f"At {quantity(SHOWN_KT, 'kt')} true airspeed on {quantity(angle_deg, 'deg', 0.01)}, a headwind of "
        f"{quantity(WIND_KT, 'kt')} asks for {head}, a tailwind of {quantity(WIND_KT, 'kt')} for {tail}.",
        headers=["true airspeed", *[label for _, label, _ in WINDS]],
        rows=[(quantity(kt, "kt"), *[quantity(rates[kt], "ft/min") for rates in rates_fpm.values()])
              for kt in AIRSPEEDS_KT],
    ), {"per_ten_wind": Value.of(descent_rate_fpm(10.0, angle_deg), "ft/min")})


def draw(rates_fpm: Mapping[int, Mapping[int, float]], axes: Any) -> None:
    """A line for each wind."""
    limit_fpm, slowest_kt, fastest_kt = value("gate_sink_rate_fpm"), min(AIRSPEEDS_KT), max(AIRSPEEDS_KT)
    beside = {"textcoords": "offset points"}
    for wind_kt, label, role in WINDS:
        rates = rates_fpm[wind_kt]
        axes.plot(AIRSPEEDS_KT, list(rates.values()), color=COLOURS[role])
        axes.annotate(label, (fastest_kt, rates[fastest_kt]), xytext=(4, 0), color=COLOURS[role], va="center", **beside)
        point = SHOWN_KT, rates[SHOWN_KT]
        axes.plot(*point, "o", color=COLOURS["answer"])
        axes.annotate(number(point[1]), point, xytext=(-4, 3), ha="right", color=COLOURS["answer"], weight="bold",
                      **beside)
    axes.axhline(limit_fpm, color=COLOURS["muted"], linestyle="--")
    axes.annotate("criterion", (slowest_kt, limit_fpm), xytext=(2, 3), color=COLOURS["muted"], **beside)
    highest_fpm = max(limit_fpm, rates_fpm[WIND_KT][fastest_kt])
    axes.set(xlabel="true airspeed, kt", ylabel="rate of descent, ft/min", xlim=(slowest_kt, fastest_kt + ROOM_KT),
             ylim=(400, highest_fpm + ROOM_FPM))
    axes.set_xticks(AIRSPEEDS_KT[::2])

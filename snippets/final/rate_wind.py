"""Rate of descent on the example's path from 100 to 180 kt, with the wind along it."""

from lpv.facts import value
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import quantity

GPA_DEG = example().chart.glidepath_deg or 3.0
AIRSPEEDS_KT = list(range(100, 181, 10))
WINDS = ((20, "20 kt tail", "second"), (0, "calm", "first"), (-20, "20 kt head", "third"))
SHOWN_KT = 140
LIMIT_FPM = value("gate_sink_rate_fpm")


def rates(tailwind_kt: float) -> list[float]:
    return [descent_rate_fpm(speed + tailwind_kt, GPA_DEG) for speed in AIRSPEEDS_KT]


def draw(axes):
    for tailwind, label, role in WINDS:
        axes.plot(AIRSPEEDS_KT, rates(tailwind), color=COLOURS[role])
        axes.text(182, rates(tailwind)[-1], label, color=COLOURS[role], va="center")
        shown = descent_rate_fpm(SHOWN_KT + tailwind, GPA_DEG)
        axes.plot(SHOWN_KT, shown, "o", color=COLOURS["answer"])
        axes.annotate(
            f"{shown:.0f}", (SHOWN_KT, shown), xytext=(-4, 3), textcoords="offset points",
            ha="right", color=COLOURS["answer"], weight="bold",
        )
    axes.axhline(LIMIT_FPM, color=COLOURS["muted"], linestyle="--")
    axes.text(101, LIMIT_FPM + 12, "criterion", color=COLOURS["muted"])
    highest = max(LIMIT_FPM, rates(20)[-1])
    axes.set(xlabel="true airspeed, kt", ylabel="rate of descent, ft/min", xlim=(100, 212), ylim=(400, highest + 40))
    axes.set_xticks(range(100, 181, 20))


head, tail = (descent_rate_fpm(SHOWN_KT + wind, GPA_DEG) for wind in (-20, 20))
print(
    figure(
        "final-rate-wind-figure",
        draw,
        height_in=3.4,
        finding=f"At {SHOWN_KT} kt true airspeed on {GPA_DEG:.2f}°, a headwind of 20 kt asks for {head:.0f} ft/min, "
        f"a tailwind of 20 kt for {tail:.0f} ft/min.",
        headers=["true airspeed", *[label for _, label, _ in WINDS]],
        rows=[
            (f"{speed} kt", *[f"{descent_rate_fpm(speed + wind, GPA_DEG):.0f} ft/min" for wind, _, _ in WINDS])
            for speed in AIRSPEEDS_KT
        ],
    )
)
values = {"per_ten_wind": quantity(descent_rate_fpm(110, GPA_DEG) - descent_rate_fpm(100, GPA_DEG), "ft/min")}

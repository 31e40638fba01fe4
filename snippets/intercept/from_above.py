"""From above the path: the rate that regains it before the stabilised gate."""

from lpv.core.text import feet, nautical_miles, number, quantity
from lpv.core.units import FT_PER_NM
from lpv.decide.final_path import glidepath
from lpv.facts import value
from lpv.intercept.glidepath import above_path_late_ft, regain_rate_fpm
from lpv.motion.kinematics import descent_rate_fpm, distance_for_height_ft
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure

SPEEDS = ((120, "third"), (140, "first"), (160, "second"))
FROM_FT, HIGHEST_FT, LATE_S = 2000.0, 600, 10
gate_ft, limit_fpm = value("gate_imc_ft"), value("gate_sink_rate_fpm")
_, _, gpa_deg = glidepath(example())
within_nm = distance_for_height_ft(FROM_FT - gate_ft, gpa_deg) / FT_PER_NM


def rate_fpm(above_ft, speed_kt):
    return regain_rate_fpm(above_ft, gpa_deg, within_nm, speed_kt)


def most_above_ft(speed_kt):
    """The height above the path that the highest sink rate regains within the distance, tens of feet rounded down."""
    spare_fpm = limit_fpm - descent_rate_fpm(speed_kt, gpa_deg)
    return max(0.0, spare_fpm * within_nm / speed_kt * 60.0) // 10.0 * 10.0


def draw(axes):
    axes.axhspan(limit_fpm, 2000, color=COLOURS["shade"], linewidth=0)
    axes.axhline(limit_fpm, color=COLOURS["ink"], linewidth=1.0)
    axes.text(10, 1390, "more than the highest sink rate", va="top", fontsize=8)
    for speed_kt, colour in SPEEDS:
        ends, most_ft = (0, HIGHEST_FT), most_above_ft(speed_kt)
        axes.plot(ends, [rate_fpm(above_ft, speed_kt) for above_ft in ends], color=COLOURS[colour])
        axes.text(HIGHEST_FT + 8, rate_fpm(HIGHEST_FT, speed_kt), quantity(speed_kt, "kt"), color=COLOURS[colour])
        axes.plot(most_ft, limit_fpm, "o", color=COLOURS["answer"])
        axes.text(most_ft, limit_fpm - 20, f"  {number(most_ft)}", va="top", color=COLOURS["answer"], weight="bold")
    axes.set(xlabel="above the path, ft", ylabel="rate of descent, ft/min", xlim=(0, 720), ylim=(550, 1420))


rows = [
    (quantity(speed, "kt"), quantity(rate_fpm(0, speed), "ft/min"), feet(most_above_ft(speed))) for speed, _ in SPEEDS
]
finding = (
    f"In the {nautical_miles(within_nm)} from {number(FROM_FT)} down to {feet(gate_ft)} above the airport, at no "
    f"more than {quantity(limit_fpm, 'ft/min')}, {feet(most_above_ft(140))} above the path can be "
    f"regained at {quantity(140, 'kt')} ground speed, {feet(most_above_ft(160))} "
    f"at {quantity(160, 'kt')}."
)
print(figure("above-figure", draw, finding=finding, headers=["ground speed", "on the path", "most above"], rows=rows))
values = {
    "late_s": quantity(LATE_S, "s"),
    "late_ft": quantity(above_path_late_ft(LATE_S, gpa_deg, 140.0), "ft"),
    "most": quantity(most_above_ft(140.0), "ft"),
    "false_rate": quantity(descent_rate_fpm(140.0, value("ils_false_path_deg")), "ft/min"),
    "speed": quantity(140.0, "kt"),
}

"""Rate of descent by ground speed: the example's glidepath angle and two others."""

from lpv.facts import value
from lpv.motion.kinematics import descent_rate_fpm, flying_time_s
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

OWN_DEG = example().chart.glidepath_deg or 3.0
ANGLES_DEG = sorted([OWN_DEG, *[angle for angle in (2.75, 3.5, 3.0) if angle != OWN_DEG][:2]])
SPEEDS_KT = range(100, 181, 10)
LIMIT_FPM = value("gate_sink_rate_fpm")


def cell(speed_kt: float, angle_deg: float) -> str:
    rate = descent_rate_fpm(speed_kt, angle_deg)
    text = number(round(rate, -1)) + ("\N{NO-BREAK SPACE}over" if rate > LIMIT_FPM else "")
    return f"**{text}**" if angle_deg == OWN_DEG else text


print("Rate of descent in ft/min to the nearest ten, on the path; in bold the angle of the example:\n")
print(
    table(
        ["ground speed", *[quantity(angle, "°", 2) for angle in ANGLES_DEG]],
        [(quantity(speed, "kt"), *[cell(speed, angle) for angle in ANGLES_DEG]) for speed in SPEEDS_KT],
    )
)

ABOVE_FT, WITHIN_NM, SPEED_KT = 200.0, 2.0, 130.0
on_path_fpm = descent_rate_fpm(SPEED_KT, OWN_DEG)
regain_fpm = on_path_fpm + ABOVE_FT / flying_time_s(WITHIN_NM, SPEED_KT) * 60.0
per_kt = descent_rate_fpm(100.0, OWN_DEG) / 100.0
values = {
    "regain": f"{quantity(ABOVE_FT, 'ft')} above the path, to be lost within {quantity(WITHIN_NM, 'NM')} at "
    f"{quantity(SPEED_KT, 'kt')}, ask for {quantity(round(regain_fpm, -1), 'ft/min')} instead of "
    f"{quantity(round(on_path_fpm, -1), 'ft/min')}",
    "per_ten": quantity(10 * per_kt, "ft/min"),
    "rule_short": quantity((1 - value("descent_rule_factor") / per_kt) * 100, "%"),
}

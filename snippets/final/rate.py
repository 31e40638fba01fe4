"""Rate of descent by ground speed: the example's glidepath angle and two others."""

from lpv.core.text import number, quantity
from lpv.decide.final_path import descent_angle_deg
from lpv.decide.last_mile import regain_rate_fpm, rule_short_percent
from lpv.facts import value
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

OTHERS_DEG, SPEEDS_KT, STEP_FPM = (2.75, 3.5, 3.0), range(100, 190, 10), 10
ABOVE_FT, WITHIN_NM, SPEED_KT = 200.0, 2.0, 130.0


def show() -> Shown:
    """A row for each ground speed."""
    own_deg, limit_fpm = descent_angle_deg(example()), value("gate_sink_rate_fpm")
    angles_deg = sorted([own_deg, *[angle_deg for angle_deg in OTHERS_DEG if angle_deg != own_deg][:2]])

    def cell(speed_kt: float, angle_deg: float) -> str:
        rate_fpm = descent_rate_fpm(speed_kt, angle_deg)
        text = number(rate_fpm, STEP_FPM) + ("\N{NO-BREAK SPACE}over" if rate_fpm > limit_fpm else "")
        return f"**{text}**" if angle_deg == own_deg else text

    rows = [(quantity(speed_kt, "kt"), *[cell(speed_kt, angle_deg) for angle_deg in angles_deg])
            for speed_kt in SPEEDS_KT]
    listed = table(["ground speed", *[quantity(angle_deg, "deg", 0.01) for angle_deg in angles_deg]], rows)
    head = "Rate of descent in ft/min to the nearest ten, on the glidepath; in bold the angle of the example:"
    return Shown(f"{head}\n\n{listed}", values(own_deg))


def values(own_deg: float) -> dict[str, Value | str]:
    """What prose says of the example's angle."""
    regain_fpm = regain_rate_fpm(ABOVE_FT, WITHIN_NM, SPEED_KT, own_deg)
    on_path_fpm, ten_fpm = descent_rate_fpm(SPEED_KT, own_deg), descent_rate_fpm(10.0, own_deg)
    return {
        "regain": Value(regain_fpm, "ft/min", (
            f"{quantity(ABOVE_FT, 'ft')} above the glidepath, to be lost within {quantity(WITHIN_NM, 'NM')} at "
            f"{quantity(SPEED_KT, 'kt')}, ask for {quantity(regain_fpm, 'ft/min', STEP_FPM)} instead of "
            f"{quantity(on_path_fpm, 'ft/min', STEP_FPM)}")),
        "per_ten": Value.of(ten_fpm, "ft/min"),
        "rule_short": Value.of(rule_short_percent(own_deg), "%"),
    }

"""How much tailwind until the rate of descent on the path exceeds the criterion."""

import math

from lpv.air.atmosphere import isa_temperature_c, true_airspeed_kt
from lpv.facts import value
from lpv.motion.kinematics import gradient_ft_per_nm
from lpv_site.department.data import example, examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity

ANGLES_DEG = (3.0, 3.5, 4.0)
AIRSPEEDS_KT = range(110, 171, 10)
INDICATED_KT = 140.0


def limit_kt(angle_deg: float) -> float:
    """Ground speed at which the path asks for the whole criterion."""
    return value("gate_sink_rate_fpm") * 60.0 / gradient_ft_per_nm(angle_deg)


def left(airspeed_kt: float, angle_deg: float) -> str:
    tailwind = math.floor(limit_kt(angle_deg) - airspeed_kt)
    return number(tailwind) if tailwind > 0 else "none"


print("Tailwind along the final, in kt, at which the criterion is reached:\n")
print(
    table(
        ["true airspeed", *[quantity(angle, "°", 1) for angle in ANGLES_DEG]],
        [(quantity(v, "kt"), *[left(v, angle) for angle in ANGLES_DEG]) for v in AIRSPEEDS_KT],
    )
)

high = max(examples(), key=lambda approach: approach.chart.threshold_elevation_ft)
altitude_ft = high.pfaf.altitude_ft or 0.0
true_kt = true_airspeed_kt(INDICATED_KT, altitude_ft, isa_temperature_c(altitude_ft))
own_deg = example().chart.glidepath_deg or 3.0
values = {
    "limit": quantity(math.floor(limit_kt(own_deg)), "kt"),
    "limit_steep": quantity(math.floor(limit_kt(4.0)), "kt"),
    "high": f"{quantity(INDICATED_KT, 'kt')} indicated at the PFAF of {escape(high.identity.airport_name)}, "
    f"{quantity(altitude_ft, 'ft')} up, is {quantity(true_kt, 'kt')} true on a standard day",
}

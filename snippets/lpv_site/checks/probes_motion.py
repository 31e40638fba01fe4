"""Printed formulas and rules put together from the functions of lpv.motion.kinematics,
for checks of what is printed.
"""

from lpv.core.units import FT_PER_NM
from lpv.motion.kinematics import (
    angle_for_gradient_deg,
    descent_rate_fpm,
    distance_flown_ft,
    distance_for_height_ft,
    height_for_distance_ft,
)


def roll_out_distance_ft(
    height_ft: float, tch_ft: float, angle_deg: float, true_airspeed_kt: float, tailwind_kt: float, time_s: float
) -> float:
    """Distance, ft, from the threshold to the final roll-out point, Formula 3-10."""
    on_path = distance_for_height_ft(height_ft - tch_ft, angle_deg)
    return on_path + distance_flown_ft(true_airspeed_kt + tailwind_kt, time_s)  # 3-10A, 3-10B


def descent_rate_over_time_fpm(from_ft: float, to_ft: float, time_s: float, ground_speed_kt: float) -> float:
    """Rate of descent, ft/min, on the straight line between two altitudes that is flown in a time."""
    distance_nm = distance_flown_ft(ground_speed_kt, time_s) / FT_PER_NM
    return descent_rate_fpm(ground_speed_kt, angle_for_gradient_deg((from_ft - to_ft) / distance_nm))


def height_on_gradient_ft(distance_nm: float, gradient_ft_per_nm: float) -> float:
    """Height, ft, at a distance from where a path of this gradient ends."""
    return height_for_distance_ft(distance_nm * FT_PER_NM, angle_for_gradient_deg(gradient_ft_per_nm))

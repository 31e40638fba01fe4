"""Printed formulas put together from the functions of lpv.motion, for checks of Order 8260.52's examples."""

from lpv.motion import distance_flown_ft, distance_for_height_ft


def roll_out_distance_ft(
    height_ft: float, tch_ft: float, angle_deg: float, true_airspeed_kt: float, tailwind_kt: float, time_s: float
) -> float:
    """Distance, ft, from the threshold to the final roll-out point, Formula 3-10."""
    on_path = distance_for_height_ft(height_ft - tch_ft, angle_deg)
    return on_path + distance_flown_ft(true_airspeed_kt + tailwind_kt, time_s)  # 3-10A, 3-10B

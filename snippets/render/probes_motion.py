"""Printed formulas put together from the functions of lpv.motion, for checks of Order 8260.52's examples."""

from lpv.motion import distance_flown_ft, distance_for_height_ft, height_for_distance_ft
from lpv.units import FT_PER_NM


def roll_out_distance_ft(
    height_ft: float, tch_ft: float, angle_deg: float, true_airspeed_kt: float, tailwind_kt: float, time_s: float
) -> float:
    """Distance, ft, from the threshold to the final roll-out point, Formula 3-10."""
    on_path = distance_for_height_ft(height_ft - tch_ft, angle_deg)
    return on_path + distance_flown_ft(true_airspeed_kt + tailwind_kt, time_s)  # 3-10A, 3-10B


def obstacle_height_adjustment_ft(
    angle_deg: float, distance_ft: float, penetration_ft: float, surface_slope: float,
    tch_ft: float, threshold_ft: float, touchdown_zone_ft: float,
) -> float:
    """Height above touchdown, ft, that an obstacle in the final segment asks for, Formula 3-19."""
    on_path = height_for_distance_ft(distance_ft + penetration_ft * surface_slope, angle_deg)
    return on_path + tch_ft + threshold_ft - touchdown_zone_ft  # 3-19


def visual_surface_length_ft(accuracy_nm: float, runway_width_ft: float, splay_deg: float) -> float:
    """Length, ft, in which the visual surface widens to the navigation accuracy, Formula 3-20."""
    return distance_for_height_ft(accuracy_nm * FT_PER_NM - (100.0 + runway_width_ft / 2.0), splay_deg)  # 3-20


def missed_height_adjustment_ft(
    angle_deg: float, penetration_ft: float, missed_slope: float, surface_slope: float
) -> float:
    """Height, ft, that a missed-approach obstacle adds to the decision height, Formula 4-7."""
    moved_ft = penetration_ft * missed_slope * surface_slope / (missed_slope + surface_slope)
    return height_for_distance_ft(moved_ft, angle_deg)  # 4-7


def decision_distance_ft(
    height_ft: float, adjustment_ft: float, tch_ft: float, touchdown_zone_ft: float, threshold_ft: float,
    angle_deg: float,
) -> float:
    """Distance, ft, from the threshold at the adjusted decision altitude, Formula 4-8."""
    above_crossing = height_ft + adjustment_ft - tch_ft + touchdown_zone_ft - threshold_ft
    return distance_for_height_ft(above_crossing, angle_deg)  # 4-8


def decision_altitude_ft(angle_deg: float, distance_ft: float, threshold_ft: float, tch_ft: float) -> float:
    """Decision altitude, ft, at a distance from the threshold, Formula 4-9."""
    return height_for_distance_ft(distance_ft, angle_deg) + threshold_ft + tch_ft  # 4-9

"""Obstacle surfaces under the decision and the missed approach, as procedure design computes them.

United States, FAA Order 8260.52 (cancelled; its printed examples remain good
arithmetic).  For understanding why a decision altitude or a climb gradient is
what it is, not for designing procedures.  Heights and elevations in ft, flat earth.
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import FT_PER_NM
from lpv.facts import value
from lpv.motion.kinematics import distance_for_height_ft, height_for_distance_ft


def penetration_adjustment_ft(
    gpa_deg: float, obstacle_distance_ft: float, penetration_ft: float, surface_slope: float,
    tch_ft: float, threshold_elevation_ft: float, touchdown_zone_elevation_ft: float,
) -> float:
    """Height above touchdown, ft, to which an obstacle in the final surface raises the decision.

    gpa_deg: 1 to 10; obstacle_distance_ft: from the threshold, 0 to 100 000
    penetration_ft: into the surface, 0 to 2000; surface_slope: run for one of rise, 5 to 100
    tch_ft: 0 to 200; elevations: -2000 to 20 000
    Raises DomainError outside.  Source: FAA Order 8260.52 Formula 3-19 (number inferred).
    """
    in_range("distance of the obstacle", obstacle_distance_ft, 0.0, 100_000.0, "ft")
    _penetration(penetration_ft, surface_slope)
    offset_ft = _tch(tch_ft) + _elevation(threshold_elevation_ft) - _elevation(touchdown_zone_elevation_ft)
    # 3-19: tan th (d + p OCS) + TCH + LTP - TDZE
    clear_ft = obstacle_distance_ft + penetration_ft * surface_slope
    return height_for_distance_ft(clear_ft, _gpa(gpa_deg)) + offset_ft


def visual_splay_length_ft(rnp_nm: float, runway_width_ft: float) -> float:
    """Length, ft, of the visual-segment surface's splay from the threshold until it is as wide as the RNP.

    rnp_nm: 0.05 to 1; runway_width_ft: 30 to 500; DomainError outside.
    Source: FAA Order 8260.52 Formula 3-20.
    """
    in_range("RNP", rnp_nm, 0.05, 1.0, "NM")
    in_range("runway width", runway_width_ft, 30.0, 500.0, "ft")
    start_ft = value("visual_surface_outside_runway_ft") + runway_width_ft / 2.0
    splay = math.tan(math.radians(value("visual_surface_splay_deg")))
    return (rnp_nm * FT_PER_NM - start_ft) / splay  # 3-20


def missed_penetration_adjustment_ft(
    gpa_deg: float, penetration_ft: float, missed_slope: float, final_slope: float
) -> float:
    """By how many ft an obstacle in the missed approach surface raises the decision.

    gpa_deg: 1 to 10; penetration_ft: 0 to 2000; slopes (run for one of rise): 5 to 100
    Raises DomainError outside.  Source: FAA Order 8260.52 Formula 4-7 (number inferred).
    """
    _penetration(penetration_ft, missed_slope)
    _penetration(penetration_ft, final_slope)
    joint = missed_slope * final_slope / (missed_slope + final_slope)
    return height_for_distance_ft(penetration_ft * joint, _gpa(gpa_deg))  # 4-7


def decision_distance_ft(
    hat_ft: float, adjustment_ft: float, tch_ft: float, touchdown_zone_elevation_ft: float,
    threshold_elevation_ft: float, gpa_deg: float,
) -> float:
    """Distance, ft before the threshold, at which the path has the adjusted decision height.

    hat_ft: height above touchdown, 50 to 2000; adjustment_ft: 0 to 2000; tch_ft: 0 to 200;
    elevations -2000 to 20 000; gpa_deg: 1 to 10
    Raises DomainError outside, and if that height is below the path's at the threshold.
    Source: FAA Order 8260.52 Formula 4-8.
    """
    in_range("height above touchdown", hat_ft, 50.0, 2000.0, "ft")
    in_range("adjustment", adjustment_ft, 0.0, 2000.0, "ft")
    offset_ft = _elevation(touchdown_zone_elevation_ft) - _elevation(threshold_elevation_ft)
    # 4-8: (HAT + HATadj - TCH + TDZE - LTP) / tan th
    return distance_for_height_ft(hat_ft + adjustment_ft - _tch(tch_ft) + offset_ft, _gpa(gpa_deg))


def decision_altitude_ft(
    distance_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float
) -> float:
    """Altitude, ft, of the path (flat earth) at a distance before the threshold, as for a decision altitude.

    distance_ft: 0 to 100 000; elevation -2000 to 20 000; tch_ft: 0 to 200; gpa_deg: 1 to 10
    Raises DomainError outside.  Source: FAA Order 8260.52 Formula 4-9.
    """
    in_range("distance before the threshold", distance_ft, 0.0, 100_000.0, "ft")
    crossing_ft = _elevation(threshold_elevation_ft) + _tch(tch_ft)
    return height_for_distance_ft(distance_ft, _gpa(gpa_deg)) + crossing_ft  # 4-9


def climb_gradient_for_obstacle_ft_per_nm(
    obstacle_ft: float, surface_start_ft: float, distance_ft: float
) -> float:
    """Missed approach climb gradient, ft/NM, whose surface just clears an obstacle; 0 if it is lower.

    obstacle_ft, surface_start_ft: elevations, -2000 to 30 000; distance_ft: 100 to 600 000
    Raises DomainError outside.  Source: FAA Order 8260.52 Formula 4-10.
    """
    in_range("obstacle elevation", obstacle_ft, -2000.0, 30_000.0, "ft")
    in_range("start of the surface", surface_start_ft, -2000.0, 30_000.0, "ft")
    in_range("distance of the obstacle", distance_ft, 100.0, 600_000.0, "ft")
    rise_ft = max(0.0, obstacle_ft - surface_start_ft)
    return value("surface_times_gradient_ft_per_nm") * rise_ft / distance_ft  # 4-10


def surface_slope_for_gradient(gradient_ft_per_nm: float) -> float:
    """Slope (run for one of rise) of the obstacle surface under a climb gradient: 40 at 200 ft/NM.

    gradient_ft_per_nm: 50 to 1000; DomainError outside.
    Source: FAA Order 8260.52 par 4.3.1b, 8000 / CG.  `lpv.motion.kinematics.obstacle_surface_slope`
    takes the 24 % of the instrument procedures handbook instead and differs by 0.06 %.
    """
    in_range("climb gradient", gradient_ft_per_nm, 50.0, 1000.0, "ft/NM")
    return value("surface_times_gradient_ft_per_nm") / gradient_ft_per_nm


def surface_rise_ft_per_nm(gradient_ft_per_nm: float) -> float:
    """Rise of the obstacle surface, ft/NM, under a climb gradient (50 to 1000): 152 at 200 ft/NM."""
    return FT_PER_NM / surface_slope_for_gradient(gradient_ft_per_nm)


def _penetration(penetration_ft: float, slope: float) -> None:
    in_range("penetration", penetration_ft, 0.0, 2000.0, "ft")
    in_range("slope of the surface", slope, 5.0, 100.0)


def _tch(tch_ft: float) -> float:
    return in_range("threshold crossing height", tch_ft, 0.0, 200.0, "ft")


def _elevation(elevation_ft: float) -> float:
    return in_range("elevation", elevation_ft, -2000.0, 20_000.0, "ft")


def _gpa(gpa_deg: float) -> float:
    return in_range("glidepath angle", gpa_deg, 1.0, 10.0, "deg")

"""Motion: wind triangle, steady turns, time, descent and climb.

Courses are degrees, all true or all magnetic (the wind too).  Turns are
co-ordinated, level and at constant speed, with standard gravity; wind moves a
turn as a whole and does not change its radius through the air (rolling into a
turn: lpv.motion.turn_lead).  Descent and climb are over a flat earth.
Speeds lie between 1 and 1000 kt, wind up to 300 kt, bank between 0.1 and 80 deg,
path angles up to 10 deg; everything outside raises DomainError, and so does nan.
"""

import math

from lpv.core.errors import DomainError, in_range
from lpv.core.text import quantity
from lpv.core.units import FPS_PER_KT, FT_PER_NM, M_PER_NM, MPS_PER_KT, STANDARD_GRAVITY_MPS2, degrees_360
from lpv.facts import value

HIGHEST_ANGLE_DEG = 10.0
HIGHEST_GRADIENT_FT_PER_NM = math.tan(math.radians(HIGHEST_ANGLE_DEG)) * FT_PER_NM


class WindTriangle:
    """Heading to hold a course, in degrees, and what comes of it.

    correction_deg: heading minus course, positive to the right
    drift_deg:      course minus heading, positive when the wind carries to the right
    """

    def __init__(self, heading_deg: float, correction_deg: float, ground_speed_kt: float) -> None:
        self.heading_deg = heading_deg
        self.correction_deg = correction_deg
        self.drift_deg = 0.0 - correction_deg
        self.ground_speed_kt = ground_speed_kt


def _speed(name: str, speed_kt: float) -> float:
    return in_range(name, speed_kt, 1.0, 1000.0, "kt")


def _bank(bank_deg: float) -> float:
    return in_range("bank", bank_deg, 0.1, 80.0, "deg")


def _angle(angle_deg: float) -> float:
    return in_range("path angle", angle_deg, 0.0, HIGHEST_ANGLE_DEG, "deg")


def _relative_wind_rad(course_deg: float, wind_from_deg: float, wind_kt: float) -> float:
    in_range("course", course_deg, 0.0, 360.0, "deg")
    in_range("wind direction", wind_from_deg, 0.0, 360.0, "deg")
    in_range("wind speed", wind_kt, 0.0, 300.0, "kt")
    return math.radians(wind_from_deg - course_deg)


def headwind_kt(course_deg: float, wind_from_deg: float, wind_kt: float) -> float:
    """Part of the wind against the course, kt; a tailwind is negative."""
    return wind_kt * math.cos(_relative_wind_rad(course_deg, wind_from_deg, wind_kt)) + 0.0


def crosswind_kt(course_deg: float, wind_from_deg: float, wind_kt: float) -> float:
    """Part of the wind across the course, kt; from the right is positive."""
    return wind_kt * math.sin(_relative_wind_rad(course_deg, wind_from_deg, wind_kt)) + 0.0


def wind_triangle(
    course_deg: float, true_airspeed_kt: float, wind_from_deg: float, wind_kt: float
) -> WindTriangle:
    """Heading, wind correction, drift and ground speed on a course (see WindTriangle).

    DomainError if the crosswind is as strong as the airspeed or the ground speed is under 1 kt.
    """
    _speed("true airspeed", true_airspeed_kt)
    across = crosswind_kt(course_deg, wind_from_deg, wind_kt)
    along = headwind_kt(course_deg, wind_from_deg, wind_kt)
    if abs(across) >= true_airspeed_kt:
        raise DomainError(
            f"crosswind: found {quantity(across, 'kt', 0.1)} at {quantity(true_airspeed_kt, 'kt', 0.1)} true airspeed; "
            "allowed: less than the airspeed. This course cannot be held."
        )
    correction = math.degrees(math.asin(across / true_airspeed_kt))
    ground_speed = _speed("ground speed", math.sqrt(true_airspeed_kt**2 - across**2) - along)
    return WindTriangle(degrees_360(course_deg + correction), correction, ground_speed)


def track_and_ground_speed(
    heading_deg: float, true_airspeed_kt: float, wind_from_deg: float, wind_kt: float
) -> "tuple[float, float]":
    """(track deg, ground speed kt) flown on a heading; DomainError if the ground speed is under 1 kt."""
    _speed("true airspeed", true_airspeed_kt)
    along = true_airspeed_kt - headwind_kt(heading_deg, wind_from_deg, wind_kt)
    to_the_left = crosswind_kt(heading_deg, wind_from_deg, wind_kt)
    ground_speed = _speed("ground speed", math.sqrt(along**2 + to_the_left**2))
    return degrees_360(heading_deg - math.degrees(math.atan2(to_the_left, along))), ground_speed


def turn_rate_deg_per_s(true_airspeed_kt: float, bank_deg: float) -> float:
    """Rate of turn, deg/s = g tan(bank) / V, for 1 to 1000 kt and a bank of 0.1 to 80 deg; DomainError outside."""
    speed_mps = _speed("true airspeed", true_airspeed_kt) * MPS_PER_KT
    return math.degrees(STANDARD_GRAVITY_MPS2 * math.tan(math.radians(_bank(bank_deg))) / speed_mps)


def turn_radius_nm(true_airspeed_kt: float, bank_deg: float) -> float:
    """Radius of a turn through the air, NM = V^2 / (g tan(bank)); domain as turn_rate_deg_per_s."""
    speed_mps = _speed("true airspeed", true_airspeed_kt) * MPS_PER_KT
    return speed_mps**2 / (STANDARD_GRAVITY_MPS2 * math.tan(math.radians(_bank(bank_deg)))) / M_PER_NM


def turn_radius_ft(true_airspeed_kt: float, bank_deg: float) -> float:
    """Radius of a turn through the air, ft; domain as turn_rate_deg_per_s."""
    return turn_radius_nm(true_airspeed_kt, bank_deg) * FT_PER_NM


def turn_radius_for_rate_nm(true_airspeed_kt: float, rate_deg_per_s: float) -> float:
    """Radius, NM, of a turn at a rate of 0.01 to 30 deg/s; Doc 8168 Vol II I-2-3 (ICAO)."""
    _speed("true airspeed", true_airspeed_kt)
    in_range("rate of turn", rate_deg_per_s, 0.01, 30.0, "deg/s")
    return true_airspeed_kt / (20.0 * math.pi * rate_deg_per_s)  # r = V / (20 pi R)


def turn_time_s(turn_deg: float, true_airspeed_kt: float, bank_deg: float) -> float:
    """Time in the steady turn, s, for 0 to 360 deg of turn; rolling in and out not counted."""
    in_range("turn", turn_deg, 0.0, 360.0, "deg")
    return turn_deg / turn_rate_deg_per_s(true_airspeed_kt, bank_deg)


def bank_for_radius_deg(true_airspeed_kt: float, radius_nm: float) -> float:
    """Bank, deg, that turns on a radius of 0.05 to 100 NM.

    With ground speed (airspeed plus tailwind) instead of airspeed it is the bank
    on a fixed radius over the ground: Order 8260.52 Formula 1-4.
    """
    speed_mps = _speed("speed", true_airspeed_kt) * MPS_PER_KT
    radius_m = in_range("turn radius", radius_nm, 0.05, 100.0, "NM") * M_PER_NM
    return math.degrees(math.atan(speed_mps**2 / (STANDARD_GRAVITY_MPS2 * radius_m)))  # 1-4


def distance_flown_ft(ground_speed_kt: float, time_s: float) -> float:
    """Distance over the ground, ft, in 0 to 86 400 s."""
    in_range("time", time_s, 0.0, 86400.0, "s")
    return _speed("ground speed", ground_speed_kt) * FPS_PER_KT * time_s


def flying_time_s(distance_nm: float, ground_speed_kt: float) -> float:
    """Time, s, for a distance of 0 to 1000 NM."""
    in_range("distance", distance_nm, 0.0, 1000.0, "NM")
    return distance_nm / _speed("ground speed", ground_speed_kt) * 3600.0


def descent_rate_fpm(ground_speed_kt: float, angle_deg: float) -> float:
    """Rate of descent (or climb), ft/min, that holds a path angle of 0 to 10 deg over the ground.

    Ground speed times tan(angle).  The printed US Government table goes by the
    sine, which is the speed along the path; up to 4 deg the two differ by less than its step.
    """
    return climb_rate_fpm(ground_speed_kt, gradient_ft_per_nm(angle_deg))


def gradient_ft_per_nm(angle_deg: float) -> float:
    """Gradient, ft/NM, of a path angle of 0 to 10 deg."""
    return math.tan(math.radians(_angle(angle_deg))) * FT_PER_NM


def gradient_percent(angle_deg: float) -> float:
    """Gradient in percent of a path angle of 0 to 10 deg."""
    return math.tan(math.radians(_angle(angle_deg))) * 100.0


def angle_for_gradient_deg(gradient_ft_per_nm: float) -> float:
    """Path angle, deg, of a gradient of 0 to 1071 ft/NM (10 deg)."""
    return math.degrees(math.atan(_gradient(gradient_ft_per_nm) / FT_PER_NM))


def _gradient(gradient: float) -> float:
    return in_range("gradient", gradient, 0.0, HIGHEST_GRADIENT_FT_PER_NM, "ft/NM")


def climb_rate_fpm(ground_speed_kt: float, gradient_ft_per_nm: float) -> float:
    """Rate of climb, ft/min, that makes a gradient of 0 to 1071 ft/NM good."""
    return _speed("ground speed", ground_speed_kt) * _gradient(gradient_ft_per_nm) / 60.0


def gradient_for_climb_rate_ft_per_nm(ground_speed_kt: float, climb_rate_fpm: float) -> float:
    """Gradient, ft/NM, that a rate of climb of 0 to 20 000 ft/min makes good."""
    in_range("rate of climb", climb_rate_fpm, 0.0, 20000.0, "ft/min")
    return climb_rate_fpm * 60.0 / _speed("ground speed", ground_speed_kt)


def distance_for_height_ft(height_ft: float, angle_deg: float) -> float:
    """Ground distance, ft, in which a path of 0.1 to 10 deg loses 0 to 60 000 ft.

    Order 8260.52 Formula 1-5 (FAA).
    """
    in_range("height", height_ft, 0.0, 60000.0, "ft")
    in_range("path angle", angle_deg, 0.1, HIGHEST_ANGLE_DEG, "deg")
    return height_ft / math.tan(math.radians(angle_deg))  # 1-5


def height_for_distance_ft(distance_ft: float, angle_deg: float) -> float:
    """Height, ft, that a path of 0 to 10 deg loses in 0 to 600 000 ft.

    Order 8260.52, within Formula 4-9 (FAA).
    """
    in_range("distance", distance_ft, 0.0, 600000.0, "ft")
    return distance_ft * math.tan(math.radians(_angle(angle_deg)))  # 4-9


def obstacle_gradient_ft_per_nm(obstacle_ft: float, start_ft: float, distance_nm: float) -> float:
    """Climb gradient, ft/NM, over an obstacle; 0 if the obstacle is not above the start.

    (O - E) / (0.76 D): 24 % of the gradient is clearance.  Elevations -2000 to
    30 000 ft, distance 0.01 to 100 NM.  Order 8260.3, as in the Instrument
    Procedures Handbook ch 1 (FAA).
    """
    in_range("obstacle elevation", obstacle_ft, -2000.0, 30000.0, "ft")
    in_range("start of climb", start_ft, -2000.0, 30000.0, "ft")
    in_range("distance", distance_nm, 0.01, 100.0, "NM")
    return max(0.0, obstacle_ft - start_ft) / ((1.0 - value("obstacle_clearance_share")) * distance_nm)


def obstacle_surface_slope(gradient_ft_per_nm: float) -> float:
    """Slope of the obstacle surface under a climb gradient of 1 to 1071 ft/NM: run over rise, 40 for 40:1."""
    in_range("gradient", gradient_ft_per_nm, 1.0, HIGHEST_GRADIENT_FT_PER_NM, "ft/NM")
    return FT_PER_NM / ((1.0 - value("obstacle_clearance_share")) * gradient_ft_per_nm)

"""Meeting the glidepath: level from below, late from above.

Flat earth and steady ground speed; heights are true heights above or below the
glidepath, not what a cold or hot altimeter shows (see `lpv.air.altimetry`).
Glidepath angles 1 to 10 degrees, ground speeds 1 to 1000 kt.
"""

from lpv.core.errors import in_range
from lpv.core.units import FT_PER_NM
from lpv.motion.kinematics import (
    angle_for_gradient_deg,
    descent_rate_fpm,
    distance_for_height_ft,
    flying_time_s,
    gradient_for_climb_rate_ft_per_nm,
    gradient_ft_per_nm,
)


def level_to_path_nm(below_path_ft: float, gpa_deg: float) -> float:
    """Distance in level flight, NM, until the glidepath comes down to the aircraft.

    below_path_ft: 0 to 20 000; gpa_deg: 1 to 10; DomainError outside
    """
    _gpa(gpa_deg)
    in_range("height below the path", below_path_ft, 0.0, 20_000.0, "ft")
    return distance_for_height_ft(below_path_ft, gpa_deg) / FT_PER_NM


def level_to_path_s(below_path_ft: float, gpa_deg: float, ground_speed_kt: float) -> float:
    """Time in level flight, s, until the glidepath comes down to the aircraft."""
    return flying_time_s(level_to_path_nm(below_path_ft, gpa_deg), ground_speed_kt)


def above_path_after_ft(level_past_nm: float, gpa_deg: float) -> float:
    """Height above the glidepath, ft, after flying level past the point where it was met.

    level_past_nm: 0 to 50; gpa_deg: 1 to 10; DomainError outside
    """
    in_range("level flight past the path", level_past_nm, 0.0, 50.0, "NM")
    return level_past_nm * gradient_ft_per_nm(_gpa(gpa_deg))


def above_path_late_ft(late_s: float, gpa_deg: float, ground_speed_kt: float) -> float:
    """Height above the glidepath, ft, when the descent begins so many seconds late (0 to 600)."""
    in_range("ground speed", ground_speed_kt, 1.0, 1000.0, "kt")
    late_nm = in_range("delay", late_s, 0.0, 600.0, "s") * ground_speed_kt / 3600.0
    return late_nm * gradient_ft_per_nm(_gpa(gpa_deg))


def regain_angle_deg(above_path_ft: float, gpa_deg: float, within_nm: float) -> float:
    """Path angle, degrees, that regains the glidepath from above within a distance.

    above_path_ft: 0 to 20 000; gpa_deg: 1 to 10; within_nm: 0.1 to 100
    Raises DomainError outside, and if the angle would be over 10 degrees.
    Source: geometry; the path's own gradient plus the height over the distance.
    """
    in_range("height above the path", above_path_ft, 0.0, 20_000.0, "ft")
    in_range("distance to regain the path", within_nm, 0.1, 100.0, "NM")
    return angle_for_gradient_deg(gradient_ft_per_nm(_gpa(gpa_deg)) + above_path_ft / within_nm)


def regain_rate_fpm(
    above_path_ft: float, gpa_deg: float, within_nm: float, ground_speed_kt: float
) -> float:
    """Rate of descent, ft/min, that regains the glidepath from above within a distance.

    Arguments and errors as `regain_angle_deg`; ground_speed_kt 1 to 1000.
    """
    return descent_rate_fpm(ground_speed_kt, regain_angle_deg(above_path_ft, gpa_deg, within_nm))


def regained_ft(rate_fpm: float, gpa_deg: float, within_nm: float, ground_speed_kt: float) -> float:
    """Height above the glidepath, ft, that a rate of descent regains within a distance; 0 where it does not hold it.

    rate_fpm: 0 to 20 000; gpa_deg: 1 to 10; within_nm: 0.1 to 100; ground_speed_kt: 1 to 1000; DomainError outside.
    Source: geometry; the inverse of `regain_rate_fpm`.
    """
    in_range("distance to regain the path", within_nm, 0.1, 100.0, "NM")
    spare_ft_per_nm = gradient_for_climb_rate_ft_per_nm(ground_speed_kt, rate_fpm) - gradient_ft_per_nm(_gpa(gpa_deg))
    return max(0.0, spare_ft_per_nm) * within_nm


def _gpa(gpa_deg: float) -> float:
    return in_range("glidepath angle", gpa_deg, 1.0, 10.0, "deg")

"""Adapters for check values of the flying subjects: the same functions, in the unit the source prints."""

from lpv.core.text import number
from lpv.core.units import FT_PER_NM, FT_PER_SM, M_PER_FT
from lpv.decide import visibility, visual
from lpv.intercept import vectors
from lpv.motion import kinematics as motion
from lpv.path import deviation, ils_scale
from lpv.path import scale as path_scale


def procedure_full_scale_nm(
    distance_nm: float, pfaf_distance_nm: float, half_width_ft: float, garp_distance_ft: float
) -> float:
    """`lpv.path.deviation.procedure_full_scale_ft` in NM."""
    args = (distance_nm, pfaf_distance_nm, half_width_ft, garp_distance_ft)
    return deviation.procedure_full_scale_ft(*args) / FT_PER_NM


def procedure_width_ft(
    distance_nm: float, pfaf_distance_nm: float, half_width_ft: float, garp_distance_ft: float
) -> float:
    """Course width in ft, left to right: twice `lpv.path.deviation.procedure_full_scale_ft`."""
    return 2.0 * deviation.procedure_full_scale_ft(
        distance_nm, pfaf_distance_nm, half_width_ft, garp_distance_ft
    )


def vectors_full_scale_nm(distance_nm: float, half_width_ft: float, garp_distance_ft: float) -> float:
    """`lpv.path.deviation.vectors_full_scale_ft` in NM."""
    return deviation.vectors_full_scale_ft(distance_nm, half_width_ft, garp_distance_ft) / FT_PER_NM


def missed_first_leg_full_scale_nm(turn_deg: float) -> float:
    """`lpv.path.deviation.missed_first_leg_full_scale_ft` in NM."""
    return deviation.missed_first_leg_full_scale_ft(turn_deg) / FT_PER_NM


def missed_after_turn_full_scale_nm() -> float:
    """`lpv.path.deviation.missed_after_turn_full_scale_ft` in NM."""
    return deviation.missed_after_turn_full_scale_ft() / FT_PER_NM


def lpv_floor_distance_ft(gpa_deg: float) -> float:
    """`lpv.path.scale.lpv_floor_distance_nm` in ft."""
    return path_scale.lpv_floor_distance_nm(gpa_deg) * FT_PER_NM


def lpv_cap_height_ft(gpa_deg: float) -> float:
    """Height of the path in ft where the cap of LPV's path deviation begins to hold."""
    return motion.height_for_distance_ft(path_scale.lpv_cap_distance_nm(gpa_deg) * FT_PER_NM, gpa_deg)


def lpv_floor_height_ft(gpa_deg: float) -> float:
    """Height of the path in ft where the floor of LPV's path deviation begins to hold."""
    return motion.height_for_distance_ft(lpv_floor_distance_ft(gpa_deg), gpa_deg)


def lpv_full_scale_at_height_ft(height_ft: float, gpa_deg: float) -> float:
    """`lpv.path.scale.lpv_full_scale_ft` where the path has this height above its origin."""
    return path_scale.lpv_full_scale_ft(_distance_nm(height_ft, gpa_deg), gpa_deg)


def glide_slope_full_scale_at_height_ft(height_ft: float, gpa_deg: float) -> float:
    """`lpv.path.ils_scale.glide_slope_full_scale_ft` where the path has this height above its origin."""
    return ils_scale.glide_slope_full_scale_ft(_distance_nm(height_ft, gpa_deg))


def glide_slope_of_angle_full_scale_at_height_ft(height_ft: float, gpa_deg: float) -> float:
    """`lpv.path.ils_scale.glide_slope_of_angle_full_scale_ft` where the path has this height above its origin."""
    return ils_scale.glide_slope_of_angle_full_scale_ft(_distance_nm(height_ft, gpa_deg), gpa_deg)


def localizer_width_ft(distance_nm: float, antenna_distance_ft: float) -> float:
    """Localizer width in ft, left to right: twice `lpv.path.ils_scale.localizer_full_scale_ft`."""
    return 2.0 * ils_scale.localizer_full_scale_ft(distance_nm, antenna_distance_ft)


def localizer_full_scale_from_modulation_m() -> float:
    """`lpv.path.ils_scale.localizer_full_scale_from_modulation_ft` in m."""
    return ils_scale.localizer_full_scale_from_modulation_ft() * M_PER_FT


def vector_limits_met(
    distance_nm: float, angle_deg: float, faf_distance_nm: float,
    altitude_ft: float, glidepath_altitude_ft: float, lowest_altitude_ft: float,
) -> list[bool]:
    """Whether each of `lpv.intercept.vectors.vector_limits` is met, in its order."""
    limits = vectors.vector_limits(
        distance_nm, angle_deg, faf_distance_nm, altitude_ft, glidepath_altitude_ft, lowest_altitude_ft
    )
    return [limit.met for limit in limits]


def threshold_distance_sm(height_ft: float, tch_ft: float, gpa_deg: float) -> float:
    """`lpv.decide.visual.threshold_distance_ft` in statute miles."""
    return visual.threshold_distance_ft(height_ft, tch_ft, gpa_deg) / FT_PER_SM


def lights_ahead_ft(height_ft: float, tch_ft: float, gpa_deg: float, lights_ft: float) -> float:
    """Distance in ft along the ground from a point on the path to the outer end of the approach lights."""
    return visual.threshold_distance_ft(height_ft, tch_ft, gpa_deg) - lights_ft


def lights_extent_ft(systems: list[str]) -> tuple[float, float]:
    """Shortest and longest of these approach lights, ft, over glide slopes of 2.5 and 3 deg."""
    lengths = [visual.lights_length_ft(system, gpa_deg) for system in systems for gpa_deg in (2.5, 3.0)]
    return min(lengths), max(lengths)


def rvr_row_easa(decision_height_ft: float) -> str:
    """A row of EASA's table in m, as text: with full, intermediate, basic and no approach lights."""
    lengths_m = (720.0, 420.0, 210.0, 0.0)
    row = [visibility.rvr_for_decision_height_easa_m(decision_height_ft, length) for length in lengths_m]
    return " ".join(number(rvr) for rvr in row)


def _distance_nm(height_ft: float, gpa_deg: float) -> float:
    return motion.distance_for_height_ft(height_ft, gpa_deg) / FT_PER_NM

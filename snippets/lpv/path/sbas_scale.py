"""Full scale of SBAS guidance along one approach, by the distance before the threshold."""

from lpv.core.units import FT_PER_NM
from lpv.path import deviation
from lpv.path.deviation import two_dots
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm

ESTABLISHED_DOTS = 1.0  # course deviation within which an approach counts as established
MAX_DOTS = 100.0  # what a deviation far off the scale is cut to


def course_full_scale_ft(
    distance_nm: float, pfaf_nm: float, width_ft: float, garp_ft: float, on_vectors: bool,
) -> float:
    """Full scale of the course (ft), joined by the procedure or on vectors; behind the GARP that at it.

    width_ft: half width at the threshold;  garp_ft: from there to the GARP.  Domain as `lpv.path.deviation`.
    """
    near_nm = max(-garp_ft / FT_PER_NM, distance_nm)
    if on_vectors:
        return deviation.vectors_full_scale_ft(near_nm, width_ft, garp_ft)
    return deviation.procedure_full_scale_ft(near_nm, pfaf_nm, width_ft, garp_ft)


def path_full_scale_ft(distance_nm: float, tch_ft: float, gpa_deg: float) -> float:
    """Full scale of the path (ft); behind the threshold that at it.  Domain as `lpv.path.scale`."""
    return lpv_full_scale_ft(origin_distance_nm(max(0.0, distance_nm), tch_ft, gpa_deg), gpa_deg)


def cut_dots(displacement_ft: float, full_scale_ft: float) -> float:
    """A displacement in dots of a two-dot scale, cut to MAX_DOTS."""
    return max(-MAX_DOTS, min(MAX_DOTS, two_dots(displacement_ft, full_scale_ft)))

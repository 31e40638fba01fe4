"""Full-scale course deviation of an SBAS approach, and deviations as dots.

Distances run along the final course: positive before the threshold (LTP),
negative past it.  Full scale is one-sided, from the centre to the edge.  The
vertical side is in `lpv.path.scale`, the ILS beside it in `lpv.path.ils_scale`.
"""


from lpv.core.errors import in_range
from lpv.core.units import FT_PER_NM
from lpv.facts import value

FARTHEST_NM = 200.0


def angular_full_scale_ft(distance_nm: float, half_width_ft: float, garp_distance_ft: float) -> float:
    """Full-scale course deviation in ft if only the angle from the GARP counted: no cap, no floor.

    distance_nm: before the threshold, NM, at most 200, not past the GARP
    half_width_ft: full scale at the threshold, ft, 100 to 1000
    garp_distance_ft: from the threshold to the GARP, ft, 1000 to 50 000
    Raises DomainError outside.  Source: plane geometry of the final approach segment.
    """
    _segment(half_width_ft, garp_distance_ft)
    in_range("distance before the threshold", distance_nm, -garp_distance_ft / FT_PER_NM, FARTHEST_NM, "NM")
    share = (distance_nm * FT_PER_NM + garp_distance_ft) / garp_distance_ft
    return half_width_ft * max(0.0, share)


def final_full_scale_ft(distance_nm: float, half_width_ft: float, garp_distance_ft: float) -> float:
    """Full-scale course deviation in ft on the final approach segment, PFAF to runway.

    Angular from the GARP, at most 0.3 NM on long finals, and linear from the
    threshold on (the course stops tightening at its threshold width).
    Arguments and errors as `angular_full_scale_ft`.
    Source: FAA AIM 1-1-18.d.4 (published); the place where it becomes linear,
    published as "close to the threshold", is taken as the threshold.
    """
    cap_ft = value("angular_start_full_scale_nm") * FT_PER_NM
    return _capped(distance_nm, half_width_ft, garp_distance_ft, cap_ft)


def procedure_full_scale_ft(
    distance_nm: float, pfaf_distance_nm: float, half_width_ft: float, garp_distance_ft: float
) -> float:
    """Full-scale course deviation in ft with the whole procedure flown, from the terminal area to the runway.

    1 NM until 2 NM before the PFAF; from there a straight line to the value of
    `final_full_scale_ft` at the PFAF; then that function.  The straight line is
    this handbook's choice: the AIM publishes where the tightening begins, not
    its shape (fact `tightening_shape`, from memory).

    pfaf_distance_nm: from the threshold to the PFAF, NM, 0.1 to 50
    Other arguments and errors as `angular_full_scale_ft`.  Source: FAA AIM 1-1-18.d.4.
    """
    in_range("distance of the FAF", pfaf_distance_nm, 0.1, 50.0, "NM")
    in_range("distance before the threshold", distance_nm, -garp_distance_ft / FT_PER_NM, FARTHEST_NM, "NM")
    at_ft = final_full_scale_ft(min(distance_nm, pfaf_distance_nm), half_width_ft, garp_distance_ft)
    share = (distance_nm - pfaf_distance_nm) / value("angular_begins_before_pfaf_nm")
    share = min(1.0, max(0.0, share))
    return at_ft + share * (value("terminal_full_scale_nm") * FT_PER_NM - at_ft)


def vectors_full_scale_ft(distance_nm: float, half_width_ft: float, garp_distance_ft: float) -> float:
    """Full-scale course deviation in ft on vectors to final: 1 NM until the splay is as narrow as that.

    Wherever the PFAF is, and without the 0.3 NM cap.  Arguments and errors as
    `angular_full_scale_ft`.  Source: FAA AIM 1-1-18.d.4 (published).
    """
    cap_ft = value("vectors_full_scale_nm") * FT_PER_NM
    return _capped(distance_nm, half_width_ft, garp_distance_ft, cap_ft)


def missed_first_leg_full_scale_ft(turn_deg: float) -> float:
    """Full-scale course deviation in ft on the first missed approach leg, before its first turn begins.

    0.3 NM if the leg is within 3 degrees of the final course (published); 1 NM
    otherwise (implied by the same paragraph, from memory).  The change is abrupt.

    turn_deg: first leg's course minus final course, -180 to 180; DomainError outside
    Source: FAA AIM 1-1-18.d.5.
    """
    in_range("turn to the first missed approach leg", turn_deg, -180.0, 180.0, "deg")
    if abs(turn_deg) <= value("missed_aligned_within_deg"):
        return value("missed_aligned_full_scale_nm") * FT_PER_NM
    return value("missed_not_aligned_full_scale_nm") * FT_PER_NM


def missed_after_turn_full_scale_ft() -> float:
    """Full-scale course deviation in ft once the first turn of the missed approach begins: 1 NM.

    Source: FAA AIM 1-1-18.d.5 (published).
    """
    return value("missed_full_scale_nm") * FT_PER_NM


def final_cap_distance_nm(half_width_ft: float, garp_distance_ft: float) -> float:
    """Distance before the threshold in NM outside of which the 0.3 NM cap holds on a long final.

    Closed form of `angular_full_scale_ft` = 0.3 NM.  Arguments and errors as there.
    """
    cap_ft = value("angular_start_full_scale_nm") * FT_PER_NM
    return _splay_distance_nm(cap_ft, half_width_ft, garp_distance_ft)


def vectors_cap_distance_nm(half_width_ft: float, garp_distance_ft: float) -> float:
    """Distance before the threshold in NM outside of which 1 NM holds on vectors to final.

    Closed form of `angular_full_scale_ft` = 1 NM.  Arguments and errors as there.
    """
    cap_ft = value("vectors_full_scale_nm") * FT_PER_NM
    return _splay_distance_nm(cap_ft, half_width_ft, garp_distance_ft)


def two_dots(displacement_ft: float, full_scale_ft: float) -> float:
    """A displacement as dots on a scale of two dots each side (2 is full scale, more is off the scale).

    displacement_ft: ft right of course or above path positive, within 10 million
    full_scale_ft: 0.001 ft to 10 million; DomainError outside
    """
    return _share(displacement_ft, full_scale_ft) * value("two_dot_scale_dots") + 0.0


def five_dots(displacement_ft: float, full_scale_ft: float) -> float:
    """A displacement as dots on a scale of five dots each side; arguments and errors as `two_dots`."""
    return _share(displacement_ft, full_scale_ft) * value("five_dot_scale_dots") + 0.0


def from_two_dots_ft(dots: float, full_scale_ft: float) -> float:
    """The displacement in ft at so many dots of a scale of two dots each side.

    dots: right or above positive, -2 to 2 (beyond, the scale tells nothing)
    full_scale_ft: 0.001 ft to 10 million; DomainError outside
    """
    return _from_dots_ft(dots, full_scale_ft, value("two_dot_scale_dots"))


def from_five_dots_ft(dots: float, full_scale_ft: float) -> float:
    """The displacement in ft at so many dots (-5 to 5) of a five-dot scale; else as `from_two_dots_ft`."""
    return _from_dots_ft(dots, full_scale_ft, value("five_dot_scale_dots"))


def _segment(half_width_ft: float, garp_distance_ft: float) -> None:
    in_range("course half-width", half_width_ft, 100.0, 1000.0, "ft")
    in_range("distance to the GARP", garp_distance_ft, 1000.0, 50_000.0, "ft")


def _capped(distance_nm: float, half_width_ft: float, garp_distance_ft: float, cap_ft: float) -> float:
    splay_ft = angular_full_scale_ft(distance_nm, half_width_ft, garp_distance_ft)
    return max(half_width_ft, min(cap_ft, splay_ft))


def _splay_distance_nm(full_scale_ft: float, half_width_ft: float, garp_distance_ft: float) -> float:
    _segment(half_width_ft, garp_distance_ft)
    return garp_distance_ft * (full_scale_ft / half_width_ft - 1.0) / FT_PER_NM


def _share(displacement_ft: float, full_scale_ft: float) -> float:
    """displacement_ft: -1e7 to 1e7; full_scale_ft: 0.001 to 1e7"""
    in_range("displacement", displacement_ft, -1e7, 1e7, "ft")
    return displacement_ft / in_range("full scale", full_scale_ft, 1e-3, 1e7, "ft")


def _from_dots_ft(dots: float, full_scale_ft: float, scale_dots: float) -> float:
    in_range("dots", dots, -scale_dots, scale_dots, "dots")
    return dots / scale_dots * in_range("full scale", full_scale_ft, 1e-3, 1e7, "ft") + 0.0

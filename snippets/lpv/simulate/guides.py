"""What a simulated flight can be guided by: a course, a path and their scales, for each guidance source.

Positions are ground distance along the final course before the threshold and distance to the right of it,
both in ft; heights are above mean sea level.  Curves of height are cubics through four points of the exact
path, right to a hundredth of a foot within 40 NM.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar

from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.facts import value
from lpv.fas import segment
from lpv.path import deviation
from lpv.path.ils_scale import glide_slope_full_scale_ft, localizer_full_scale_deg
from lpv.path.profile import EARTH_RADIUS_FT, barometric_path_height_ft, straight_path_height_ft
from lpv.path.sbas_scale import course_full_scale_ft, cut_dots, path_full_scale_ft
from lpv.path.scale import lnav_vnav_full_scale_ft, origin_distance_nm
from lpv.simulate.air import Air

KNOTS_NM = (-2.0, 5.0, 20.0, 40.0)
BARO_KNOTS_NM = (0.0, 3.0, 8.0, 15.0)


@dataclass(frozen=True)
class Path:
    """Height (ft) of a path over the final course as a polynomial of the distance before the threshold (NM)."""

    coefficients: tuple[float, float, float, float]

    def height_ft(self, along_ft: float, across_ft: float = 0.0) -> float:
        """Height of the path; beside the course it is that much higher that the earth curves away."""
        c0, c1, c2, c3 = self.coefficients
        x = along_ft / FT_PER_NM
        return c0 + x * (c1 + x * (c2 + x * c3)) + across_ft * across_ft / (2.0 * EARTH_RADIUS_FT)

    def slope(self, along_ft: float) -> float:
        """Rise of the path (ft/ft) with the distance before the threshold."""
        _, c1, c2, c3 = self.coefficients
        x = along_ft / FT_PER_NM
        return (c1 + x * (2.0 * c2 + x * 3.0 * c3)) / FT_PER_NM


def path_through(height_ft: Callable[[float], float], knots_nm: tuple[float, ...] = KNOTS_NM) -> Path:
    """The cubic through four points of an exact path, given as height (ft) by distance (NM)."""
    heights = [height_ft(x) for x in knots_nm]
    total = [0.0, 0.0, 0.0, 0.0]
    for i, x in enumerate(knots_nm):
        basis, scale = [1.0], heights[i]
        for other in (k for k in knots_nm if k != x):
            basis = [(basis[n - 1] if n else 0.0) - other * (basis[n] if n < len(basis) else 0.0)
                     for n in range(len(basis) + 1)]
            scale /= x - other
        total = [so_far + scale * b for so_far, b in zip(total, basis, strict=True)]
    return Path((total[0], total[1], total[2], total[3]))


@dataclass(frozen=True)
class Guide:
    """One source of guidance.

    turn_rad:  its course, to the right of the final course
    through_ft: a point on its course, (along, across)
    path:      its path, None if it has none
    course_scale_ft, path_scale_ft: full scale by distance before the threshold in NM

    straight:   whether its course is the same everywhere; those of `lpv.simulate.legs` that are not say `at` each place
    holds_line: whether a line over the ground is held, and not a direction alone
    """

    straight: ClassVar[bool] = True
    holds_line: ClassVar[bool] = True

    source: str
    turn_rad: float
    through_ft: tuple[float, float]
    path: Path | None
    course_scale_ft: Callable[[float], float]
    path_scale_ft: Callable[[float], float] | None

    def at(self, along_ft: float, across_ft: float) -> "Guide":
        """The straight course that it is at a place."""
        return self

    @property
    def bend_per_ft(self) -> float:
        """Turn (rad) per distance flown along it, to the right positive."""
        return 0.0

    def beside_ft(self, along_ft: float, across_ft: float) -> float:
        """Distance to the right of its course."""
        inbound_ft, right_ft = self.through_ft[0] - along_ft, across_ft - self.through_ft[1]
        return right_ft * math.cos(self.turn_rad) - inbound_ft * math.sin(self.turn_rad)

    def above_ft(self, along_ft: float, across_ft: float, altitude_ft: float) -> float:
        """Height above its path; DomainError if it has none."""
        if self.path is None:
            raise DomainError(f"path: found none with {self.source}; allowed: a source with a path.")
        return altitude_ft - self.path.height_ft(along_ft, across_ft)

    def course_dots(self, along_ft: float, across_ft: float) -> float:
        """Course deviation in dots of a two-dot scale, right positive, at most `lpv.path.sbas_scale.MAX_DOTS`."""
        return cut_dots(self.beside_ft(along_ft, across_ft), self.course_scale_ft(along_ft / FT_PER_NM))

    def path_dots(self, along_ft: float, across_ft: float, altitude_ft: float) -> float | None:
        """Path deviation in dots of a two-dot scale, above positive, cut like the course; None without a path."""
        if self.path_scale_ft is None:
            return None
        above_ft = self.above_ft(along_ft, across_ft, altitude_ft)
        return cut_dots(above_ft, self.path_scale_ft(along_ft / FT_PER_NM))


def sbas_guide(approach: Approach, pfaf_nm: float, on_vectors: bool) -> Guide:
    """SBAS on this approach; on vectors its course scale is the wider one.  DomainError for an LP approach."""
    coded = approach.segment
    if approach.identity.level_of_service != "LPV":
        raise DomainError(f"{approach.slug}: found an LP approach; allowed: one with a glidepath (LPV).")
    width_ft, garp_ft = coded.course_width_m / M_PER_FT, segment.garp_distance_ft(coded)

    def course_scale_ft(distance_nm: float) -> float:
        return course_full_scale_ft(distance_nm, pfaf_nm, width_ft, garp_ft, on_vectors)

    def path_scale_ft(distance_nm: float) -> float:
        return path_full_scale_ft(distance_nm, coded.tch_ft, coded.gpa_deg)

    def height_ft(distance_nm: float) -> float:
        above_ltp_m = segment.point_on_path(coded, distance_nm).ellipsoid_height_m - coded.ltp_height_m
        return approach.chart.threshold_elevation_ft + above_ltp_m / M_PER_FT

    return Guide("SBAS", 0.0, (0.0, 0.0), path_through(height_ft), course_scale_ft, path_scale_ft)


def altimeter_guide(approach: Approach, sbas: Guide, air: Air) -> Guide:
    """LNAV/VNAV with baro-VNAV on this approach: the course of SBAS, the path where the altimeter shows it.

    The path is coded from the threshold crossing height at the glidepath angle along the curved earth; in cold air
    it lies lower.  Vertical full scale: that of LNAV/VNAV.
    """
    chart, coded = approach.chart, approach.segment

    def height_ft(distance_nm: float) -> float:
        coded_ft = barometric_path_height_ft(distance_nm, chart.threshold_elevation_ft, coded.tch_ft, coded.gpa_deg)
        return air.true_ft(coded_ft)

    def path_scale_ft(distance_nm: float) -> float:
        return lnav_vnav_full_scale_ft(
            origin_distance_nm(max(0.0, distance_nm), coded.tch_ft, coded.gpa_deg), coded.gpa_deg)

    path = path_through(height_ft, BARO_KNOTS_NM)
    return Guide("altimeter", 0.0, (0.0, 0.0), path, sbas.course_scale_ft, path_scale_ft)


def ils_guide(
    threshold_ft: float, offset_deg: float, antenna_beyond_ft: float, antenna_right_ft: float,
    glide_slope_deg: float, tch_ft: float,
) -> Guide:
    """An ILS, given against the final course.

    offset_deg: its course, right of the final course positive; antenna_beyond_ft, antenna_right_ft: where the
    localizer antenna stands, behind the threshold and right of the course; threshold_ft: elevation
    Domain as `lpv.path.ils_scale` and `lpv.path.profile`; DomainError outside.
    """
    spread = math.tan(math.radians(localizer_full_scale_deg(antenna_beyond_ft)))

    def course_scale_ft(distance_nm: float) -> float:
        return max(1.0, (distance_nm * FT_PER_NM + antenna_beyond_ft) * spread)

    def path_scale_ft(distance_nm: float) -> float:
        return glide_slope_full_scale_ft(origin_distance_nm(max(0.0, distance_nm), tch_ft, glide_slope_deg))

    path = path_through(lambda nm: straight_path_height_ft(nm, threshold_ft, tch_ft, glide_slope_deg))
    through_ft = (-antenna_beyond_ft, antenna_right_ft)
    return Guide("ILS", math.radians(offset_deg), through_ft, path, course_scale_ft, path_scale_ft)


def fms_guide(pfaf_nm: float) -> Guide:
    """FMS lateral navigation along the final course: 1 NM, from 2 NM before the PFAF down to 0.3 NM; no path.

    The shape between is a straight line, this handbook's choice; source: FAA AIM 1-1-17, as quoted.
    """
    wide_nm, narrow_nm = value("terminal_full_scale_nm"), value("angular_start_full_scale_nm")

    def course_scale_ft(distance_nm: float) -> float:
        share = min(1.0, max(0.0, (distance_nm - pfaf_nm) / value("angular_begins_before_pfaf_nm")))
        return (narrow_nm + share * (wide_nm - narrow_nm)) * FT_PER_NM

    return Guide("FMS lateral navigation", 0.0, (0.0, 0.0), None, course_scale_ft, None)


def missed_guide(first_leg_turn_deg: float) -> Guide:
    """FMS lateral navigation straight ahead after a go-around, with the scale of the first missed approach leg.

    first_leg_turn_deg: that leg's course minus the final course, -180 to 180; DomainError outside.
    """
    scale_ft = deviation.missed_first_leg_full_scale_ft(first_leg_turn_deg)
    return Guide("FMS lateral navigation", 0.0, (0.0, 0.0), None, lambda _: scale_ft, None)

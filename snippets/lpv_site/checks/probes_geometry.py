"""Longer calculations of the geometry turned into one number each, for the check values.

Positions are texts, latitude and longitude with a comma between ("N37 05 00.5, W002 05 35.6").
"""

import math
from typing import NamedTuple

from lpv.core import airac
from lpv.core.course import magnetic_deg
from lpv.core.units import ARCSEC_PER_DEG, FT_PER_NM, M_PER_NM
from lpv.fas import segment
from lpv.fas.block import FinalApproachSegment
from lpv.geodesy import earth
from lpv.path import profile as path
from lpv.setup import radio


def position(text: str) -> earth.Position:
    """Latitude and longitude of a text with a comma between the two."""
    latitude, longitude = text.split(",")
    return earth.Position(earth.parse_latitude(latitude.strip()), earth.parse_longitude(longitude.strip()))


def leg(start: str, end: str) -> earth.Leg:
    """The geodesic between two positions."""
    return earth.inverse(*position(start), *position(end))


def leg_magnetic_course_deg(start: str, end: str, variation_east_deg: float) -> float:
    """Magnetic course of a leg with a variation of record."""
    return magnetic_deg(leg(start, end).course_deg, variation_east_deg)


def _seconds_beyond(place: earth.Position, corner: str) -> tuple[float, float]:
    """How many seconds of latitude and of longitude a position lies farther from zero than a corner."""
    latitude, longitude = (
        math.copysign(1.0, edge) * (value - edge) * ARCSEC_PER_DEG
        for value, edge in zip(place, position(corner), strict=True)
    )
    return latitude, longitude


def leg_course_seconds(start: str, end: str, beyond_deg: float, beyond_min: float) -> tuple[float, float]:
    """The seconds of the course there and of the course back, beyond whole degrees and minutes."""
    geodesic, corner = leg(start, end), beyond_deg + beyond_min / 60.0
    forward, back = geodesic.course_deg - corner, geodesic.reverse_course_deg - corner
    return forward * ARCSEC_PER_DEG, back * ARCSEC_PER_DEG


def destination_seconds(
    start: str, course_deg: float, distance_nm: float, beyond: str,
) -> tuple[float, float]:
    """The seconds of latitude and longitude of a destination, beyond its whole degrees and minutes."""
    return _seconds_beyond(earth.destination(*position(start), course_deg, distance_nm), beyond)


def foot(start: str, course_deg: float, point: str) -> earth.Foot:
    """Foot of the perpendicular from a point onto a course."""
    return earth.perpendicular(*position(start), course_deg, *position(point))


def foot_seconds(start: str, course_deg: float, point: str, beyond: str) -> tuple[float, float]:
    """The seconds of latitude and longitude of a foot, beyond its whole degrees and minutes."""
    nearest = foot(start, course_deg, point)
    return _seconds_beyond(earth.Position(nearest.latitude_deg, nearest.longitude_deg), beyond)


def course_to_foot_deg(start: str, course_deg: float, point: str) -> float:
    """Course from a point to the foot of its perpendicular onto a course."""
    nearest = foot(start, course_deg, point)
    return earth.inverse(*position(point), nearest.latitude_deg, nearest.longitude_deg).course_deg


def crossing(first: str, first_course_deg: float, second: str, second_course_deg: float) -> earth.Crossing:
    """Crossing of two courses."""
    return earth.intersection(*position(first), first_course_deg, *position(second), second_course_deg)


def crossing_seconds(
    first: str, first_course_deg: float, second: str, second_course_deg: float, beyond: str,
) -> tuple[float, float]:
    """The seconds of latitude and longitude of a crossing, beyond its whole degrees and minutes."""
    meeting = crossing(first, first_course_deg, second, second_course_deg)
    return _seconds_beyond(earth.Position(meeting.latitude_deg, meeting.longitude_deg), beyond)


def distance_m(start: str, end: str) -> float:
    """Length of a leg in metres."""
    return leg(start, end).distance_nm * M_PER_NM


def straight_path_at_fix_ft(
    fix: str, threshold: str, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Height of the straight path over a fix, from the two positions."""
    return path.straight_path_height_ft(leg(fix, threshold).distance_nm, threshold_elevation_ft, tch_ft, gpa_deg)


def barometric_path_at_fix_ft(
    fix: str, threshold: str, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Height of the barometric path over a fix, from the two positions."""
    return path.barometric_path_height_ft(
        leg(fix, threshold).distance_nm, threshold_elevation_ft, tch_ft, gpa_deg,
    )


class SegmentNumbers(NamedTuple):
    """What a segment's geometry gives: LTP to FPAP, final course, splay."""

    ltp_to_fpap_ft: float
    true_course_deg: float
    splay_deg: float


def path_point_segment(
    ltp: str, ltp_height_m: float, fpap: str, gpa_deg: float, tch_ft: float, course_width_m: float,
) -> FinalApproachSegment:
    """A segment from the geometry in a published path point; its other fields are placeholders."""
    start, end = position(ltp), position(fpap)
    return FinalApproachSegment(
        operation_type=0, sbas_provider=0, airport="ZZZZ", runway_number=1, runway_letter="",
        performance_designator=0, route_indicator="", reference_path_data_selector=0, reference_path_id="W01A",
        ltp_latitude_deg=start.latitude_deg, ltp_longitude_deg=start.longitude_deg, ltp_height_m=ltp_height_m,
        delta_fpap_latitude_deg=end.latitude_deg - start.latitude_deg,
        delta_fpap_longitude_deg=end.longitude_deg - start.longitude_deg,
        tch=tch_ft, tch_unit="ft", gpa_deg=gpa_deg, course_width_m=course_width_m, length_offset_m=0.0,
        hal_m=40.0, val_m=50.0,
    )


def segment_numbers(
    ltp: str, ltp_height_m: float, fpap: str, gpa_deg: float, tch_ft: float, course_width_m: float,
) -> SegmentNumbers:
    """The geometry of a published path point in three numbers."""
    record = path_point_segment(ltp, ltp_height_m, fpap, gpa_deg, tch_ft, course_width_m)
    return SegmentNumbers(
        segment.ltp_to_fpap_ft(record), segment.true_course_deg(record), segment.splay_deg(record),
    )


def straight_path_distance_ft(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Distance in ft at which the straight path has a height."""
    return path.straight_path_distance_nm(height_ft, threshold_elevation_ft, tch_ft, gpa_deg) * FT_PER_NM


def straight_path_distance_on_sphere_ft(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float, earth_radius_ft: float,
) -> float:
    """Distance in ft at which the straight path has a height, on a sphere of any radius."""
    return FT_PER_NM * path.straight_path_distance_on_sphere_nm(
        height_ft, threshold_elevation_ft, tch_ft, gpa_deg, earth_radius_ft,
    )


def barometric_path_distance_ft(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Distance in ft at which the barometric path has a height."""
    return path.barometric_path_distance_nm(height_ft, threshold_elevation_ft, tch_ft, gpa_deg) * FT_PER_NM


def flat_path_distance_ft(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Distance in ft at which the path over a flat earth has a height."""
    return path.flat_path_distance_nm(height_ft, threshold_elevation_ft, tch_ft, gpa_deg) * FT_PER_NM


def straight_path_height_at_ft(
    distance_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Height of the straight path at a distance in ft."""
    return path.straight_path_height_ft(distance_ft / FT_PER_NM, threshold_elevation_ft, tch_ft, gpa_deg)


def barometric_path_height_at_ft(
    distance_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Height of the barometric path at a distance in ft."""
    return path.barometric_path_height_ft(distance_ft / FT_PER_NM, threshold_elevation_ft, tch_ft, gpa_deg)


def cycle_effective(ident: str) -> str:
    """First day of a data cycle."""
    return airac.iso(airac.effective_ordinal(ident))


def cycle_on(date: str) -> str:
    """Number of the data cycle in force on a day."""
    return airac.cycle_ident(airac.from_iso(date))


def starts_a_cycle(date: str) -> bool:
    """Whether a data cycle takes effect on a day."""
    return airac.is_effective_date(airac.from_iso(date))


def localizer_channel_count() -> int:
    """How many localizer channels there are."""
    return len(radio.localizer_channels())

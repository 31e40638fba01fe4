"""The segment as geometry: round trips, PROJ's level frame, the sphere's formula, degenerate segments."""

import dataclasses
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyproj import Geod, Transformer

from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.fas import segment
from lpv.fas.block import FinalApproachSegment
from lpv.geodesy import earth
from lpv.path import profile as path

STEPS_PER_DEG = 7200000  # the block counts positions in 0.0005 arcsec


def stepped(degrees: float) -> float:
    return round(degrees * STEPS_PER_DEG) / STEPS_PER_DEG


def make(latitude=30.0, longitude=-150.0, height=10.0, course=75.0, gpa=3.0, tch=50.0, length=2750.0):
    """An invented segment in open water with its FPAP at a length (m) on a course."""
    latitude, longitude = stepped(latitude), stepped(longitude)
    fpap = earth.destination(latitude, longitude, course, length / 1852.0)
    return FinalApproachSegment(
        operation_type=0, sbas_provider=0, airport="ZZZZ", runway_number=8, runway_letter="",
        performance_designator=0, route_indicator="", reference_path_data_selector=0, reference_path_id="W08A",
        ltp_latitude_deg=latitude, ltp_longitude_deg=longitude, ltp_height_m=height,
        delta_fpap_latitude_deg=stepped(fpap.latitude_deg - latitude),
        delta_fpap_longitude_deg=stepped(math.remainder(fpap.longitude_deg - longitude, 360.0)),
        tch=tch, tch_unit="ft", gpa_deg=gpa, course_width_m=106.75, length_offset_m=0.0, hal_m=40.0, val_m=50.0,
    )


PLAIN = make()
SEGMENTS = st.builds(
    make, latitude=st.floats(-80.0, 80.0), longitude=st.floats(-180.0, 180.0), course=st.floats(0.0, 360.0),
    height=st.integers(-40, 3000).map(float), gpa=st.integers(250, 640).map(lambda hundredths: hundredths / 100.0),
)


@settings(max_examples=40)
@given(SEGMENTS, st.floats(-0.2, 20.0))
def test_path_point_lies_on_path(fas, distance):
    point = segment.point_on_path(fas, distance)
    where = segment.relative_position(
        fas, point.latitude_deg, point.longitude_deg, point.ellipsoid_height_m,
    )
    assert where.along_nm == pytest.approx(distance, abs=1e-7)
    assert where.above_path_ft == pytest.approx(0.0, abs=1e-6)
    # The course is a geodesic, the plane is flat: within 20 NM the two part by less than half a foot.
    assert where.across_ft == pytest.approx(0.0, abs=0.5)


@settings(max_examples=40)
@given(SEGMENTS, st.floats(0.1, 20.0), st.floats(-6000.0, 6000.0), st.floats(-1000.0, 1000.0))
def test_offset_recovered(fas, distance, across_ft, above_ft):
    point = segment.point_on_path(fas, distance)
    onward = earth.inverse(
        point.latitude_deg, point.longitude_deg, fas.ltp_latitude_deg, fas.ltp_longitude_deg,
    ).course_deg
    beside = earth.destination(
        point.latitude_deg, point.longitude_deg, (onward + 90.0) % 360.0, across_ft / FT_PER_NM,
    )
    height_m = point.ellipsoid_height_m + above_ft * M_PER_FT
    where = segment.relative_position(fas, *beside, height_m)
    assert where.along_nm == pytest.approx(distance, abs=1e-6)
    # Verticals spread with height, and the course's geodesic leaves its plane by half a foot in 20 NM.
    in_space_ft = across_ft * (1.0 + height_m / 6371000.0)
    assert where.across_ft == pytest.approx(in_space_ft, abs=0.5 + 1e-5 * abs(across_ft))
    # The ground falls away to the side by the square of the offset, and the verticals lean.
    drop_ft = across_ft**2 / 2.0 / path.EARTH_RADIUS_FT
    assert where.above_path_ft == pytest.approx(above_ft - drop_ft, abs=0.05 + 0.001 * abs(above_ft))


@settings(max_examples=25)
@given(SEGMENTS, st.floats(0.0, 20.0))
def test_path_straight_in_proj_level_frame(fas, distance):
    point = segment.point_on_path(fas, distance)
    level = Transformer.from_pipeline(
        f"+proj=pipeline +step +proj=cart +ellps=WGS84 +step +proj=topocentric +ellps=WGS84 "
        f"+lon_0={fas.ltp_longitude_deg} +lat_0={fas.ltp_latitude_deg} +h_0={fas.ltp_height_m}"
    )
    east, north, up = level.transform(point.longitude_deg, point.latitude_deg, point.ellipsoid_height_m)
    course = math.radians(segment.true_course_deg(fas))
    before_m = -(east * math.sin(course) + north * math.cos(course))
    expected_m = fas.tch_ft * M_PER_FT + before_m * math.tan(math.radians(fas.gpa_deg))
    assert up == pytest.approx(expected_m, abs=1e-4)


@settings(max_examples=40)
@given(SEGMENTS, st.floats(0.0, 10.0))
def test_design_order_sphere_is_close(fas, distance):
    """Within 10 NM the ellipsoid and the sphere differ by less than half a foot at any place and course."""
    height_ft = segment.point_on_path(fas, distance).ellipsoid_height_m / M_PER_FT
    on_sphere_ft = path.straight_path_height_ft(
        distance, fas.ltp_height_m / M_PER_FT, fas.tch_ft, fas.gpa_deg,
    )
    assert height_ft == pytest.approx(on_sphere_ft, abs=0.5)


@settings(max_examples=40)
@given(SEGMENTS, st.floats(0.0, 3000.0))
def test_decision_point_has_requested_height(fas, height_ft):
    point = segment.decision_point(fas, height_ft)
    assert (point.ellipsoid_height_m - fas.ltp_height_m) / M_PER_FT == pytest.approx(height_ft, abs=1e-5)
    assert segment.point_on_path(fas, point.distance_nm) == point
    on_sphere_nm = path.straight_path_distance_nm(height_ft, 0.0, fas.tch_ft, fas.gpa_deg)
    assert point.distance_nm == pytest.approx(on_sphere_nm, abs=0.01)


@settings(max_examples=30)
@given(SEGMENTS)
def test_length_and_course_match_proj(fas):
    start = fas.ltp_longitude_deg, fas.ltp_latitude_deg
    course, _, metres = Geod(ellps="WGS84").inv(*start, fas.fpap_longitude_deg, fas.fpap_latitude_deg)
    assert segment.ltp_to_fpap_ft(fas) == pytest.approx(metres / M_PER_FT, abs=1e-4)
    assert math.remainder(segment.true_course_deg(fas) - course, 360.0) == pytest.approx(0.0, abs=1e-8)


def test_full_scale_width_at_threshold_zero_at_garp():
    to_garp_nm = segment.garp_distance_ft(PLAIN) / FT_PER_NM
    assert segment.half_width_ft(PLAIN, 0.0) == pytest.approx(PLAIN.course_width_m / M_PER_FT)
    assert segment.half_width_ft(PLAIN, -to_garp_nm) == pytest.approx(0.0, abs=1e-9)
    assert segment.half_width_ft(PLAIN, to_garp_nm) == pytest.approx(2.0 * segment.half_width_ft(PLAIN, 0.0))
    tangent = math.tan(math.radians(segment.splay_deg(PLAIN)))
    assert segment.half_width_ft(PLAIN, 5.0) == pytest.approx(tangent * (5.0 + to_garp_nm) * FT_PER_NM)
    for distance in (-to_garp_nm - 0.001, 200.1, math.nan):
        with pytest.raises(DomainError, match="distance to the threshold"):
            segment.half_width_ft(PLAIN, distance)


def test_threshold_below_path_by_crossing_height():
    at_ltp = segment.relative_position(
        PLAIN, PLAIN.ltp_latitude_deg, PLAIN.ltp_longitude_deg, PLAIN.ltp_height_m,
    )
    assert dataclasses.astuple(at_ltp) == pytest.approx((0.0, 0.0, -PLAIN.tch_ft), abs=1e-7)


def test_right_is_right_as_flown():
    eastbound = make(latitude=0.0, longitude=0.0, course=90.0)
    south, north = (segment.relative_position(eastbound, side, -0.1, 500.0) for side in (-0.01, 0.01))
    assert south.across_ft > 3000.0
    assert north.across_ft < -3000.0
    assert south.along_nm == pytest.approx(earth.distance_nm(0.0, -0.1, 0.0, 0.0), abs=0.01)


@pytest.mark.parametrize("longitude", [180.0, -180.0, 179.999, -179.999])
def test_date_line_is_no_border(longitude):
    for course in (90.0, 270.0):
        near, far = make(longitude=longitude, course=course), make(longitude=10.0, course=course)
        assert segment.ltp_to_fpap_ft(near) == pytest.approx(segment.ltp_to_fpap_ft(far), abs=0.1)
        assert segment.true_course_deg(near) == pytest.approx(segment.true_course_deg(far), abs=0.001)
        point = segment.point_on_path(near, 5.0)
        assert -180.0 <= point.longitude_deg <= 180.0
        where = segment.relative_position(near, point.latitude_deg, point.longitude_deg, 1000.0)
        assert where.along_nm == pytest.approx(5.0, abs=1e-6)


def test_zero_length_segment_has_no_course():
    shortened = dataclasses.replace(PLAIN, delta_fpap_latitude_deg=0.0, delta_fpap_longitude_deg=0.0)
    for function in (segment.ltp_to_fpap_ft, segment.true_course_deg, segment.splay_deg):
        with pytest.raises(DomainError, match="same point"):
            function(shortened)


def test_segment_without_angle_has_no_path():
    flat = dataclasses.replace(PLAIN, gpa_deg=0.0)
    assert segment.true_course_deg(flat) == segment.true_course_deg(PLAIN)
    for call in (
        lambda: segment.point_on_path(flat, 1.0),
        lambda: segment.decision_point(flat, 200.0), lambda: segment.relative_position(flat, 30.0, -150.0, 0.0),
    ):
        with pytest.raises(DomainError, match="glidepath angle"):
            call()


def test_out_of_domain_rejected():
    for distance in (-20.1, 200.1, math.nan):
        with pytest.raises(DomainError, match="distance"):
            segment.point_on_path(PLAIN, distance)
    for height in (-0.1, 60000.1, math.nan):
        with pytest.raises(DomainError, match="height"):
            segment.decision_point(PLAIN, height)
    for position in ((30.0, -140.0, 0.0), (91.0, -150.0, 0.0), (30.0, -150.0, 1e6), (30.0, math.nan, 0.0)):
        with pytest.raises(DomainError):
            segment.relative_position(PLAIN, *position)

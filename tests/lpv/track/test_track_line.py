"""Positions against a segment in closed form: the same as the exact answer, within a tenth of a foot."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo.approaches import FOLDER
from lpv.approach.record import read
from lpv.core.units import FT_PER_NM
from lpv.fas import segment
from lpv.geodesy import earth
from lpv.track.points import line_of, radius_along_m, relative
from lpv.track.target import Target

APPROACHES = [read(FOLDER / f"{name}.toml") for name in ("zzak-rnav-09", "zzeg-rnp-24", "zzhc-rnav-33")]


@given(st.sampled_from(APPROACHES), st.floats(-3, 25), st.floats(-5, 5), st.floats(-100, 4500))
@settings(max_examples=60)
def test_line_is_exact(approach, along_nm, across_nm, height_m):
    held = approach.segment
    course_deg = segment.true_course_deg(held)
    foot = earth.destination(held.ltp_latitude_deg, held.ltp_longitude_deg, course_deg, -along_nm)
    place = earth.destination(*foot, (course_deg + 90.0) % 360.0, across_nm)
    exact = segment.relative_position(held, *place, height_m)
    deviation = relative(line_of(Target(approach)), *place, height_m)
    assert deviation.along_nm * FT_PER_NM == pytest.approx(exact.along_nm * FT_PER_NM, abs=0.1)
    assert deviation.across_ft == pytest.approx(exact.across_ft, abs=1e-3)
    assert deviation.above_path_ft == pytest.approx(exact.above_path_ft, abs=1e-3)


def test_no_deviation_at_threshold_crossing_point():
    for approach in APPROACHES:
        held = approach.segment
        at = segment.point_on_path(held, 0.0)
        deviation = relative(line_of(Target(approach)), at.latitude_deg, at.longitude_deg, at.ellipsoid_height_m)
        assert (abs(deviation.along_nm), abs(deviation.across_ft), abs(deviation.above_path_ft)) < (1e-6, 1e-4, 1e-4)
        assert math.copysign(1.0, deviation.along_nm) == 1.0 or deviation.along_nm < 0.0


def test_radius_along_course():
    """WGS-84 by definition: a (1 - e2) along the meridian at the equator, a along the equator, a^2 / b at a pole."""
    a, b = 6378137.0, 6356752.314245
    assert radius_along_m(0.0, 90.0) == pytest.approx(a, abs=0.01)
    assert radius_along_m(0.0, 0.0) == pytest.approx(b * b / a, abs=0.01)
    for course_deg in (0.0, 37.0, 90.0):
        assert radius_along_m(90.0, course_deg) == pytest.approx(a * a / b, abs=0.01)

"""The final approach as flown: PFAF, altimeter, dots; against plane geometry and against the record itself."""

import math
from dataclasses import replace

import pytest

from approach_variants import demo
from lpv.core.errors import DomainError
from lpv.core.record import record
from lpv.decide import final_path, last_mile
from lpv.files.json_form import as_text, to_json

LPV, LP = demo(), demo("zzak-rnav-27")


def test_pfaf_distance_matches_haversine():
    pfaf, segment = LPV.pfaf, LPV.segment
    north, south = math.radians(pfaf.latitude_deg), math.radians(segment.ltp_latitude_deg)
    east = math.radians(pfaf.longitude_deg - segment.ltp_longitude_deg)
    a = math.sin((north - south) / 2) ** 2 + math.cos(north) * math.cos(south) * math.sin(east / 2) ** 2
    assert final_path.pfaf_distance_nm(LPV) == pytest.approx(2 * 6371008.8 * math.asin(math.sqrt(a)) / 1852, rel=5e-3)


def test_altitude_and_distance_are_inverse():
    for distance_nm in (0.5, 3.0, 6.0):
        altitude_ft = final_path.descent_altitude_ft(LPV, distance_nm)
        assert final_path.distance_at_altitude_nm(LPV, altitude_ft) == pytest.approx(distance_nm, abs=1e-6)


def test_glidepath_near_threshold_is_plane_angle():
    elevation_ft, tch_ft, gpa_deg = final_path.glidepath(LPV)
    plane_ft = elevation_ft + tch_ft + 6076.115 * math.tan(math.radians(gpa_deg))
    assert final_path.descent_altitude_ft(LPV, 1.0) == pytest.approx(plane_ft, abs=1.0)  # 0.9 ft of curvature


def test_altimeter_true_on_standard_day():
    standard_c = final_path.standard_temperature_c(LPV)
    altitude_ft = final_path.descent_altitude_ft(LPV, final_path.pfaf_distance_nm(LPV))
    assert final_path.altimeter_at_pfaf_ft(LPV, standard_c) == pytest.approx(altitude_ft, abs=0.01)
    assert final_path.altimeter_at_pfaf_ft(LPV, -20.0) > altitude_ft > final_path.altimeter_at_pfaf_ft(LPV, 35.0)


def test_level_flight_meets_glidepath_at_altimeter_reading():
    met_nm = final_path.glidepath_met_nm(LPV, 2000.0, -20.0)
    assert final_path.altimeter_ft(LPV, met_nm, -20.0) == pytest.approx(2000.0, abs=0.01)


def test_dots_are_half_full_scale():
    assert final_path.course_dot_ft(LPV, 3.0) == pytest.approx(final_path.course_full_scale_ft(LPV, 3.0) / 2)
    assert final_path.path_dot_ft(LPV, 3.0) == pytest.approx(final_path.path_full_scale_ft(LPV, 3.0) / 2)


def test_course_full_scale_at_threshold_equals_block_width():
    assert final_path.course_full_scale_ft(LPV, 0.0) == pytest.approx(LPV.segment.course_width_m / 0.3048)


def test_lp_approach_has_no_glidepath():
    assert not final_path.has_glidepath(LP)
    for ask in (final_path.glidepath, lambda approach: final_path.altimeter_ft(approach, 3.0, 15.0),
                lambda approach: final_path.path_dot_ft(approach, 3.0)):
        with pytest.raises(DomainError, match="glidepath: found none"):
            ask(LP)


def test_scale_places():
    names = [name for name, _ in final_path.scale_places(LPV, 224.0, "DA")]
    assert names == ["FAF", "5\u202fNM", "3\u202fNM", "1\u202fNM", "DA"]
    assert "DA" not in [name for name, _ in final_path.scale_places(LPV, None, "DA")]


def test_json_form_gives_same_answers():
    on_phone = record(as_text(to_json(LPV)))
    assert final_path.pfaf_distance_nm(on_phone) == final_path.pfaf_distance_nm(LPV)
    assert final_path.altimeter_at_pfaf_ft(on_phone, -20.0) == final_path.altimeter_at_pfaf_ft(LPV, -20.0)
    assert final_path.course_dot_ft(on_phone, 2.5) == final_path.course_dot_ft(LPV, 2.5)


def test_charted_altitude_at_pfaf():
    assert final_path.charted_pfaf_ft(LPV) == 2000.0
    bare = tuple(replace(fix, altitude_ft=None) if fix.role == "PFAF" else fix for fix in LPV.chart.fixes)
    with pytest.raises(DomainError, match="altitude at the FAF"):
        final_path.charted_pfaf_ft(replace(LPV, chart=replace(LPV.chart, fixes=bare)))


def test_seconds_before_and_after_decision():
    """A hundred feet of three degrees at 120 kt: 1908 ft over the ground, 202.5 of them a second."""
    seconds = 100.0 / math.tan(math.radians(3.0)) / (120.0 * 1852 / 0.3048 / 3600)
    assert last_mile.seconds_after(LPV, 224.0, 124.0, 120.0) == pytest.approx(seconds, rel=0.01)
    assert last_mile.seconds_after(LPV, 224.0, 324.0, 120.0) == pytest.approx(-seconds, rel=0.01)
    assert last_mile.seconds_after(LPV, 224.0, 224.0, 120.0) == 0.0


def test_path_limits_at_bends_of_full_scale():
    """150 m and 15 m at 0.75 degrees from the point where a straight glidepath would reach the ground."""
    origin_nm = LPV.chart.tch_ft / math.tan(math.radians(3.0)) / 6076.115
    cap_nm, floor_nm = (metres / 1852.0 / math.tan(math.radians(0.75)) - origin_nm for metres in (150.0, 15.0))
    assert final_path.path_limits_nm(LPV) == (pytest.approx(cap_nm, abs=1e-4), pytest.approx(floor_nm, abs=1e-4))
    with pytest.raises(DomainError, match="glidepath: found none"):
        final_path.path_limits_nm(LP)


def test_altimeter_over_charted_altitude():
    for temperature_c in (-20.0, 15.0, 40.0):
        over_ft = final_path.altimeter_at_pfaf_ft(LPV, temperature_c) - LPV.pfaf.altitude_ft
        assert final_path.altimeter_over_charted_ft(LPV, temperature_c) == over_ft

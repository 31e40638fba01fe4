import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.facts import value
from lpv.sbas import constellation
from lpv.sbas.constellation import Orbit, baseline, gps_seconds, position


def test_slot_table_gives_24_circular_orbits_in_six_planes():
    orbits = baseline()
    assert len({orbit.name for orbit in orbits}) == 24
    assert len({orbit.node_rad for orbit in orbits}) == 6
    assert {orbit.eccentricity for orbit in orbits} == {0.0}
    radius_m = value("slot_semi_major_axis_km") * 1000.0
    for orbit in orbits:
        where = position(orbit, orbit.reference_gps_s)
        assert math.sqrt(where.x_m**2 + where.y_m**2 + where.z_m**2) == pytest.approx(radius_m, rel=1e-12)


def test_slot_at_epoch_lies_where_table_says():
    """Independent of the user algorithm: rotate the inertial position by the Greenwich hour angle."""
    d3 = next(orbit for orbit in baseline() if orbit.name == "D3")
    node = math.radians(92.847 - (18 + 36 / 60 + 14.4 / 3600) * 15.0)
    argument, tilt = math.radians(35.156), math.radians(55.0)
    where = position(d3, gps_seconds(703, 345600.0))
    axis_m = 26559.7e3
    assert where.z_m == pytest.approx(axis_m * math.sin(argument) * math.sin(tilt), abs=1e-3)
    longitude = node + math.atan2(math.sin(argument) * math.cos(tilt), math.cos(argument))
    assert math.remainder(math.atan2(where.y_m, where.x_m) - longitude, 2 * math.pi) == pytest.approx(0, abs=1e-9)


def test_planes_60_degrees_apart_with_constant_slot_spacing():
    nodes = sorted(math.degrees(n) % 360 for n in {orbit.node_rad for orbit in baseline()})
    assert all(b - a == pytest.approx(60.0, abs=1e-6) for a, b in pairwise(nodes))
    for plane in "ABCDEF":
        arguments = sorted(
            math.degrees(orbit.mean_anomaly_rad) for orbit in baseline() if orbit.name.startswith(plane)
        )
        gaps = [b - a for a, b in zip(arguments, [*arguments[1:], arguments[0] + 360.0], strict=True)]
        assert min(gaps) > 25.0


def test_orbit_repeats_after_two_turns_per_sidereal_day():
    orbit = baseline()[0]
    period_s = 2 * math.pi / constellation.mean_motion_rad_s(orbit.root_axis_root_m)
    assert 2 * period_s == pytest.approx(86164.1, abs=15.0)


@settings(max_examples=60)
@given(st.floats(-50.0, 50.0), st.floats(0.0, 0.9))
def test_eccentric_anomaly_solves_kepler_equation(mean, eccentricity):
    anomaly = constellation.eccentric_anomaly_rad(mean, eccentricity)
    back = anomaly - eccentricity * math.sin(anomaly)
    assert math.remainder(back - mean, 2 * math.pi) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("eccentricity", [-0.001, 0.91, math.nan])
def test_wrong_eccentricity_refused(eccentricity):
    with pytest.raises(DomainError):
        constellation.eccentric_anomaly_rad(1.0, eccentricity)


def test_perigee_and_apogee_in_expected_places():
    orbit = Orbit("PRN 01", 0, 0.02, 0.0, 0.96, 0.0, 5153.6, 0.0, 0.3, 0.0)
    axis_m = 5153.6**2
    near = position(orbit, 0.0)
    far = position(replace(orbit, mean_anomaly_rad=math.pi), 0.0)
    assert math.dist((0, 0, 0), (near.x_m, near.y_m, near.z_m)) == pytest.approx(axis_m * 0.98, rel=1e-12)
    assert math.dist((0, 0, 0), (far.x_m, far.y_m, far.z_m)) == pytest.approx(axis_m * 1.02, rel=1e-12)


@pytest.mark.parametrize("gps_s", [-1.0, math.nan, math.inf, 1e12])
def test_time_outside_gps_time_refused(gps_s):
    with pytest.raises(DomainError):
        position(baseline()[0], gps_s)


@pytest.mark.parametrize(("week", "second"), [(-1, 0.0), (0, -0.1), (0, 604800.1), (10000, 0.0)])
def test_wrong_week_or_second_refused(week, second):
    with pytest.raises(DomainError):
        gps_seconds(week, second)


def test_week_end_is_next_week_start():
    assert gps_seconds(2085, 604800.0) == gps_seconds(2086, 0.0)


def test_unhealthy_satellites_left_out():
    orbits = (baseline()[0], replace(baseline()[1], health=63))
    assert [orbit.name for orbit in constellation.healthy(orbits)] == ["A1"]


def test_satellites_removed_by_name_only():
    assert len(constellation.without(baseline(), ["A1", "F4"])) == 22
    assert constellation.without(baseline(), []) == baseline()
    with pytest.raises(DomainError, match="G1"):
        constellation.without(baseline(), ["A1", "G1"])


def test_geostationary_satellite_stays_over_equator():
    over = constellation.geostationary(-90.0)
    assert (over.x_m, over.z_m) == (pytest.approx(0.0, abs=1e-3), 0.0)
    assert over.y_m == pytest.approx(-42.164e6, abs=500.0)  # the radius as every textbook prints it
    turns_a_day = 86164.0905 * constellation.mean_motion_rad_s(math.sqrt(-over.y_m)) / (2.0 * math.pi)
    assert turns_a_day == pytest.approx(1.0, abs=1e-6)
    with pytest.raises(DomainError):
        constellation.geostationary(180.1)


def test_table_epoch_is_first_of_july_1993():
    assert constellation.baseline_epoch_gps_s() == constellation.gps_seconds(703, 4 * 86400.0), "a Thursday"

"""At the PFAF: how a path is met from below, and the words for what the altimeter shows there."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from flight_files import NAMES, files, flown
from lpv.core.errors import DomainError
from lpv.simulate.pfaf import why_not_charted
from lpv.simulate.point_mass import GRAVITY_FPS2, PATH_GAIN_PER_S, VERTICAL_ACCELERATION_G, closing_fps
from lpv.simulate.simulation import simulate, summary

# One flight has 40 kt of tailwind behind it as the path comes down to it, and begins down that much earlier; another
# flies an approach whose altitude at the PFAF lies on the straight path itself, so that it is met there, not inside.
ON_VECTORS = [
    name for name in NAMES if files(name)[0].story.activation == "vectors"
    and name not in ("lead-without-wind", "wrong-localizer")]


def words(name):
    return why_not_charted(flown(name), files(name)[1])


@given(st.floats(0.0, 5000.0), st.floats(0.0, 50.0))
def test_path_capture_rate_grows_with_distance_within_limit(below_ft, more_ft):
    closing = closing_fps(below_ft)
    assert 0.0 <= closing <= closing_fps(below_ft + more_ft)
    assert closing <= PATH_GAIN_PER_S * below_ft + 1e-9
    # Pitching over with the acceleration stops this rate within the distance left.
    assert closing**2 / (2.0 * VERTICAL_ACCELERATION_G * GRAVITY_FPS2) <= below_ft + 1e-9


def test_both_rate_parts_meet_smoothly():
    near_ft = VERTICAL_ACCELERATION_G * GRAVITY_FPS2 / PATH_GAIN_PER_S**2
    assert closing_fps(near_ft + 1e-6) == pytest.approx(closing_fps(near_ft), abs=1e-5)
    slope = (closing_fps(near_ft + 0.01) - closing_fps(near_ft)) / 0.01
    assert slope == pytest.approx(PATH_GAIN_PER_S, rel=0.01)


@pytest.mark.parametrize("name", ON_VECTORS)
def test_level_capture_at_pfaf_loses_few_feet(name):
    """The path is met inside the PFAF, since it is straight; more than a few feet would be a fault of the flight."""
    charted_ft = files(name)[1].pfaf.altitude_ft
    assert files(name)[0].start.altitude_ft == charted_ft
    assert charted_ft - 8.0 < summary(flown(name)).pfaf.indicated_ft < charted_ft


@pytest.mark.parametrize("name", ON_VECTORS)
def test_capture_from_below_never_passes_through_path(name):
    flight = flown(name)
    captured_s = summary(flight).path_captured.time_s
    calm = [sample for sample in flight.samples
            if captured_s < sample.time_s < captured_s + 40.0 and sample.source == "SBAS"]
    assert all(point.path_ft < 8.0 for point in calm)  # the tailwind that falls on the way down lifts it a little
    assert all(point.climb_fpm < 1.0 for point in calm)  # level at most: it does not climb to meet the path


@pytest.mark.parametrize(("name", "reason"), [
    ("normal", "The straight glidepath is 32\u202fft above the charted altitude, which follows the curved earth."),
    ("cold-corrected", "; cold adds 300\u202fft on the altimeter."),
    ("cold-uncorrected", "At the charted altitude on the altimeter, in fact 259\u202fft lower, in cold air."),
    ("vectors-tailwind", "ft inside the FAF; captured from below, it starts the descent a little earlier"),
    ("ils-left-on", "below the charted altitude on the altimeter: on the glidepath of the ILS."),
    ("path-from-above", "1000\u202fft above the charted altitude on the altimeter: 968\u202fft above the glidepath."),
])
def test_reason_stated(name, reason):
    assert reason in words(name)


def test_hot_air_reads_less_unreached_events_omitted():
    scenario, approach, aircraft = files("normal")
    hot = dataclasses.replace(scenario, story=dataclasses.replace(scenario.story, temperature_c=45.0))
    assert "; heat takes off" in why_not_charted(simulate(hot, approach, aircraft), approach)
    short = dataclasses.replace(scenario, story=dataclasses.replace(scenario.story, longest_s=10.0))
    assert why_not_charted(simulate(short, approach, aircraft), approach) == ""


def test_approach_without_path_refused():
    flight, approach = flown("vectors-tailwind"), files("vectors-tailwind")[1]
    flat = dataclasses.replace(approach.segment, gpa_deg=0.0)
    with pytest.raises(DomainError, match="path angle"):
        why_not_charted(flight, type("Flat", (), {
            "pfaf": approach.pfaf, "chart": approach.chart, "segment": flat})())

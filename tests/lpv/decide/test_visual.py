"""What can be seen from the decision."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.decide import visual

quick = settings(max_examples=60, deadline=None)


def seen_by_rays(distance_ft, eye_ft, down_deg, visibility_ft, lights_ft, step_ft=1):
    """Every ft of the light system, tested alone: in visibility, and not steeper than the nose allows."""
    seen = []
    for before_ft in range(0, int(lights_ft) + 1, step_ft):
        ahead_ft = distance_ft - before_ft
        if ahead_ft < 0 or (ahead_ft == 0 and eye_ft > 0):
            continue
        steep_deg = math.degrees(math.atan2(eye_ft, ahead_ft))
        if steep_deg <= down_deg and math.sqrt(ahead_ft**2 + eye_ft**2) <= visibility_ft:
            seen.append(before_ft)
    return seen


@quick
@given(
    st.floats(1000, 6000), st.floats(60, 400), st.floats(8, 25), st.floats(500, 8000),
    st.sampled_from([0, 1400, 1500, 2400, 3000]),
)
def test_lights_in_sight_match_single_rays(distance_ft, eye_ft, down_deg, visibility_ft, lights_ft):
    sight = visual.lights_in_sight(distance_ft, eye_ft, down_deg, visibility_ft, lights_ft)
    seen = seen_by_rays(distance_ft, eye_ft, down_deg, visibility_ft, lights_ft)
    if not seen or lights_ft == 0:
        assert sight.length_ft <= 1.0
        return
    assert sight.outer_ft == pytest.approx(seen[-1], abs=1.0)
    assert sight.inner_ft == pytest.approx(seen[0], abs=1.0)
    assert sight.length_ft == sight.outer_ft - sight.inner_ft
    assert sight.threshold == (0 in seen)
    bars = [bar for bar in seen if bar and bar % 100 == 0]
    assert abs(visual.bars_in_sight(sight, 100.0) - len(bars)) <= 1


def test_half_mile_at_200_ft_shows_lights_not_threshold():
    distance_ft = visual.threshold_distance_ft(200.0, 50.0, 3.0)
    sight = visual.lights_in_sight(distance_ft, 200.0, 15.0, 2640.0, 2400.0)
    assert not sight.threshold
    assert sight.inner_ft == pytest.approx(2858.4 - math.sqrt(2640**2 - 200**2), abs=0.1)
    assert sight.outer_ft == pytest.approx(2858.4 - 200 / math.tan(math.radians(15)), abs=0.1)
    assert visual.bars_in_sight(sight, visual.lights_spacing_ft("MALSR")) == 9


def test_no_lights_no_visibility_and_all_in_sight():
    assert visual.lights_in_sight(2862.0, 200.0, 15.0, 2640.0, 0.0).length_ft == 0.0
    blind = visual.lights_in_sight(2862.0, 200.0, 15.0, 150.0, 2400.0)
    assert (blind.outer_ft, blind.inner_ft, blind.threshold) == (None, None, False)
    assert visual.bars_in_sight(blind, 200.0) == 0
    clear = visual.lights_in_sight(4000.0, 200.0, 15.0, 20_000.0, 2400.0)
    assert (clear.outer_ft, clear.inner_ft, clear.threshold) == (2400.0, 0.0, True)
    assert visual.bars_in_sight(clear, 200.0) == 12


def test_nose_hides_near_ground():
    hidden = visual.lights_in_sight(500.0, 200.0, 10.0, 20_000.0, 2400.0)
    assert (hidden.length_ft, hidden.threshold) == (0.0, False)
    assert visual.lights_in_sight(500.0, 0.0, 10.0, 20_000.0, 2400.0).threshold


def test_required_visibility_just_shows_lights():
    for_threshold_ft = visual.visibility_for_threshold_ft(2862.0, 200.0, 15.0)
    assert for_threshold_ft == pytest.approx(math.sqrt(2862**2 + 200**2))
    assert visual.lights_in_sight(2862.0, 200.0, 15.0, for_threshold_ft + 0.01, 2400.0).threshold
    assert not visual.lights_in_sight(2862.0, 200.0, 15.0, for_threshold_ft - 0.01, 2400.0).threshold
    first_ft = visual.visibility_for_first_light_ft(4000.0, 280.0, 15.0, 2400.0)
    assert first_ft == pytest.approx(math.sqrt(1600**2 + 280**2))
    assert visual.lights_in_sight(4000.0, 280.0, 15.0, first_ft - 0.01, 2400.0).length_ft == 0.0
    nose_ft = visual.visibility_for_first_light_ft(2862.0, 200.0, 15.0, 2400.0)
    assert nose_ft == pytest.approx(200.0 / math.sin(math.radians(15)))


def test_eyes_and_nose():
    assert visual.eye_height_ft(200.0, 8.0) == 208.0
    assert visual.down_view_deg(17.0, 3.0) == 14.0
    assert visual.hidden_ahead_ft(100.0, 45.0) == pytest.approx(100.0)
    assert visual.reach_ahead_ft(300.0, 500.0) == 400.0
    assert visual.reach_ahead_ft(300.0, 200.0) == 0.0
    assert visual.slant_range_ft(400.0, 300.0) == 500.0


def test_light_systems():
    assert visual.lights_length_ft("ALSF-2", 2.75) == 2400.0
    assert visual.lights_length_ft("ALSF-2", 2.74) == 3000.0
    assert visual.lights_length_ft("MALSR", 2.74) == 2400.0
    for system in visual.LIGHT_SYSTEMS:
        bars = visual.lights_length_ft(system, 3.0) / visual.lights_spacing_ft(system)
        assert bars == int(bars)


def test_over_threshold():
    assert visual.threshold_distance_ft(50.0, 50.0, 3.0) == 0.0


@pytest.mark.parametrize("call", [
    lambda: visual.threshold_distance_ft(49.0, 50.0, 3.0),
    lambda: visual.threshold_distance_ft(200.0, -1.0, 3.0),
    lambda: visual.threshold_distance_ft(200.0, 50.0, 0.0),
    lambda: visual.slant_range_ft(-1.0, 200.0),
    lambda: visual.eye_height_ft(10.0, -20.0),
    lambda: visual.eye_height_ft(math.nan, 0.0),
    lambda: visual.down_view_deg(15.0, 15.0),
    lambda: visual.down_view_deg(50.0, 0.0),
    lambda: visual.hidden_ahead_ft(200.0, 0.0),
    lambda: visual.hidden_ahead_ft(200.0, 90.0),
    lambda: visual.reach_ahead_ft(200.0, 0.0),
    lambda: visual.reach_ahead_ft(200.0, math.inf),
    lambda: visual.lights_in_sight(-1.0, 200.0, 15.0, 2640.0, 2400.0),
    lambda: visual.lights_in_sight(2862.0, 200.0, 15.0, 2640.0, -1.0),
    lambda: visual.bars_in_sight(visual.lights_in_sight(2862, 200, 15, 2640, 2400), 0.0),
    lambda: visual.visibility_for_threshold_ft(500.0, 200.0, 10.0),
    lambda: visual.visibility_for_first_light_ft(500.0, 200.0, 10.0, 2400.0),
    lambda: visual.visibility_for_first_light_ft(2862.0, 200.0, 15.0, 0.0),
    lambda: visual.lights_length_ft("NONE", 3.0),
    lambda: visual.lights_spacing_ft("malsr"),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()

"""The last 300 ft: go-arounds, level flight, threshold and runway, each with and without noise and offsets."""

import pytest

from lpv.decide.missed import height_loss_ft
from lpv.track.ending import below_minimum, lowest_against_minimum
from lpv.track.level_flight import compare_level, fitted, level_flight, longest_level, rounded_on, rounded_out
from track_flights import (
    DA_FT,
    JET,
    THRESHOLD_FT,
    Drawn,
    comparison,
    go_around_from,
    landing,
    on_path,
    outside,
    path_ft,
    verdicts,
)

INDICATED = "altitude_indicated_ft"


def test_noisy_perfect_path_not_outside():
    """A 3 degree path, 15 ft of noise, one sample a second: no rate and no deviation is outside."""
    for seed in range(12):
        for column in ("altitude_msl_ft", INDICATED):
            debrief = Drawn(landing(), noise_ft=15.0, seed=f"perfect {seed}", column=column).debrief()
            assert outside(debrief) == set(), (seed, column)
            assert debrief.flown.noise.height_ft == pytest.approx(15.0, rel=0.3)


@pytest.mark.parametrize("column", ["altitude_msl_ft", INDICATED])
@pytest.mark.parametrize("noise_ft", [0.0, 10.0])
def test_go_around_from_80_ft_is_outside(column, noise_ft):
    debrief = Drawn(go_around_from(80.0), column=column, noise_ft=noise_ft).debrief()
    assert "go-around" in outside(debrief)
    lowest = comparison(debrief, "go-around")
    assert lowest.value == pytest.approx(80.0, abs=6.0 + noise_ft)
    around = JET.go_around
    loss_ft = height_loss_ft(debrief.flown.minimum.at.sink_fpm, around.reaction_s, around.acceleration_g)
    assert lowest.low == pytest.approx(DA_FT - loss_ft, abs=4.0 + noise_ft / 2.0)


def test_go_around_at_minimum_loses_type_loss():
    debrief = Drawn(go_around_from(DA_FT - 15.0), column=INDICATED).debrief()
    assert verdicts(debrief)["go-around"] == "within"
    assert "loses" in next(moment.what for moment in debrief.moments if moment.key == "go-around")
    assert vars(lowest_against_minimum(debrief.flown)) == vars(comparison(debrief, "go-around"))


def test_loss_left_open_without_type():
    debrief = Drawn(go_around_from(DA_FT - 60.0), column=INDICATED).debrief(aircraft=None)
    assert verdicts(debrief)["go-around"] == "too close to say"
    assert "go-around" in outside(Drawn(go_around_from(40.0), column=INDICATED).debrief(aircraft=None))


def test_below_minimum_outside_by_altimeter_open_by_gnss():
    heights = go_around_from(DA_FT - 70.0)
    assert verdicts(Drawn(heights, column=INDICATED).debrief())["go-around"] == "outside"
    by_gnss = comparison(Drawn(heights).debrief(), "go-around")
    assert by_gnss.uncertainty == pytest.approx(43.0, abs=3.0)
    assert by_gnss.verdict in ("outside", "too close to say")
    assert verdicts(Drawn(heights).debrief(receiver="SBAS"))["go-around"] == "outside"


def test_climb_timed_from_minimum():
    debrief = Drawn(go_around_from(124.0), column=INDICATED).debrief()
    climb = next(moment for moment in debrief.moments if moment.key == "climb")
    seconds = debrief.flown.lowest.time_s - debrief.flown.minimum.at.time_s
    assert seconds == pytest.approx(100.0 / (path_ft(1.0) - path_ft(0.0)) / 120.0 * 3600.0, abs=1.5)
    assert f"begins {round(seconds)}\u202fs after" in climb.what


def test_few_samples_leave_lowest_point_open():
    every_ten = Drawn(go_around_from(190.0), column=INDICATED, step_s=10.0).debrief()
    lowest = comparison(every_ten, "go-around")
    assert lowest.uncertainty > 50.0
    assert lowest.verdict == "too close to say"


def test_level_at_minimum_then_steep_is_outside():
    """Level for 20 s at the DA, then 1331 ft/min to the runway."""
    at_nm = (DA_FT - path_ft(0.0)) / (path_ft(1.0) - path_ft(0.0))
    level_nm = 20.0 * 120.0 / 3600.0
    down_nm = (DA_FT - THRESHOLD_FT) / 1331.0 * 60.0 * 120.0 / 3600.0
    heights = on_path(at_nm, (at_nm - level_nm, DA_FT - 1.0), (at_nm - level_nm - down_nm, THRESHOLD_FT),
                      (at_nm - level_nm - down_nm - 0.6, THRESHOLD_FT))
    for noise_ft in (0.0, 5.0):
        debrief = Drawn(heights, column=INDICATED, noise_ft=noise_ft).debrief()
        assert {"level at the minimum"} <= outside(debrief), noise_ft
    steep = Drawn(heights, column=INDICATED).debrief()
    everywhere = [moment for moment in steep.moments if moment.key == "sink below the minimum"]
    assert everywhere
    assert everywhere[0].compared[0].value > 1000.0
    assert everywhere[0].verdict == "outside"


def levelled(level_s, **more):
    """Down the path to 330 ft, level, and a climb: flown below a minimum of 400 ft, by the altimeter."""
    low_ft = 330.0
    at_nm = (low_ft - path_ft(0.0)) / (path_ft(1.0) - path_ft(0.0))
    ends_nm = at_nm - level_s * 120.0 / 3600.0
    flown = Drawn(on_path(at_nm, (ends_nm, low_ft), (ends_nm - 1.0, low_ft + 1200.0)), column=INDICATED, **more)
    return flown.debrief(minimum_ft=400.0)


def test_level_flight_duration_within_uncertainty():
    for noise_ft in (0.0, 5.0, 15.0):
        for level_s in (0.0, 4.0, 6.0, 8.0, 10.0, 12.0, 15.0, 22.0):
            flown = levelled(level_s, noise_ft=noise_ft)
            level = longest_level(flown.flown)
            compared = compare_level(flown.flown, level)
            assert abs(compared.value - level_s) <= compared.uncertainty < 8.0, (noise_ft, level_s)
            assert abs(level.altitude_ft - 330.0) <= level.unsure_ft or level_s < 10.0, (noise_ft, level_s)
            if level_s == 22.0:
                assert "level at the minimum" in outside(flown)
            if level_s <= 4.0:
                assert compared.verdict == "within"
                assert "level at the minimum" not in verdicts(flown)


def test_level_altitude_uncertainty_keeps_offset():
    few, many = (longest_level(levelled(level_s, noise_ft=8.0).flown) for level_s in (8.0, 20.0))
    assert many.unsure_ft < few.unsure_ft < 8.0
    by_gnss = Drawn(on_path(0.8, (0.2, 306.0), (-1.0, 1500.0)), noise_ft=8.0).debrief(minimum_ft=400.0)
    assert longest_level(by_gnss.flown).unsure_ft >= by_gnss.flown.levels.reading_uncertainty_ft(306.0) > 40.0


def test_level_flight_not_judged_with_too_few_samples():
    flight = levelled(15.0, step_s=20.0)
    assert longest_level(flight.flown) is None
    assert compare_level(flight.flown, None).verdict == "not judged"


def test_fitted_curve_recovers_level_part():
    """Down at 10 ft/s to 300 ft, rounded over 12 s, level from 20 to 35 s, then up at 8 ft/s, rounded over 4 s."""
    times_s = [float(n) for n in range(49)]
    heights_ft = [300.0 + 10.0 * rounded_out(20.0 - time_s, 12.0, 0.0) + 8.0 * rounded_on(time_s - 35.0, 4.0)
                  for time_s in times_s]
    best = min(fitted(times_s, heights_ft, 1.0), key=lambda curve: curve.squares)
    assert best.squares == pytest.approx(0.0, abs=1e-6)
    assert best.altitude_ft == pytest.approx(300.0)
    # 200 ft/min is a third of the rate before and 5/12 of the one after.
    assert best.begin_s == pytest.approx(20.0 - 12.0 * (1.0 / 3.0) ** (1.0 / 3.0))
    assert best.end_s == pytest.approx(35.0 + 4.0 * 5.0 / 12.0)


def test_level_below_minimum_states_amount():
    at_nm = (DA_FT - 70.0 - path_ft(0.0)) / (path_ft(1.0) - path_ft(0.0))
    debrief = Drawn(on_path(at_nm, (0.0, DA_FT - 70.0), (-0.5, DA_FT - 70.0)), column=INDICATED).debrief()
    assert [leg.verdict for leg in level_flight(debrief.flown)] == ["too close to say"]  # 8 s before the threshold
    early = on_path(at_nm + 0.5, (at_nm + 0.4, DA_FT - 70.0), (-0.4, DA_FT - 70.0))
    debrief = Drawn(early, column=INDICATED).debrief()
    level = next(moment for moment in debrief.moments if moment.key == "level at the minimum")
    assert level.verdict == "outside"
    assert "ft below the minimum" in level.what
    lowest = longest_level(debrief.flown)
    assert abs(lowest.altitude_ft - (DA_FT - 70.0)) <= lowest.unsure_ft < 15.0


def test_threshold_at_runway_level():
    """Crossed at -1 ft: by GNSS alone surely below the path, with SBAS by more than a dot."""
    heights = on_path(0.75, (0.0, THRESHOLD_FT - 1.0))
    plain = Drawn(heights).debrief()
    threshold = next(moment for moment in plain.moments if moment.key == "threshold")
    assert threshold.verdict == "too close to say"
    assert "Certainly below the glidepath" in threshold.what
    assert "threshold" in outside(Drawn(heights).debrief(receiver="SBAS"))


def test_runway_shows_height_accuracy():
    """On the runway the recording reads its elevation: so a low crossing is outside without SBAS too."""
    heights = on_path(0.75, (0.0, THRESHOLD_FT - 1.0), (-0.9, THRESHOLD_FT))
    debrief = Drawn(heights).debrief()
    assert debrief.flown.ground.offset_ft == pytest.approx(0.0, abs=1.5)
    assert comparison(debrief, "threshold").uncertainty < 25.0
    assert "threshold" in outside(debrief)


def test_crossing_on_path_and_zone_touchdown_within():
    debrief = Drawn(landing(), column=INDICATED).debrief()
    assert verdicts(debrief)["threshold"] == "within"
    touch = comparison(debrief, "touchdown")
    assert touch.value == pytest.approx(1000.0, abs=250.0)
    assert touch.verdict == "within"
    assert next(moment.what for moment in debrief.moments if moment.key == "end").startswith("Landed")


def test_touchdown_far_down_runway_is_outside():
    heights = on_path(0.0, (-4500.0 / 6076.0, THRESHOLD_FT), (-1.4, THRESHOLD_FT))
    debrief = Drawn(heights, column=INDICATED).debrief()
    assert "touchdown" in outside(debrief)
    (what,) = [moment.what for moment in debrief.moments if moment.key == "touchdown"]
    assert what.endswith("beyond the threshold; the touchdown zone ends at 3000\u202fft, from memory.")


def test_continuing_reported_not_judged():
    debrief = Drawn(landing(), column=INDICATED).debrief()
    moment = next(moment for moment in debrief.moments if moment.key == "continued")
    assert moment.verdict == ""
    assert "Only the crew can say" in moment.what


def test_touch_and_go_is_no_go_around():
    debrief = Drawn(landing((-3.0, 1200.0)), column=INDICATED).debrief()
    assert "go-around" not in {moment.key for moment in debrief.moments}
    assert "touch-and-go" in next(moment.what for moment in debrief.moments if moment.key == "touch and go")


def test_missed_approach_gradient_course_and_altitude():
    good = Drawn(go_around_from(DA_FT - 10.0, 400.0), column=INDICATED).debrief()
    assert verdicts(good)["gradient"] == "within"
    assert comparison(good, "gradient").value == pytest.approx(400.0, abs=15.0)
    flat = Drawn(go_around_from(DA_FT - 10.0, 120.0), column=INDICATED).debrief()
    assert verdicts(flat)["gradient"] == "outside"
    missed_ft = good.flown.target.missed_ft(None)
    lost = Drawn((*go_around_from(DA_FT)[:-2], (-4.0, missed_ft + 300.0), (-5.0, missed_ft + 300.0)), column=INDICATED)
    assert verdicts(lost.debrief())["missed altitude"] == "outside"
    assert verdicts(good)["missed course"] == "within"


def test_early_turn_is_outside():
    heights = on_path(2.0, (1.0, 1500.0), (0.0, 2500.0), (-1.0, 2500.0))
    sides = (*(0.0 for _ in heights[:-3]), 3000.0, 9000.0, 9000.0)
    assert "missed course" in outside(Drawn(heights, across_ft=sides, column=INDICATED).debrief())


def test_any_descent_below_mda_is_outside():
    debrief = Drawn(go_around_from(400.0), column=INDICATED).debrief(level="LNAV", minimum_ft=420.0)
    assert comparison(debrief, "go-around").low == 420.0
    assert verdicts(debrief)["go-around"] == "outside"
    assert "path below the minimum" not in verdicts(debrief)
    assert debrief.flown.target.kind == "MDA"


def test_below_minimum_starts_at_altimeter_passage():
    debrief = Drawn(landing(), column=INDICATED).debrief()
    rows = below_minimum(debrief.flown)
    assert all(row.indicated_ft <= DA_FT for row in rows)
    assert rows[0].time_s - debrief.flown.minimum.at.time_s <= 1.0
    assert below_minimum(Drawn(on_path(1.5), column=INDICATED).debrief().flown) == ()

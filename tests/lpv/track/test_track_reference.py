"""Altitudes that count from something else: found against the path, told, never corrected."""

from types import SimpleNamespace

import pytest

from flight_files import files, flown
from lpv.core.units import M_PER_FT
from lpv.simulate.report import place
from lpv.track import command as track
from lpv.track import files as track_files
from lpv.track.clean import clean
from lpv.track.levels import levels_of
from lpv.track.points import places
from lpv.track.records import Conditions, Reading, Recording
from lpv.track.reference import Doubt, doubt, half_spread_ft
from lpv.track.target import Target
from track_flights import JET, Drawn, landing, verdicts

_, HC, _ = files("cold-uncorrected")
_, AK, _ = files("normal")
TO = Target(AK)


def remark(name, approach, geometric, barometric, altitude_ft, qnh_hpa=None, temperature_c=15.0):
    """What is said about the altitudes of a simulated flight; altitude_ft of a sample as the recorder gives it."""
    readings = []
    for line, sample in enumerate(flown(name).samples, 2):
        at = place(sample, approach)
        given = altitude_ft(sample, at)
        readings.append(Reading(line, sample.time_s, at.latitude_deg, at.longitude_deg, given if geometric else None,
                                None if geometric else given))
    recording = Recording("a.csv", geometric, barometric, tuple(readings), 6)
    to = Target(approach)
    levels = levels_of(recording, to, Conditions(temperature_c, qnh_hpa))
    points = tuple(places(clean(recording)[0], to, levels))
    result = doubt(points, {reading.time_s: reading for reading in readings}, levels, to)
    if result is None:
        return ""
    assert isinstance(result, Doubt)
    assert result.by_ft >= 43.0 - 1.0  # more than the uncertainty by itself
    return result.remark.what


def test_correct_statement_reports_nothing():
    assert remark("normal", AK, "msl", "", lambda sample, at: sample.altitude_ft) == ""
    assert remark("normal", AK, "ellipsoid", "", lambda sample, at: at.ellipsoid_height_m / M_PER_FT) == ""
    assert remark("normal", AK, "", "indicated", lambda sample, at: sample.indicated_ft) == ""


def test_ellipsoid_and_sea_level_confused():
    """The geoid lies 23.1 m below the ellipsoid there: 76 ft."""
    low = remark("normal", AK, "msl", "", lambda sample, at: at.ellipsoid_height_m / M_PER_FT)
    assert low.startswith("All along the final the recording lies 76\u202fft below the glidepath, within ")
    assert "would lie \u221276\u202fft off here" in low
    assert "Nothing was corrected" in low
    high = remark("normal", AK, "ellipsoid", "", lambda sample, at: sample.altitude_ft)
    assert "76\u202fft above the glidepath" in high
    assert "would lie +76\u202fft off here" in high


def test_other_constant_offset_reported_unexplained():
    text = remark("normal", AK, "msl", "", lambda sample, at: sample.altitude_ft + 200)
    assert "No other reference explains it" in text


@pytest.mark.parametrize(("off_hpa", "word"), [(10.0, "10\u202fhPa too high"), (-10.0, "10\u202fhPa too low")])
def test_wrong_altimeter_setting_reported_in_hectopascals(off_hpa, word):
    """An altimeter set too high reads too much, 27.3 ft for each hectopascal near sea level."""
    assert word in remark("normal", AK, "", "indicated", lambda sample, at: sample.indicated_ft + 27.3 * off_hpa)


def test_feet_and_metres_confused():
    metres = remark("normal", AK, "msl", "", lambda sample, at: sample.altitude_ft * M_PER_FT)
    assert metres.startswith("The altitudes fit the glidepath if they are in meters, taken for feet.")
    feet = remark("normal", AK, "msl", "", lambda sample, at: sample.altitude_ft / M_PER_FT)
    assert feet.startswith("The altitudes fit the glidepath if they are in feet, taken for meters.")


def test_metres_as_feet_detected_despite_fitting_runway():
    """22 ft are 7 m: on the runway the heights fit either way, on the final they do not."""
    text = Drawn(landing(), column="altitude_msl_m").text().replace("altitude_msl_m", "altitude_msl_ft")
    analysis = track.analyse(track_files.read_bytes(text.encode(), "flight.csv"), AK, JET, Conditions(14.956))
    (remark,) = analysis.remarks
    assert remark.what.startswith("The altitudes fit the glidepath if they are in meters, taken for feet.")
    assert "outside" not in verdicts(analysis).values()
    assert verdicts(analysis)["threshold"] == "not judged"


def test_flight_moving_against_path_is_no_offset():
    assert remark("path-from-above-not-captured", AK, "msl", "", lambda sample, at: sample.altitude_ft) == ""


def test_correct_temperature_leaves_no_offset_in_cold():
    def remark_at(temperature_c):
        return remark("cold-uncorrected", HC, "", "indicated", lambda sample, at: sample.indicated_ft,
                      temperature_c=temperature_c)

    assert remark_at(-30.0) == ""
    assert remark_at(30.0) == ""  # it grows with height: no constant offset


def test_too_few_samples_say_nothing():
    recording = track.track_reader.read_bytes(
        b"time_s,latitude_deg,longitude_deg,altitude_msl_ft\n0,34.0211,-148.2,3000\n9,34.0211,-148.1,3000\n", "a.csv")
    levels = levels_of(recording, TO, Conditions(15.0))
    points = tuple(places(clean(recording)[0], TO, levels))
    assert doubt(points, {}, levels, TO) is None


@pytest.mark.parametrize(("nearest_nm", "told"), [(0.301, True), (0.299, False)])
def test_samples_near_threshold_ignored(nearest_nm, told):
    """Twenty samples 200 ft above the path; without the nearest they are too few."""
    points = [SimpleNamespace(above_ft=200.0, along_nm=along_nm, course_dots=0.0, true_ft=1000.0, time_s=-along_nm)
              for along_nm in (nearest_nm, *(0.5 + 0.1 * step for step in range(19)))]
    readings = {point.time_s: Reading(1, point.time_s, 34.0, -148.0, 1000.0) for point in points}
    levels = levels_of(Recording("a.csv", "msl", "", (), 6), TO, Conditions(15.0))
    assert (doubt(tuple(points), readings, levels, TO) is not None) is told


def test_half_width_containing_eight_tenths():
    assert half_spread_ft([5.0] * 20) == 0.0
    assert half_spread_ft([float(n) for n in range(101)]) == pytest.approx(40.8, abs=0.5)


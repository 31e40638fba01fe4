"""Cold in a debrief: what was asked, what was flown, and when the page must not call it fine."""

import dataclasses

import pytest

from changed import changed
from demo import flights as make_flights
from flight_files import files, flown
from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft, true_height_ft
from lpv.approach.record import read
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track.moments import (
    at_pfaf,
    cold_in_words,
    cold_minimum,
    cold_moments,
    degrees_c,
    explains_low,
    minimum_asked_ft,
)
from lpv.track.records import Conditions
from track_files import csv_of, debrief_of

HC = read(make_flights.DOCS / "approaches" / "zzhc-rnav-33.toml")
ELEVATION_FT = HC.chart.airport_elevation_ft


def by_key(debrief):
    return {moment.key: moment for moment in debrief.moments}


def scenario_told(name, **changes):
    """A simulated flight, recorded by GNSS, with other conditions or another chart."""
    of, approach, aircraft = files(name)
    chart = {key: changes.pop(key) for key in list(changes) if hasattr(approach.chart, key)}
    rule = changes.pop("rule", approach.identity.rule)
    approach = dataclasses.replace(approach, chart=dataclasses.replace(approach.chart, **chart),
                                   identity=dataclasses.replace(approach.identity, rule=rule))
    recording = track_reader.read_bytes(csv_of(flown(name).samples, files(name)[1]).encode(), "a.csv")
    given = Conditions(**{"temperature_c": of.story.temperature_c, "minimum_ft": of.story.minimum_ft} | changes)
    return track.analyse(recording, approach, aircraft, given)


def test_uncorrected_pfaf_lower_than_charted_and_reported():
    fix = at_pfaf(debrief_of("cold-uncorrected").flown)
    assert fix.charted_ft == 8700.0
    assert fix.corrected_ft == 8700.0 + segment_addition_ft(8700.0 - ELEVATION_FT, -30.0)
    truly_ft = ELEVATION_FT + true_height_ft(8700.0 - ELEVATION_FT, -30.0, ELEVATION_FT)
    assert fix.lower_ft == pytest.approx(8700.0 - truly_ft, abs=2.0)
    assert fix.compared.verdict == "outside"
    moment = by_key(debrief_of("cold-uncorrected"))["cold"]
    assert moment.verdict == "outside"
    assert moment.what.startswith(
        "Cold, and not corrected: GLAZO is charted at 8700\u202fft")
    assert "259\u202fft low" in moment.what
    assert "Required (FAA, AIM 7-3-5): 400\u202fft more, 9100\u202fft." in moment.what
    text = cold_in_words(debrief_of("cold-uncorrected").flown)
    assert text == "not corrected: 259\u202fft below the charted altitude at GLAZO"


def test_corrected_pfaf_not_lower_than_charted():
    """On the path it passes below the corrected altitude, which was rounded up; truly it is not below the chart's."""
    debrief = debrief_of("cold-corrected")
    fix = at_pfaf(debrief.flown)
    assert fix.at.indicated_ft < fix.corrected_ft
    assert fix.compared.verdict == "within"
    assert by_key(debrief)["cold"].verdict == "within"
    assert "at or above the charted altitude" in by_key(debrief)["cold"].what
    assert by_key(debrief)["cold minimum"].verdict == "within"
    assert cold_in_words(debrief.flown) == "corrected"
    assert not [moment.key for moment in debrief.moments if moment.verdict == "outside"]


def test_minimum_of_day():
    line = next(row for row in HC.chart.minima if row.line == "LPV")
    asked_ft = line.altitude_ft + minimum_addition_ft(line.altitude_ft - ELEVATION_FT, -30.0)
    debrief = debrief_of("cold-uncorrected")
    assert minimum_asked_ft(debrief.flown) == asked_ft
    moment = by_key(debrief)["cold minimum"]
    assert moment.verdict == "not judged"  # nobody stated which was used
    assert f"{asked_ft:.0f}\u202fft" in moment.what
    assert by_key(scenario_told("cold-uncorrected", minimum_ft=asked_ft))["cold minimum"].verdict == "within"
    assert by_key(scenario_told("cold-uncorrected", minimum_ft=asked_ft - 1.0))["cold minimum"].verdict == "outside"


def test_temperatures_use_true_minus_sign():
    assert (degrees_c(-30.4), degrees_c(5.0)) == ("\u221230\u202f°C", "5\u202f°C")


def test_cold_omitted_without_stated_temperature():
    debrief = scenario_told("cold-uncorrected", temperature_c=None)
    assert at_pfaf(debrief.flown) is None
    assert minimum_asked_ft(debrief.flown) is None
    assert list(cold_moments(debrief.flown)) == list(cold_minimum(debrief.flown)) == []
    assert cold_in_words(debrief.flown) == ""


@pytest.mark.parametrize(("changes", "words"), [
    ({"cold_temperature_airport_c": -31.0}, "is warmer than the chart's"),
    ({"cold_temperature_airport_c": None}, "in extreme cold a crew may ask for them"),
    ({"cold_temperature_airport_c": None, "rule": "EASA"}, "no State's or operator's rule that says from when"),
])
def test_unasked_cold_reported_not_judged(changes, words):
    debrief = scenario_told("cold-uncorrected", **changes)
    moment = by_key(debrief)["cold"]
    assert moment.verdict != "outside"
    assert words in moment.what
    assert "259\u202fft low" in moment.what
    assert "cold minimum" not in by_key(debrief)
    low = by_key(debrief)["PFAF, below the glidepath"]  # level at the charted altitude, and nothing else was asked
    assert low.verdict != "outside"
    assert explains_low(debrief.flown, low.at)
    assert not explains_low(debrief.flown, changed(low.at, indicated_ft=8600.0))
    assert not explains_low(debrief.flown, changed(low.at, indicated_ft=None))
    assert cold_in_words(debrief.flown) == "259\u202fft below the charted altitude at GLAZO"


def test_cool_day_is_not_cold():
    recording = track_reader.read(make_flights.FOLDER / "stable.csv")
    approach, aircraft = files("normal")[1:]
    debrief = track.analyse(recording, approach, aircraft, Conditions(5.0))
    assert "cold" not in by_key(debrief)
    assert cold_in_words(debrief.flown) == ""


def test_cold_demo_day_not_called_fine():
    file = read_demo()
    keys = {moment.key for moment in file.moments if moment.verdict == "outside"}
    assert {"fix", "PFAF, below the glidepath", "cold"} <= keys
    assert by_key(file)["cold minimum"].verdict == "not judged"


def read_demo():
    recording = track_reader.read(make_flights.FOLDER / "cold.csv")
    return track.analyse(recording, HC, files("normal")[2], Conditions(-30.0, 1002.0))

"""Recorded flights: what simulated flights tell when they are read back, a published approach, the command."""

import json
import math
import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from changed import changed
from demo import flights as make_flights
from flight_files import files, flown, moment
from lpv.approach.schema import Minima
from lpv.core.errors import DataError, DomainError
from lpv.core.units import M_PER_FT, M_PER_NM
from lpv.decide.stabilised import GATES
from lpv.fas import segment
from lpv.geodesy import earth
from lpv.simulate.simulation import summary
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track.records import Conditions
from lpv.track.target import Target
from published_approaches import khwd
from track_files import DECIMALS, M_DECIMALS, csv_of, debrief_of

DOCS = make_flights.DOCS
FLIGHTS = ("normal", "armed-far-outside", "armed-late", "intercept-too-steep", "vectors-tailwind", "cold-uncorrected",
           "path-from-above-not-captured", "vertical-lost-inside", "go-around-at-da")
# Half of the last digit of the recording, north and east together, and up.
PLACE_FT = 0.5 * 10.0**-DECIMALS * math.sqrt(2.0) * 60.0 * M_PER_NM / M_PER_FT
HEIGHT_FT = 0.5 * 10.0**-M_DECIMALS / M_PER_FT
# The simulation counts along the ground and along the vertical under the aircraft, the segment in the level frame of
# the threshold: 20 NM out, 2000 ft up, the two differ by at most this share of a deviation.
FRAMES = 3e-4


def near(points, time_s):
    nearest = min(points, key=lambda point: abs(point.time_s - time_s))
    assert abs(nearest.time_s - time_s) < 0.01
    return nearest


# Simulated flights, exported and read back


@pytest.mark.parametrize("name", FLIGHTS)
def test_simulated_flight_gives_its_own_deviations(name):
    debrief, samples = debrief_of(name), flown(name).samples
    target = debrief.flown.target
    compared = 0
    for point in debrief.flown.points:
        sample = near(samples, point.time_s)
        assert point.along_nm == pytest.approx(sample.along_nm, abs=(PLACE_FT + 0.1) * M_PER_FT / M_PER_NM)
        assert point.across_ft == pytest.approx(sample.across_ft, abs=PLACE_FT + 0.02 + FRAMES * abs(sample.across_ft))
        height_ft = HEIGHT_FT + PLACE_FT * math.tan(math.radians(3.5)) + FRAMES * abs(sample.path_ft)
        assert point.above_ft == pytest.approx(sample.path_ft, abs=height_ft)
        assert point.indicated_ft == pytest.approx(sample.indicated_ft, abs=1.2 * HEIGHT_FT)
        if abs(sample.course_dots) < 99 and sample.along_nm > 0.0:
            slope = abs(sample.course_dots) * PLACE_FT / 10_000
            place_ft = PLACE_FT + FRAMES * abs(sample.across_ft)
            dots = 2.0 * place_ft / target.course_ft(point.along_nm) + slope
            assert point.course_dots == pytest.approx(sample.course_dots, abs=dots)
            dots = 2.0 * height_ft / target.path_ft(point.along_nm) + abs(sample.path_dots) * PLACE_FT / 1000
            assert point.path_dots == pytest.approx(sample.path_dots, abs=dots)
            compared += 1
    assert compared > 100


@pytest.mark.parametrize("name", FLIGHTS)
def test_steady_flight_rates_match(name):
    """Least squares over eleven samples turn half a digit of height into at most 30 / 110 of it a second."""
    samples = {round(sample.time_s): sample for sample in flown(name).samples}
    compared = 0
    for point in debrief_of(name).flown.points:
        around = [samples.get(round(point.time_s) + off) for off in range(-5, 6)]
        if None in around or max(point.climb_fpm for point in around) - min(point.climb_fpm for point in around) > 1.0:
            continue
        assert point.sink_fpm == pytest.approx(-around[5].climb_fpm, abs=1.0 + 60.0 * HEIGHT_FT * 30 / 110)
        if max(point.track_deg for point in around) - min(point.track_deg for point in around) < 1.0 and (
                max(point.ground_speed_kt for point in around) - min(point.ground_speed_kt for point in around) < 0.5):
            assert point.ground_speed_kt == pytest.approx(around[5].ground_speed_kt, abs=0.5 + PLACE_FT * 30 / 110)
            compared += 1
    assert compared > 20


@pytest.mark.parametrize("name", FLIGHTS)
def test_headlines_match_simulation(name):
    debrief, flight = debrief_of(name), flown(name)
    recorded, expected = debrief.flown, summary(flight)
    assert recorded.minimum_ft == flight.minimum_ft
    if expected.minimum:
        assert recorded.minimum.at.along_nm == pytest.approx(expected.minimum.along_nm, abs=0.005)
    elif not expected.go_around:
        assert recorded.minimum is None
    assert recorded.went_around == (expected.go_around is not None)
    if expected.go_around:
        # Between two samples a second apart the aircraft is lower by less than a foot and a half.
        assert recorded.lowest.indicated_ft == pytest.approx(expected.lowest.indicated_ft, abs=1.5)
    else:
        assert recorded.touched
        if expected.established_nm is not None:
            assert recorded.established.along_nm == pytest.approx(expected.established_nm, abs=0.06)


def test_overshoot_matches_flown():
    for name in ("armed-late", "armed-far-outside", "intercept-too-steep"):
        through = next(moment for moment in debrief_of(name).moments if moment.key == "through the course")
        assert abs(through.at.across_ft) == pytest.approx(summary(flown(name)).overshoot_ft, abs=2.0)
        assert through.verdict == "outside"
    assert not [moment for moment in debrief_of("normal").moments if moment.key == "through the course"]


def test_recorded_gates_agree_with_simulation():
    """The judged items of the same name, where they are not too close to say."""
    for name in FLIGHTS:
        flight = {judged.gate.name: judged for judged in flown(name).gates}
        for verdict in debrief_of(name).gates:
            if verdict.at is None or verdict.gate.name not in flight:
                continue
            of_flight = {item.item: item for item in flight[verdict.gate.name].items}
            shown = flight[verdict.gate.name].sample
            for item in verdict.items:
                same_source = shown.shown_path_dots is not None and shown.source == "SBAS"
                if item.verdict == "too close to say" or (item.item != "rate of descent" and not same_source):
                    continue
                met = of_flight[item.item].met
                assert (item.verdict == "within") == met, (name, verdict.gate.name, item)


def test_go_around_dip_below_minimum_matches_simulation():
    debrief = debrief_of("go-around-at-da")
    dip = next(moment for moment in debrief.moments if moment.key == "go-around")
    lowest = moment(flown("go-around-at-da"), "lowest").sample
    assert f"{round(224 - lowest.indicated_ft)}\u202fft below the minimum" in dip.what
    assert track.Debrief is type(debrief)


def test_every_literature_and_operator_gate_present():
    debrief = debrief_of("normal")
    own = files("normal")[2].operator_gates()
    assert {verdict.gate.name for verdict in debrief.gates} == {gate.name for gate in [*GATES, *own]}
    assert [verdict.gate.height_ft for verdict in debrief.gates] == sorted(
        (verdict.gate.height_ft for verdict in debrief.gates), reverse=True)
    assert all(verdict.not_recorded for verdict in debrief.gates)


# A published approach along its own fixes: FAA CIFP cycle 2003, KHWD RNAV (GPS) RWY 28L (see test_crosscheck)


def khwd_flown(height_m):
    """The fixes from the PFAF to the runway, and 20 places between each two, as a recording."""
    approach = khwd()
    rows, time_s = ["time_s,latitude_deg,longitude_deg,altitude_ellipsoid_m"], 0
    for here, there in pairwise(approach.final_fixes):
        at = here.latitude_deg, here.longitude_deg
        leg = earth.inverse(*at, there.latitude_deg, there.longitude_deg)
        for step in range(20):
            north, east = earth.destination(*at, leg.course_deg, step / 20 * leg.distance_nm)
            rows.append(f"{time_s},{north:.9f},{east:.9f},{height_m(approach, here, there, step / 20):.4f}")
            time_s += 5
    recording = track_reader.read_bytes("\n".join(rows).encode(), "khwd.csv")
    return track.analyse(recording, approach, None, Conditions(temperature_c=15.0))



def test_published_approach_flown_on_path_has_no_deviation():
    """Positions are published to a hundredth of a second: half of it north and east is 0.65 ft."""
    def on_path_m(approach, here, there, share):
        nm = [segment.relative_position(approach.segment, fix.latitude_deg, fix.longitude_deg, 0.0).along_nm
              for fix in (here, there)]
        return segment.point_on_path(approach.segment, nm[0] + share * (nm[1] - nm[0])).ellipsoid_height_m

    debrief = khwd_flown(on_path_m)
    points = debrief.flown.points
    assert len(points) == 80
    assert max(abs(point.across_ft) for point in points) < 0.65
    assert max(abs(point.above_ft) for point in points) < 0.05
    assert max(abs(point.course_dots) for point in points) < 2.0 * 0.65 / 350.0
    assert max(abs(point.path_dots) for point in points) < 0.01
    assert debrief.flown.minimum_ft is None
    assert not debrief.remarks


def test_published_altitudes_lie_below_straight_path():
    """The published altitudes lie on the barometric path; at SUDGE the straight one is 79 ft higher."""
    def published_m(approach, here, there, share):
        low = approach.chart.threshold_elevation_ft + approach.chart.tch_ft
        first, last = (fix.altitude_ft or low for fix in (here, there))
        above_threshold_ft = first + share * (last - first) - approach.chart.threshold_elevation_ft
        return approach.segment.ltp_height_m + above_threshold_ft * M_PER_FT

    debrief = khwd_flown(published_m)
    assert debrief.flown.points[0].above_ft == pytest.approx(-79.0, abs=0.5)
    assert debrief.flown.points[-1].above_ft == pytest.approx(0.0, abs=1.0)


# What may be given, and what may not


def demo(name="stable"):
    recording = track_reader.read(make_flights.FOLDER / f"{name}.csv")
    return recording, *files("normal")[1:]


def test_minimum_from_chart_operator_or_statement():
    recording, approach, aircraft = demo()
    assert Target(approach).minimum_ft() == 224
    floor = replace(aircraft.operator, lowest_da_above_tdze_ft=300)
    assert Target(approach, replace(aircraft, operator=floor)).minimum_ft() == 324
    assert Target(khwd(), aircraft).minimum_ft() is None
    line = Minima(line="LPV", kind="DA", categories="E", altitude_ft=224)
    other = replace(approach, chart=replace(approach.chart, minima=(line,)))
    with pytest.raises(DomainError, match="no LPV minimum"):
        Target(other, aircraft).minimum_ft()
    stated = track.analyse(recording, approach, aircraft, Conditions(5.0, minimum_ft=500.0))
    assert stated.flown.minimum.at.indicated_ft == pytest.approx(500.0)
    with pytest.raises(DomainError, match=r"minimum used: found 99999\.0 ft"):
        track.analyse(recording, approach, aircraft, Conditions(5.0, minimum_ft=99999.0))


def test_stated_minimum_not_reached_remarked():
    recording, approach, aircraft = demo()
    low = track.analyse(recording, approach, aircraft, Conditions(5.0, minimum_ft=-1000.0))
    assert [remark.key for remark in low.remarks] == ["minimum"]
    assert re.fullmatch(r"The recording never comes down to the minimum stated, \u22121000\u202fft: "
                        r"its lowest is \d+\u202fft\. Nothing could be judged about the minimum\.", low.remarks[0].what)
    high = track.analyse(recording, approach, aircraft, Conditions(5.0, minimum_ft=20000.0))
    assert [remark.what for remark in high.remarks] == [
        "The recording does not come down through the minimum stated, 20000\u202fft: it begins below. "
        "Nothing could be judged about the minimum."]
    assert track.analyse(recording, approach, aircraft, Conditions(5.0, minimum_ft=500.0)).remarks == ()
    samples = [sample for sample in flown("normal").samples if sample.along_nm > 3.0]
    early = track_reader.read_bytes(csv_of(samples, approach).encode(), "early.csv")
    assert "minimum" not in [remark.key for remark in track.analyse(early, approach, aircraft, Conditions(5.0)).remarks]


def test_flight_elsewhere_refused_with_place():
    recording = demo()[0]
    elsewhere = track.approach_file.read(DOCS / "approaches" / "zzeg-rnp-24.toml")
    with pytest.raises(DataError, match="no sample within 25\u202fNM"):
        track.analyse(recording, elsewhere)
    other_runway = track.approach_file.read(DOCS / "approaches" / "zzak-rnav-16.toml")
    with pytest.raises(DataError, match=r"nothing nearer than \u2212?\d"):
        track.analyse(recording, other_runway)


def test_two_approaches_kept_apart():
    samples, approach = flown("go-around-at-da").samples, files("normal")[1]
    after_s = samples[-1].time_s + 900.0
    again = [replace(sample, time_s=sample.time_s + after_s) for sample in flown("normal").samples]
    recording = track_reader.read_bytes(csv_of([*samples, *again], approach).encode(), "two.csv")
    last = track.analyse(recording, approach)
    assert (last.number, last.count) == (2, 2)
    assert last.flown.touched
    assert "several" in [remark.key for remark in last.remarks]
    first = track.analyse(recording, approach, None, Conditions(number=1))
    assert first.flown.went_around
    with pytest.raises(DomainError, match="approach number"):
        track.analyse(recording, approach, None, Conditions(number=3))


def test_assumptions_stated():
    recording, approach, _ = demo()
    assert [remark.key for remark in track.analyse(recording, approach).remarks] == ["temperature"]
    assert track.analyse(recording, approach, None, Conditions(temperature_c=5.0)).remarks == ()
    coarse = track.analyse(changed(recording, decimals=3), approach, None, Conditions(temperature_c=5.0))
    assert coarse.remarks[0].what == "Positions are given to 3 decimals of a degree: right to 182\u202fft only."


def test_course_reported_without_altitudes():
    recording, approach, _ = demo()
    bare = changed(recording, readings=tuple(
        changed(reading, geometric_ft=None, barometric_ft=None) for reading in recording.readings))
    debrief = track.analyse(bare, approach, None, Conditions(5.0))
    assert "no-altitude" in [remark.key for remark in debrief.remarks]
    assert debrief.flown.established.along_nm == pytest.approx(10.7, abs=0.1)
    assert {each.key for each in debrief.moments} <= {"start", "fix", "leg", "established", "PFAF", "threshold", "end"}
    assert all(gate.at is None for gate in debrief.gates)


# The demo's recordings


def test_committed_recordings_match_generator():
    """To one unit of the last digit, since the last bit of a sine depends on the machine."""
    numbers = re.compile(r"-?\d+\.\d{6}")
    for name, text in make_flights.flights().items():
        committed = (make_flights.FOLDER / name).read_text("utf-8")
        assert numbers.sub("#", committed) == numbers.sub("#", text)
        for old, new in zip(numbers.findall(committed), numbers.findall(text), strict=True):
            assert float(old) == pytest.approx(float(new), abs=1.5e-6)


def test_demo_shows_stated_findings(capsys):
    folder = make_flights.FOLDER
    of = DOCS / "approaches" / "zzak-rnav-09.toml"
    jet = DOCS / "aircraft" / "light-jet.toml"
    arguments = [str(folder / "late.csv"), "--approach", str(of), "--aircraft", str(jet), "--temperature", "15",
                 "--joined", "vectors", "--json"]
    assert track.main(arguments) == 1
    data = json.loads(capsys.readouterr().out)
    keys = {moment["key"] for moment in data["moments"] if moment["verdict"] == "outside"}
    assert {"through the course", "path from above", "sink", "below path", "gate", "minimum"} <= keys
    assert data["ending"] == "Flown away after the go-around."
    assert data["remarks"][0]["key"] == "columns"
    assert len(data["points"]) == len((folder / "late.csv").read_text("utf-8").splitlines()) - 2


# The command


def test_command_prints_verdicts_moments_and_unrecorded_items(capsys):
    arguments = [str(make_flights.FOLDER / "stable.csv"), "--approach", str(DOCS / "approaches" / "zzak-rnav-09.toml")]
    assert track.main([*arguments, "--temperature", "5"]) == 0
    printed = capsys.readouterr().out
    assert "Landed, as far as a recording shows." in printed
    assert "uncertain by 43\u202fft" in printed
    assert "Not recorded: airspeed" in printed
    assert track.main(arguments) == 1
    assert "Temperature at the airport not stated" in capsys.readouterr().out


def test_command_names_faults_of_all_files_together(tmp_path, capsys):
    bad = tmp_path / "bad.csv"
    bad.write_text("time_s,latitude_deg\n1,x\n", "utf-8")
    wrong = tmp_path / "wrong.toml"
    wrong.write_text("[identity]\n", "utf-8")
    assert track.main([str(bad), "--approach", str(wrong), "--aircraft", str(Path("none.toml"))]) == 2
    told_on_stderr = capsys.readouterr().err
    assert all(word in told_on_stderr for word in ("bad.csv: line 1, header", "wrong.toml", "none.toml"))
    assert track.main([str(make_flights.FOLDER / "patchy.gpx"), "--approach", str(
        DOCS / "approaches" / "zzak-rnav-09.toml")]) == 2
    assert "State what the altitudes count from" in capsys.readouterr().err
    cold = [str(make_flights.FOLDER / "cold.csv"), "--approach", str(DOCS / "approaches" / "zzhc-rnav-33.toml")]
    assert track.main(cold) == 1  # the pressure altitudes are left out, with a remark
    assert "pressure altitudes are not used" in capsys.readouterr().out

"""The moments of a recorded approach, in words, and when they are outside limits."""

import dataclasses
import json

import pytest

from changed import changed
from demo import flights as make_flights
from flight_files import files, flown
from lpv.core.text import clock, feet
from lpv.decide.stabilised import GATES
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track.analysis import gates_of
from lpv.track.command import as_json
from lpv.track.ending import ending
from lpv.track.flown import FlownApproach, Moment
from lpv.track.moments import in_order, of_gates
from lpv.track.points import Crossing, Point
from lpv.track.records import Conditions, Remark
from lpv.track.report import not_recorded_items, remark_text, uncertainty, verdict_line
from lpv.track.verdicts import in_dots, in_gap, off_course, off_path
from track_files import csv_of, debrief_of

AT = Point(0.0, 1, 0, 5.0, 120.0, 0.34, 1600.0, 1610.0, -30.0, -0.2)


def by_key(debrief):
    return {moment.key: moment for moment in debrief.moments}


def rewritten(name, change, header="time_s,latitude_deg,longitude_deg,altitude_ellipsoid_m"):
    """What a simulated flight tells with its lines of the recording changed: change(lines) gives others."""
    _, approach, aircraft = files(name)
    lines = csv_of(flown(name).samples, approach, header).splitlines()
    text = "\n".join([lines[0], *change(lines[1:])])
    return track.analyse(track_reader.read_bytes(text.encode(), "a.csv"), approach, aircraft, Conditions(15.0))


def test_simultaneous_moments_keep_order():
    told_of = [Moment(key, changed(AT, time_s=time_s), "") for key, time_s in
               [("d", 9.0), ("a", 4.0), ("b", 9.0), ("c", 9.0), ("e", 1.0)]]
    assert [moment.key for moment in in_order(told_of)] == ["e", "a", "d", "b", "c"]


def test_every_gate_judged_highest_first_including_aircraft_gates():
    debrief = debrief_of("normal")
    gates = gates_of(debrief.flown)
    heights = [verdict.gate.height_ft for verdict in gates]
    assert heights == sorted(heights, reverse=True)
    assert len(gates) == len(GATES) + len(debrief.flown.target.aircraft.gates) == len(debrief.gates)
    passed = [verdict.gate.name for verdict in gates if verdict.at is not None]
    assert [moment.key for moment in of_gates(gates)] == ["gate"] * len(passed)
    assert all(name in moment.what for name, moment in zip(passed, of_gates(gates), strict=True))


def test_deviation_words():
    assert off_course(AT) == "0.3\u202fdots (120\u202fft) right of the course"
    assert off_path(AT) == "0.2\u202fdots (30\u202fft) below the glidepath"
    centred = changed(AT, course_dots=-0.04, across_ft=-3.0, path_dots=0.03, above_ft=4.0)
    assert (off_course(centred), off_path(centred)) == ("on the course", "on the glidepath")
    assert off_path(changed(AT, path_dots=None)) == "height not recorded"
    assert (feet(-0.4), feet(1999.6), in_dots(-1.26)) == ("0\u202fft", "2000\u202fft", "1.3\u202fdots")
    assert in_gap(Crossing(AT, 41.4)) == "in a gap of 41\u202fs: not recorded"
    assert (clock(0.0), clock(59.6), clock(125.0)) == ("0:00", "1:00", "2:05")


def test_stable_approach_has_nothing_outside():
    debrief = debrief_of("normal")
    assert not [moment for moment in debrief.moments if moment.verdict == "outside"]
    assert [moment.at.time_s for moment in debrief.moments] == sorted(moment.at.time_s for moment in debrief.moments)
    assert {"start", "established", "PFAF", "altimeter", "gate", "sink", "near the glidepath", "minimum", "continued",
            "threshold", "end"} <= set(by_key(debrief))
    assert isinstance(debrief.flown, FlownApproach)
    assert all(isinstance(moment, Moment) for moment in debrief.moments)
    assert verdict_line(debrief).startswith("Too close to say: ")


def test_pfaf_limit_is_dot_either_side_with_uncertainty():
    low, high = (by_key(debrief_of(name)) for name in ("cold-uncorrected", "path-from-above"))
    assert low["PFAF, below the glidepath"].verdict == "outside"
    assert "1.2\u202fdots" in low["PFAF, below the glidepath"].what
    assert high["PFAF, above the glidepath"].verdict == "outside"
    slightly_high = by_key(debrief_of("path-from-above-not-captured"))["PFAF"]  # 1.1 dots, uncertain by 0.2
    assert slightly_high.verdict != "outside"
    assert by_key(debrief_of("normal"))["PFAF"].verdict == "within"


def test_recording_seldom_decides_path_at_minimum():
    """13 m are 1.7 dots there: on the path by the recording, and yet neither right nor wrong."""
    at = by_key(debrief_of("normal"))["minimum"]
    assert at.verdict != "outside"
    assert "uncertain by 1.7\u202fdots" in at.what


def test_altimeter_compared_where_both_recorded():
    recording = track_reader.read(make_flights.FOLDER / "stable.csv")
    approach, aircraft = files("normal")[1:]

    def altimeter(off_ft):
        shifted = changed(recording, readings=tuple(
            changed(reading, barometric_ft=reading.barometric_ft + off_ft) for reading in recording.readings))
        return by_key(track.analyse(shifted, approach, aircraft, Conditions(5.0)))["altimeter"]

    assert altimeter(0.0).verdict == "within"
    assert "it read 2000\u202fft, and should have read 2000\u202fft where the aircraft was" in altimeter(0.0).what
    assert altimeter(250.0).verdict == "outside"
    assert altimeter(75.0).verdict == "too close to say"


def test_single_recorded_altitude_reported():
    assert "Altimeter: not recorded;" in by_key(debrief_of("normal"))["altimeter"].what
    _, approach, _ = files("normal")
    rows = ["time_s,latitude_deg,longitude_deg,altitude_indicated_ft"]
    rows += [line.rpartition(",")[0] + f",{sample.indicated_ft:.0f}" for line, sample in zip(
        csv_of(flown("normal").samples, approach).splitlines()[1:], flown("normal").samples, strict=True)]
    only = track.analyse(track_reader.read_bytes("\n".join(rows).encode(), "a.csv"), approach, None, Conditions(15.0))
    assert "a deviation looks like a wrong setting" in by_key(only)["altimeter"].what
    assert only.flown.path_uncertainty_ft(only.flown.minimum.at) > 75.0


def test_cold_air_reported_at_minimum():
    at = by_key(debrief_of("cold-uncorrected"))["minimum, truly lower"]
    assert "6775\u202fft on the altimeter, true altitude 67" in at.what


def test_gap_hides_moments_inside():
    def without(first_nm, last_nm):
        inside = {sample.time_s for sample in flown("normal").samples if last_nm < sample.along_nm < first_nm}
        return rewritten("normal", lambda lines: [line for line in lines if float(line.split(",")[0]) not in inside])

    at_pfaf = by_key(without(6.5, 5.5))["PFAF"]
    assert "in a gap of" in at_pfaf.what
    assert at_pfaf.verdict != "outside"
    assert "altimeter" not in by_key(without(6.5, 5.5))
    at_minimum = without(0.9, 0.2)
    assert "in a gap of" in by_key(at_minimum)["minimum"].what
    gates = without(3.5, 2.0).gates
    assert [gate.verdict for gate in gates if gate.gate.height_ft == 1000.0] == [""] * 2
    assert "in a gap of" in by_key(without(0.4, -0.1))["threshold"].what


def test_recording_stopped_early_is_no_landing():
    short = rewritten("normal", lambda lines: lines[:-60])
    assert ending(short.flown).startswith("The recording ends ")
    assert "before the threshold" in ending(short.flown)
    assert not short.flown.touched


def test_touch_and_climb_left_open():
    samples, approach = flown("normal").samples, files("normal")[1]
    last = samples[-1]
    climb = [dataclasses.replace(last, time_s=last.time_s + n, along_nm=last.along_nm - 0.035 * n,
                                 altitude_ft=last.altitude_ft + 30.0 * n) for n in range(1, 20)]
    text = csv_of([*samples, *climb], approach)
    debrief = track.analyse(track_reader.read_bytes(text.encode(), "a.csv"), approach, None, Conditions(15.0))
    assert "a balked landing, or a touch-and-go" in by_key(debrief)["go-around"].what
    assert ending(debrief.flown) == "Flown away after the go-around."


def test_bad_approach_faults_reported():
    approach, aircraft = files("armed-far-outside")[1:]
    late = track.analyse(track_reader.read(make_flights.FOLDER / "late.csv"), approach, aircraft,
                         Conditions(15.0, joined="vectors"))
    wrong = {moment.key for moment in late.moments if moment.verdict == "outside"}
    assert wrong == {"through the course", "PFAF, above the glidepath", "path from above", "gate", "sink", "below path",
                     "minimum"}
    below = by_key(late)["below path"]
    assert below.at.above_ft < -late.flown.path_uncertainty_ft(below.at)
    assert late.flown.on_path is None


def test_doubtful_altitudes_give_no_path_verdict():
    """The recording lies 201 ft above the path: as stated not met, but it may all be a wrong reference."""
    recording = track_reader.read(make_flights.FOLDER / "patchy.gpx", "msl")
    approach = track.approach_file.read(make_flights.DOCS / "approaches" / "zzeg-rnp-24.toml")
    told_of = track.analyse(recording, approach, files("armed-late")[2], Conditions(8.0))
    assert told_of.remarks[0].key == "reference"
    assert told_of.flown.doubt_ft == pytest.approx(201.0, abs=3.0)
    assert "doubt included" in uncertainty(told_of)
    assert not [moment.key for moment in told_of.moments if moment.verdict == "outside"]
    alar = next(gate for gate in told_of.gates if gate.gate.name == "ALAR, visual conditions")
    assert [item.verdict for item in alar.items] == ["not judged", "within", "not judged"]


def test_never_established_reported():
    far = rewritten("normal", lambda lines: [
        ",".join([line.split(",")[0], f"{float(line.split(',')[1]) + 0.008:.6f}", *line.split(",")[2:]])
        for line in lines])
    assert by_key(far)["established"].what.startswith("Never established")
    assert by_key(far)["PFAF"].verdict == "outside"


@pytest.mark.parametrize("name", ["normal", "go-around-at-da"])
def test_json_contains_everything(name):
    debrief = debrief_of(name)
    data = json.loads(as_json(debrief))
    assert len(data["points"]) == len(debrief.flown.points)
    assert [moment["what"] for moment in data["moments"]] == [moment.what for moment in debrief.moments]
    assert [gate["verdict"] for gate in data["gates"]] == [gate.verdict for gate in debrief.gates]
    assert [row["item"] for moment in data["moments"] for row in moment["compared"]] == [
        row.item for moment in debrief.moments for row in moment.compared]
    assert data["minimum_ft"] == 224.0


def test_recording_text():
    debrief = debrief_of("normal")
    assert uncertainty(debrief).startswith(
        "Altitudes above the ellipsoid, by GNSS: uncertain by 43\u202fft (1.7\u202fdots of the glidepath) at the "
        "minimum, positions by 26\u202fft. Noise of single samples 0.")
    assert uncertainty(debrief).endswith(" The scale of the glidepath is from memory.")
    assert not_recorded_items(debrief).split(", ")[:2] == ["airspeed", "landing configuration"]
    remark = Remark("gap", "2 samples.", (4, 7))
    assert remark_text(remark) == "2 samples. Lines 4, 7."
    assert remark_text(changed(remark, lines=())) == "2 samples."

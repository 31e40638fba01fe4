"""A whole procedure recorded from the initial fix, as CSV and as GPX: what is said of its legs before the FAF."""

import math

import pytest

from flight_files import files, flown
from lpv.simulate.report import place
from lpv.track import command as track
from lpv.track import files as track_files
from lpv.track.records import Conditions
from track_flights import JET, Drawn, go_around_from, verdicts

STORY, WHERE, _ = files("whole-procedure")
NONE = lambda _: 0.0  # noqa: E731


def positions(right_nm=NONE, lower_ft=NONE):
    """(time, latitude, longitude, true altitude in ft) of the flight, moved right of the base leg and lowered."""
    places = []
    for sample in flown("whole-procedure").samples:
        at = place(sample, WHERE)
        # The base leg comes from the left of the final course, so its right is away from the threshold.
        ahead = math.radians(WHERE.true_course_deg + 180.0)
        north = at.latitude_deg + right_nm(sample) * math.cos(ahead) / 60.0
        east = at.longitude_deg + right_nm(sample) * math.sin(ahead) / 60.0 / math.cos(math.radians(at.latitude_deg))
        places.append((sample.time_s, north, east, sample.altitude_ft - lower_ft(sample)))
    return places


def csv(rows):
    lines = [f"{time_s:.1f},{north:.6f},{east:.6f},{feet:.1f}" for time_s, north, east, feet in rows]
    return "time_s,latitude_deg,longitude_deg,altitude_msl_ft\n" + "\n".join(lines) + "\n"


def gpx(rows):
    points = "".join(
        f'<trkpt lat="{north:.6f}" lon="{east:.6f}"><ele>{feet * 0.3048:.2f}</ele>'
        f"<time>2026-01-01T10:{int(time_s // 60):02d}:{time_s % 60:06.3f}Z</time></trkpt>"
        for time_s, north, east, feet in rows)
    return f'<?xml version="1.0"?><gpx version="1.1"><trk><trkseg>{points}</trkseg></trk></gpx>'


def debrief(text, name="flown.csv", altitude="", **given):
    read = track_files.read_bytes(text.encode(), name, altitude) if altitude else (
        track_files.read_bytes(text.encode(), name))
    return track.analyse(read, WHERE, JET, Conditions(15.0, **given))


def legs(debriefed):
    return {moment.what.partition(":")[0]: {row.item: row for row in moment.compared}
            for moment in debriefed.moments if moment.key == "leg"}


def base(sample):
    return sample.across_ft < -1.5 * 6076.0 and sample.time_s < 150.0


def test_legs_reported_within_in_both_formats():
    for debriefed in (debrief(csv(positions())), debrief(gpx(positions()), "flown.gpx", "msl")):
        told = legs(debriefed)
        assert list(told) == ["Leg BRYNA to SWELO", "Leg SWELO to GULLY"]
        for rows in told.values():
            assert [row.verdict for row in rows.values()] == ["within", "within"]
            assert abs(rows["off the leg"].value) < 0.05
        assert told["Leg BRYNA to SWELO"]["lowest on the leg"].value == pytest.approx(2860, abs=60)
        keys = {moment.key for moment in debriefed.moments}
        assert keys >= {"fix", "leg", "missed course", "gradient", "missed altitude"}


@pytest.mark.parametrize(("right_nm", "verdict"), [
    (0.4, "within"), (-0.45, "within"), (0.7, "outside"), (-0.7, "outside")])
def test_beside_leg(right_nm, verdict):
    """Farthest in the middle of the leg of 6 NM, and back on it at its ends."""
    def moved_nm(sample):
        along_nm = min(6.0, max(0.0, 6.0 + sample.across_ft / 6076.1)) if sample.time_s < 150.0 else 6.0
        return right_nm * math.sin(math.pi * along_nm / 6.0) ** 2

    row = legs(debrief(csv(positions(moved_nm))))["Leg BRYNA to SWELO"]["off the leg"]
    assert row.value == pytest.approx(right_nm, abs=0.05)
    assert row.verdict == verdict


@pytest.mark.parametrize(("lower_ft", "verdict"), [(300.0, "within"), (600.0, "too close to say"), (900.0, "outside")])
def test_below_leg_altitude(lower_ft, verdict):
    """3000 ft flown, 2500 at SWELO less the tolerance of 100: 2700 is within, 2400 is the limit, 2100 is not."""
    row = legs(debrief(csv(positions(lower_ft=lambda sample: lower_ft if base(sample) else 0.0))))
    assert row["Leg BRYNA to SWELO"]["lowest on the leg"].verdict == verdict


def test_legs_omitted_on_vectors_and_without_fix():
    assert legs(debrief(csv(positions()), joined="vectors")) == {}
    late = [row for row in positions() if row[0] > 60.0]
    assert list(legs(debrief(csv(late)))) == ["Leg SWELO to GULLY"]


@pytest.mark.parametrize(("top_ft", "verdict"), [
    (2500.0, "outside"), (2905.0, "too close to say"), (3000.0, "within"), (3095.0, "too close to say"),
    (3400.0, "outside"),
])
def test_missed_approach_altitude_in_both_directions(top_ft, verdict):
    *up, (at_nm, _), _ = go_around_from(220.0)
    flight = Drawn((*up, (at_nm, top_ft), (at_nm - 2.0, top_ft)))
    assert verdicts(flight.debrief())["missed altitude"] == verdict


def test_climb_leaving_recording_not_judged():
    *up, (at_nm, _), _ = go_around_from(220.0)
    result = Drawn((*up, (at_nm, 2500.0))).debrief()
    assert verdicts(result)["missed altitude"] == "not judged"
    assert "ends in the climb" in next(moment.what for moment in result.moments if moment.key == "missed altitude")

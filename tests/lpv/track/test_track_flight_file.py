"""Files of recorded flights: what stands in them, and what may not."""

import pytest

from demo import flights as make_flights
from lpv.core.errors import DataError
from lpv.track import flight_file as track_file
from lpv.track.records import Conditions

GOOD = (make_flights.FOLDER / "patchy.toml").read_text("utf-8")


def faults(tmp_path, *pairs):
    text = GOOD
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    (tmp_path / "flight.toml").write_text(text, "utf-8")
    with pytest.raises(DataError) as caught:
        track_file.read(tmp_path / "flight.toml")
    return [fault.key for fault in caught.value.faults]


def test_demo_files():
    files = {path.stem: track_file.read(path) for path in make_flights.FOLDER.glob("*.toml")}
    assert set(files) == {"stable", "late", "cold", "patchy"}
    assert all(file.flight.invented for file in files.values())
    assert vars(files["cold"].conditions) == vars(Conditions(-30.0, 1002.0, receiver="SBAS"))
    assert files["late"].conditions.joined == "vectors"
    assert {file.flight.recording for file in files.values()} == set(make_flights.flights())


def test_gpx_states_altitude_reference_csv_does_not(tmp_path):
    assert faults(tmp_path, ('altitude = "msl"\n', "")) == ["flight.altitude"]
    assert faults(tmp_path, ("patchy.gpx", "patchy.csv")) == ["flight.altitude"]


def test_recording_in_same_folder(tmp_path):
    for name in ("../secret.gpx", "/etc/passwd", "a.doc", "A.gpx", "a.gpx.gz"):
        assert faults(tmp_path, ("patchy.gpx", name)) == ["flight.recording"]


def test_all_faults_reported_together(tmp_path):
    keys = faults(tmp_path, ('joined = "procedure"', 'joined = "somehow"'), ("temperature_c = 8", "temperature_c = 99"),
                  ('approach = "zzeg-rnp-24"\n', ""), ("invented = true", "crew = 'A. Person'"))
    assert set(keys) == {"flight.joined", "flight.temperature_c", "flight.approach", "flight.crew"}

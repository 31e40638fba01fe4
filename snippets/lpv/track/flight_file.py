"""Recorded flights for pages: one TOML file each, beside the recording, read strictly.

    [flight]
    name = "Stable, landed"
    about = "What is to be learned from it."
    recording = "stable.csv"       # or .gpx, in the same folder
    altitude = "msl"               # GPX only: what its altitudes count from
    approach = "zzak-rnav-09"      # names of files of docs/approaches/ and docs/aircraft/
    aircraft = "large-jet"
    joined = "procedure"
    temperature_c = 12

The recording stays as it was exported.  No name of a person and no date belongs in here: pages tell times from
the first sample on.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from lpv.approach.schema import FaultRow
from lpv.files import named_file, schema
from lpv.track.records import JOINED, RECEIVERS, REFERENCES, Conditions
from lpv.track.tables import OURS
from lpv.track.target import LEVEL_NAMES


@dataclass(frozen=True, kw_only=True)
class About:
    """What was flown, and what the recording cannot say by itself."""

    name: str = schema.text("what the flight shows, in a few words")
    about: str = schema.text("what is to be learned from it, in one or two sentences", longest=400)
    recording: str = schema.text("file of the recording, in the same folder",
                                 pattern=named_file.SLUG + r"\.(csv|txt|tsv|json|gpx|kml|igc)", example="stable.csv")
    altitude: str | None = schema.choice(
        "what the altitudes of a GPX or KML file count from", REFERENCES, required=False)
    columns: tuple[str, ...] = schema.texts(
        "columns of a table with other names, each as NAME=column, NAME as latitude_deg")
    approach: str = schema.text("name of the approach file, without its ending", pattern=named_file.SLUG,
                                example="zzak-rnav-09")
    aircraft: str | None = schema.text("name of the aircraft file, without its ending", pattern=named_file.SLUG,
                                       example="light-jet", required=False)
    invented: bool = schema.flag("whether the flight is made up")
    joined: str = schema.choice("how the approach was joined, which decides the course scale", JOINED)
    temperature_c: float | None = schema.number("temperature at the airport", "deg C", -60, 50, required=False)
    qnh_hpa: float | None = schema.number("altimeter setting, for pressure altitudes", "hPa", 850, 1100, required=False)
    minimum_ft: float | None = schema.number(
        "decision altitude used, if not the chart's and the operator's", "ft", -1500, 20000, required=False)
    level: str | None = schema.choice(
        "level flown, if not the best of the approach", LEVEL_NAMES, required=False)
    receiver: str | None = schema.choice(
        "what computed the positions; GNSS, which is without SBAS, unless given", RECEIVERS, required=False)
    limit_dots: float | None = schema.number("your own limit of deviations", "dots", 0.1, 2, required=False)
    limit_fpm: float | None = schema.number("your own limit of descent", "ft/min", 300, 3000, required=False)
    number: int | None = schema.whole("which approach of the recording, if not the last", "", 1, 99, required=False)

    def faults(self) -> Iterator[FaultRow]:
        """What the altitudes count from is said for GPX and KML, and only there; columns have names that there are."""
        track = self.recording.endswith((".gpx", ".kml"))
        if track != (self.altitude is not None):
            yield ("altitude", "nothing" if track else f'"{self.altitude}"',
                   ", ".join(REFERENCES) if track else "nothing: the file says it", "Add it, or remove it.")
        for row in self.columns:
            if row.partition("=")[0] not in OURS or not row.partition("=")[2]:
                yield "columns", f'"{row}"', "NAME=column, NAME one of " + ", ".join(OURS), "Correct the row."


@dataclass(frozen=True, kw_only=True)
class FlightFile:
    """One recorded flight.  slug is the file's name."""

    flight: About = schema.table(About, "what was flown")
    slug: str = ""

    @property
    def columns(self) -> dict[str, str]:
        """The columns that were assigned: our name -> the file's."""
        return {ours: theirs for ours, _, theirs in (row.partition("=") for row in self.flight.columns)}

    @property
    def conditions(self) -> Conditions:
        """What the recording cannot say by itself, for `lpv.track.command.analyse`."""
        flight = self.flight
        return Conditions(
            flight.temperature_c, flight.qnh_hpa, flight.joined, flight.minimum_ft, flight.number,
            flight.receiver or RECEIVERS[0], flight.level or "", flight.limit_dots, flight.limit_fpm)


def read(path: Path | str) -> FlightFile:
    """The recorded flight in a file; DataError with every fault found in it.  The recording is not opened."""
    return named_file.read(Path(path), FlightFile)

"""Set-up files: what each side has set, one TOML file per drill or flight, read strictly.

    [setup]             # what both sides have in common: pilot flying, day, data cycle, weather
    flying = "left"
    ...
    [left]              # what the left side has set
    source = "SBAS"
    ...
    [right]             # and the right

Altimeter settings are in the unit named in [setup]; courses in the chart's reference.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import argparse
import datetime
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, ClassVar

from lpv.aircraft import record as aircraft_files
from lpv.aircraft.record import Aircraft
from lpv.approach import record as approach_files
from lpv.approach.record import Approach
from lpv.approach.schema import CYCLE_PATTERN, FaultRow, cycle_ident
from lpv.core.errors import DataError, DomainError, shown
from lpv.core.findings import Finding, by_severity, tally, worst
from lpv.core.text import interval, trimmed
from lpv.decide.cold import SEGMENTS
from lpv.decide.lines import LEVELS
from lpv.files import named_file, schema
from lpv.files import toml_reader as tomlfile
from lpv.files.json_form import printed
from lpv.setup import radio
from lpv.setup.checks import check
from lpv.setup.expected import expected_for
from lpv.setup.records import ALTIMETER_RANGE, KINDS, NAMES, SOURCES, UNITS, Setup, Side


def _tuned_mhz(entry: object) -> tuple[float, ...]:
    """A list of navigation channels in megahertz; DomainError for anything else."""
    rows: list[object] = entry if isinstance(entry, list) else [entry]
    return tuple(_channel_mhz(row) for row in rows)


def _channel_mhz(entry: object) -> float:
    if isinstance(entry, float | int) and not isinstance(entry, bool) and radio.kind(entry) != "neither":
        return float(entry)
    raise DomainError(f"frequency: found {shown(entry)}; allowed: a localizer or VOR channel in MHz, such as 113.4.")


@dataclass(frozen=True, kw_only=True)
class SideTable:
    """What one side has set."""

    SCHEMA_ALSO: ClassVar[tuple[dict[str, Any], ...]] = (
        {"properties": {"tuned_mhz": {"anyOf": [{"type": "number"}, {"type": "array", "items": {"type": "number"}}]}}},)

    title: str = schema.text("title of the loaded procedure", example="RNAV (GPS) RWY 09")
    channel: int = schema.whole("SBAS channel of the loaded procedure", "", 0, 99999)
    path_id: str = schema.text("its reference path identifier", pattern="[A-Z0-9]{4}", example="W09A")
    source: str = schema.choice("guidance source that is selected", SOURCES)
    tuned_mhz: tuple[float, ...] = schema.parsed("tuned navigation frequencies", _tuned_mhz, example="[113.4, 115.2]")
    course_deg: float = schema.number("course that is set", "deg", 0, 360)
    altimeter: float = schema.number("altimeter setting, in the unit of [setup]", "", 27, 1084)
    level: str = schema.choice("level of service that is annunciated", LEVELS)
    minimum_kind: str = schema.choice("kind of minimum that is set", KINDS)
    minimum_ft: float = schema.number("minimum that is set", "ft", -1500, 20000)
    missed_altitude_ft: float = schema.number("altitude that is set for the missed approach", "ft", -1500, 30000)


@dataclass(frozen=True, kw_only=True)
class Common:
    """What both sides have in common."""

    SCHEMA_ALSO: ClassVar[tuple[dict[str, Any], ...]] = (schema.both_or_neither("across_nm", "track_deg"),)

    name: str = schema.text("what the set-up is for")
    invented: bool = schema.flag("whether the set-up is made up")
    approach: str = schema.text("name of the approach file, without its ending", pattern=named_file.SLUG,
                                example="zzak-rnav-09")
    aircraft: str = schema.text("name of the aircraft file, without its ending", pattern=named_file.SLUG,
                                example="light-jet")
    flying: str = schema.choice("side of the pilot flying", NAMES)
    day: datetime.date = schema.day("day of the flight")
    cycle: str = schema.parsed("data cycle in the aircraft", cycle_ident, example='"2612"', pattern=CYCLE_PATTERN)
    altimeter_unit: str = schema.choice("unit of all altimeter settings", UNITS)
    reported_altimeter: float = schema.number("altimeter setting reported", "", 27, 1084)
    temperature_c: float | None = schema.number("temperature reported", "deg C", -50, 60, required=False)
    armed: bool = schema.flag("whether the approach is armed")
    across_nm: float | None = schema.number(
        "distance from the final course, right of it positive", "NM", -200, 200, required=False)
    track_deg: float | None = schema.number("track flown", "deg", 0, 360, required=False)
    previous_course_deg: float | None = schema.number(
        "final course of the approach set up before", "deg", 0, 360, required=False)
    speed_kt: float | None = schema.number("speed to be flown, if above VREF", "kt", 60, 250, required=False)
    remote_addition_ft: float | None = schema.number(
        "addition that the chart prints for a remote altimeter setting, if in use", "ft", 0, 2000, required=False)
    zone_not_clear: bool = schema.flag("whether the precision obstacle free zone may not be clear")
    cold_segments: tuple[str, ...] = schema.choices(
        "segments that the list of cold temperature airports marks; without it all segments are corrected", SEGMENTS)

    def faults(self) -> Iterator[FaultRow]:
        """Position and track come together."""
        if (self.across_nm is None) != (self.track_deg is None):
            yield "", "one of across_nm and track_deg", "both or neither", "Add the other, or remove it."


@dataclass(frozen=True, kw_only=True)
class SetupFile:
    """One set-up as it stands in its file.  slug is the file's name."""

    common: Common = schema.table(Common, "what both sides have in common", key="setup")
    left: SideTable = schema.table(SideTable, "what the left side has set")
    right: SideTable = schema.table(SideTable, "what the right side has set")
    slug: str = ""

    def faults(self) -> Iterator[FaultRow]:
        """Altimeter settings lie in the range of their unit."""
        low, high = ALTIMETER_RANGE[self.common.altimeter_unit]
        for key, setting in (("setup.reported_altimeter", self.common.reported_altimeter),
                             ("left.altimeter", self.left.altimeter), ("right.altimeter", self.right.altimeter)):
            if not low <= setting <= high:
                allowed = interval(low, high, self.common.altimeter_unit)
                yield key, trimmed(setting), allowed, "Correct it or the unit."

    @property
    def setup(self) -> Setup:
        """The record that `lpv.setup.checks.check` takes."""
        common = self.common
        return Setup(
            common.flying, _side("left", self.left), _side("right", self.right), common.day.toordinal(), common.cycle,
            common.altimeter_unit, common.reported_altimeter, common.temperature_c, common.armed, common.across_nm,
            common.track_deg, common.previous_course_deg, common.speed_kt, common.remote_addition_ft,
            common.zone_not_clear, common.cold_segments,
        )


def _side(name: str, table: SideTable) -> Side:
    return Side(name, tuned_mhz=list(table.tuned_mhz), **{
        key: value for key, value in vars(table).items() if key != "tuned_mhz"})


def read(path: Path | str) -> SetupFile:
    """The set-up in a file; DataError with every fault found in it."""
    return named_file.read(Path(path), SetupFile)


def read_text(text: str, name: str = "text") -> SetupFile:
    """The set-up in the text of a file; faults name the file `name`.  DataError with every fault."""
    return named_file.read_text(text, name, SetupFile)


def read_all(folder: Path | str) -> list[SetupFile]:
    """All set-ups of a folder in the order of file names; DataError with every fault of every file."""
    return tomlfile.read_folder(Path(folder), read)


def findings(setup_file: SetupFile, approach: Approach, aircraft: Aircraft | None = None) -> list[Finding]:
    """Every finding about a set-up file for an approach, flown by a type if one is given."""
    return check(setup_file.setup, expected_for(setup_file.setup, approach, aircraft))


def main(argv: list[str]) -> int:
    """Print the findings of a set-up file; 0 if none is a stop, 1 if one is, 2 for faults of files."""
    parser = argparse.ArgumentParser(
        "lpv setup", description="Check a cockpit set-up.",
        epilog="Exit code: 0 no stop; 1 a stop; 2 faulty files.")
    parser.add_argument("file", metavar="FILE", help="set-up file (TOML)")
    parser.add_argument("--approach", required=True, metavar="FILE", help="approach file (TOML)")
    parser.add_argument("--aircraft", metavar="FILE", help="aircraft file (TOML)")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    options = parser.parse_args(argv)
    try:
        rows = findings(*_read(options))
    except (DataError, DomainError) as error:
        print(error, file=sys.stderr)
        return 2
    print(printed([vars(row) for row in rows]) if options.json else _report(rows))
    return 1 if worst(rows) == "stop" else 0


def _read(options: argparse.Namespace) -> tuple[SetupFile, Approach, Aircraft | None]:
    """The three files; one DataError with the faults of all of them."""
    reading = tomlfile.Reading()
    setup_file, approach = reading.read(read, options.file), reading.read(approach_files.read, options.approach)
    aircraft = reading.read(aircraft_files.read, options.aircraft) if options.aircraft else None
    reading.check()
    assert setup_file is not None  # else there were faults
    assert approach is not None
    return setup_file, approach, aircraft


def _report(rows: list[Finding]) -> str:
    return "\n".join([tally(rows), *(_lines(row) for row in by_severity(rows))])


def _lines(row: Finding) -> str:
    sides = (("chart", row.chart), ("computed", row.computed))
    sides_text = "; ".join(f"{name} {text}" for name, text in sides if text)
    head = f"  {row.grade:14}{row.name()}: {row.what}" + (f" ({sides_text})" if sides_text else "")
    return head + (f"\n{'':16}{row.why} {row.action}" if row.action else "")

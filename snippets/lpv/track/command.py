"""A recorded flight against an approach: what the recording tells, and what it cannot tell.

    lpv track FILE --approach FILE [--aircraft FILE] [--json]

FILE is CSV, JSON, GPX, KML or IGC (`lpv.track.readers`).  Everything stays on this computer:
nothing is sent.
Exit code: 0 judged, 1 judged with remarks about the recording, 2 a file has faults or holds no such approach.
"""

import argparse
import sys
from pathlib import Path
from typing import Any

from lpv.aircraft import record as aircraft_file
from lpv.aircraft.record import Aircraft
from lpv.approach import record as approach_file
from lpv.approach.record import Approach
from lpv.core.errors import DataError, DomainError, Fault
from lpv.files import toml_reader
from lpv.files.json_form import printed
from lpv.files.outside import repeated
from lpv.track import analysis as track_analysis
from lpv.track import files as track_reader
from lpv.track import report
from lpv.track.analysis import STANDARD
from lpv.track.ending import ending
from lpv.track.flown import Debrief
from lpv.track.points import Point
from lpv.track.readers import WITHOUT_COLUMNS
from lpv.track.records import JOINED, RECEIVERS, REFERENCES, Conditions, Recording
from lpv.track.tables import OURS
from lpv.track.target import LEVEL_NAMES, Target
from lpv.track.verdicts import Comparison, JudgedGate


def as_json(debrief: Debrief) -> str:
    """Everything as JSON, samples included."""
    flown = debrief.flown
    return printed({
        "recording": debrief.recording.name, "approach": flown.target.slug, "level": flown.target.level,
        "aircraft": flown.target.aircraft.slug if flown.target.aircraft else None,
        "number": debrief.number, "count": debrief.count, "approaches": list(debrief.others),
        "ending": ending(flown), "minimum_ft": flown.minimum_ft,
        "altitude": {"geometric": debrief.recording.geometric, "barometric": debrief.recording.barometric},
        "noise": vars(flown.noise), "remarks": [vars(remark) for remark in debrief.remarks],
        "moments": [{"key": moment.key, "what": moment.what, "verdict": moment.verdict, "at": _point(moment.at),
                     "compared": [_comparison(row) for row in moment.compared]} for moment in debrief.moments],
        "gates": [_gate(gate) for gate in debrief.gates],
        "points": [_point(point) for point in flown.points],
    })


def _gate(gate: JudgedGate) -> dict[str, Any]:
    return {
        "name": gate.gate.name, "altitude_ft": gate.altitude_ft, "verdict": gate.verdict, "gap_s": gate.gap_s,
        "items": [_comparison(item) for item in gate.items], "not_recorded": list(gate.not_recorded),
    }


def _comparison(row: Comparison) -> dict[str, Any]:
    return {"item": row.item, "unit": row.unit, "value": row.value, "uncertainty": row.uncertainty, "low": row.low,
            "high": row.high, "verdict": row.verdict, "reason": row.reason}


def _point(point: Point) -> dict[str, Any]:
    return {key: round(number, 4) if isinstance(number, float) else number for key, number in vars(point).items()}


def analyse(
    recording: Recording, approach: Approach, aircraft: Aircraft | None = None, given: Conditions = STANDARD,
) -> Debrief:
    """What the recording tells of an approach.

    DataError if it holds no such approach; DomainError for pressure altitudes without a setting, and for a level or
    a type for which the approach has no minimum.
    """
    target = Target(approach, aircraft, given.level, given.joined == JOINED[1])
    return track_analysis.analyse(recording, target, given)


def main(argv: list[str]) -> int:
    """The command; returns the exit code."""
    parser = _parser()
    options = parser.parse_args(argv)
    if twice := repeated(ours for ours, _ in options.column):
        parser.error(f"--column: found {', '.join(twice)} more than once; allowed: each once")
    try:
        approach, aircraft, recording = _read(options)
        _all_used(options, recording)
        conditions = Conditions(options.temperature, options.qnh, options.joined, options.minimum, options.number,
                                options.receiver, options.level, options.limit_dots, options.limit_rate)
        debrief = analyse(recording, approach, aircraft, conditions)
    except (DataError, DomainError) as error:
        print(error, file=sys.stderr)
        return 2
    print(as_json(debrief) if options.json else report.text(debrief))
    return 1 if debrief.remarks else 0


def _read(options: argparse.Namespace) -> tuple[Approach, Aircraft | None, Recording]:
    """The three files; one DataError with the faults of all of them."""
    reading = toml_reader.Reading()
    approach = reading.read(approach_file.read, options.approach)
    aircraft = reading.read(aircraft_file.read, options.aircraft) if options.aircraft else None
    recording = reading.read(
        lambda path: track_reader.read(path, options.altitude, dict(options.column) or None), options.file)
    reading.check()
    assert approach is not None  # else there were faults
    assert recording is not None
    return approach, aircraft, recording


def _all_used(options: argparse.Namespace, recording: Recording) -> None:
    """DataError for arguments of which nothing in this recording makes use."""
    faults = []
    if options.qnh is not None and recording.barometric != "pressure":
        faults.append(Fault(recording.name, "--qnh", "no pressure altitudes", "a setting only where there are some",
                            "Leave it out."))
    if options.column and recording.name.lower().endswith(WITHOUT_COLUMNS):
        faults.append(Fault(recording.name, "--column", "no columns", "names of columns of a table", "Leave it out."))
    if faults:
        raise DataError(faults)


def _column(text: str) -> tuple[str, str]:
    """The two names of a column."""
    ours, equals, theirs = text.partition("=")
    if not equals or ours not in OURS:
        raise argparse.ArgumentTypeError(f"found {text}; allowed: NAME=column, NAME one of {', '.join(OURS)}")
    return ours, theirs


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        "lpv track", description="Debrief a recorded flight against its approach. Nothing is sent anywhere.",
        epilog="Exit code: 0 judged; 1 judged, with remarks about the recording; 2 a file has faults, or the "
        "recording holds no such approach.")
    parser.add_argument("file", type=Path, metavar="FILE", help="recording: CSV, JSON, GPX, KML or IGC")
    parser.add_argument("--approach", required=True, type=Path, metavar="FILE", help="approach file (TOML)")
    parser.add_argument("--aircraft", type=Path, metavar="FILE", help="aircraft file (TOML), for minimum and gates")
    parser.add_argument("--altitude", default="", choices=REFERENCES, help="what altitudes of GPX and KML count from")
    parser.add_argument("--column", action="append", default=[], metavar="OURS=THEIRS", type=_column,
                        help="a column of a table by its own name, as latitude_deg=Lat; once for each column")
    parser.add_argument("--temperature", type=float, metavar="C", help="at the airport, °C; else standard")
    parser.add_argument("--qnh", type=float, metavar="HPA", help="altimeter setting, for pressure altitudes")
    parser.add_argument("--joined", default=JOINED[0], choices=JOINED, help="by the procedure or on vectors")
    parser.add_argument("--minimum", type=float, metavar="FT", help="decision altitude used, if not the chart's")
    parser.add_argument("--number", type=int, metavar="N", help="which approach of the recording; else the last")
    parser.add_argument("--level", default="", choices=LEVEL_NAMES, metavar="LEVEL",
                        help=f"level flown: {', '.join(LEVEL_NAMES)}; else the best of the approach")
    parser.add_argument("--receiver", default=RECEIVERS[0], choices=RECEIVERS, help="what computed the positions")
    parser.add_argument("--limit-dots", type=float, metavar="DOTS", help="your own limit of deviations, else one dot")
    parser.add_argument("--limit-rate", type=float, metavar="FPM", help="your own limit of descent, ft/min, else 1000")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    return parser

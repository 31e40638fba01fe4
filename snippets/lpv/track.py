"""A recorded flight against an approach: what the recording tells, and what it cannot tell.

    python -m lpv.track FILE --approach FILE [--aircraft FILE] [--json]

FILE is CSV (`lpv.track_csv`) or GPX (`lpv.track_gpx`).  Everything stays on this computer: nothing is sent.
Exit code: 0 told, 1 told with remarks about the recording, 2 a file has faults or holds no such approach.
"""

import argparse
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from lpv import aircraft as aircraft_file
from lpv import approach as approach_file
from lpv import track_reader, track_text
from lpv.aircraft import Aircraft
from lpv.approach import Approach
from lpv.errors import DataError, DomainError, Fault, in_range
from lpv.facts import value
from lpv.stabilised import GATES
from lpv.track_approaches import approaches
from lpv.track_clean import clean
from lpv.track_flown import Debrief, Flown, minimum_ft
from lpv.track_gates import GateFound, judge
from lpv.track_levels import levels_of, position_uncertainty_ft
from lpv.track_moments import moments
from lpv.track_offset import doubt
from lpv.track_points import Point, places, scales_of, with_rates
from lpv.track_records import JOINED, REFERENCES, Conditions, Recording, Remark, refuse
from lpv.units import FT_PER_NM

STANDARD = Conditions()
FEWEST_DECIMALS = 5  # of a degree: two feet
Read = TypeVar("Read")


def analyse(
    recording: Recording, approach: Approach, aircraft: Aircraft | None = None, given: Conditions = STANDARD,
) -> Debrief:
    """What the recording tells of an approach.

    DataError if it holds no such approach; DomainError for an approach without a path (LP), for pressure
    altitudes without a setting, and for an aircraft to which the approach offers no LPV minimum.
    """
    levels, scales = levels_of(recording, approach, given), scales_of(approach, given.joined)
    parts, remarks = clean(recording)
    everywhere = places(parts, approach, levels, scales)
    found = approaches(everywhere, scales)
    if not found:
        raise refuse(recording.name, _nearest(everywhere), "an approach down the final course",
                     "Is it this approach, and are the positions right?")
    number = len(found) if given.number is None else int(in_range("approach number", given.number, 1, len(found)))
    first, end = found[number - 1]
    least_ft = minimum_ft(approach, aircraft) if given.minimum_ft is None else given.minimum_ft
    flown = Flown(approach, aircraft, levels, scales, tuple(with_rates(everywhere[first:end])), least_ft,
                  position_uncertainty_ft(recording), minimum_stated=given.minimum_ft is not None)
    readings = {reading.time_s: reading for part in parts for reading in part}
    doubtful = doubt(flown.coming_in, readings, levels, scales)
    if doubtful:
        flown = replace(flown, doubt_ft=doubtful.by_ft)
    gates = gates_of(flown)
    remarks = (*([doubtful.remark] if doubtful else []), *recording.remarks, *remarks,
               *_conditions(recording, given, levels.temperature_c, number, len(found)))
    return Debrief(recording, flown, remarks, tuple(moments(flown, gates)), tuple(gates), number, len(found))


def gates_of(flown: Flown) -> list[GateFound]:
    """Every gate, highest first, judged where the altimeter passed it on the way down."""
    own = flown.aircraft.operator_gates() if flown.aircraft else []
    levels, found = flown.levels, []
    for gate in sorted([*GATES, *own], key=lambda gate: -gate.height_ft):
        base_ft = levels.threshold_ft if gate.above == "threshold" else levels.airport_ft
        passed = flown.passed_altitude(base_ft + gate.height_ft)
        at = passed.at if passed else flown.lowest
        found.append(judge(gate, base_ft + gate.height_ft, passed, flown.course_uncertainty_dots(at),
                           flown.path_uncertainty_dots(at)))
    return found


def _nearest(points: list[Point]) -> str:
    """What there is instead of an approach."""
    if not points:
        return f"no sample within {value('recording_farthest_nm'):g} NM of the threshold"
    near = min(points, key=lambda one: abs(one.along_nm) + abs(one.across_ft) / FT_PER_NM)
    return f"nothing nearer than {near.along_nm:.1f} NM before and {near.across_ft / FT_PER_NM:.1f} NM right of it"


def _conditions(
    recording: Recording, given: Conditions, temperature_c: float, number: int, count: int,
) -> list[Remark]:
    """What had to be taken, and what was chosen."""
    found = []
    if given.temperature_c is None:
        found.append(Remark("temperature", f"Temperature at the airport not stated: {temperature_c:.0f} °C taken, "
                            "which is standard. Every altitude on the altimeter depends on it."))
    if recording.decimals < FEWEST_DECIMALS:
        found.append(Remark("rounded", f"Positions are given to {recording.decimals} decimals of a degree: right to "
                            f"{0.5 * 10.0 ** -recording.decimals * 60.0 * FT_PER_NM:.0f} ft only."))
    if count > 1:
        found.append(Remark("several", f"{count} approaches in the recording; this is number {number}."))
    return found


def main(argv: list[str]) -> int:
    """The command; returns the exit code."""
    options = _parser().parse_args(argv)
    try:
        approach, aircraft, recording = _read(options)
        given = Conditions(options.temperature, options.qnh, options.joined, options.minimum, options.number)
        debrief = analyse(recording, approach, aircraft, given)
    except (DataError, DomainError) as error:
        print(error, file=sys.stderr)
        return 2
    print(track_text.as_json(debrief) if options.json else track_text.told(debrief))
    return 1 if debrief.remarks else 0


def _read(options: argparse.Namespace) -> tuple[Approach, Aircraft | None, Recording]:
    """The three files; one DataError with the faults of all of them."""
    faults: list[Fault] = []

    def read(how: Callable[[], Read]) -> Read | None:
        try:
            return how()
        except DataError as error:
            faults.extend(error.faults)
            return None

    approach = read(lambda: approach_file.read(options.approach))
    aircraft = read(lambda: aircraft_file.read(options.aircraft)) if options.aircraft else None
    recording = read(lambda: track_reader.read(options.file, options.altitude))
    if faults or approach is None or recording is None:
        raise DataError(faults)
    return approach, aircraft, recording


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        "python -m lpv.track", description="A recorded flight against an approach. Nothing is sent anywhere.")
    parser.add_argument("file", type=Path, metavar="FILE", help="recording, CSV or GPX")
    parser.add_argument("--approach", required=True, type=Path, metavar="FILE", help="approach file (TOML)")
    parser.add_argument("--aircraft", type=Path, metavar="FILE", help="aircraft file (TOML), for minimum and gates")
    parser.add_argument("--altitude", default="", choices=REFERENCES, help="what the altitudes of a GPX count from")
    parser.add_argument("--temperature", type=float, metavar="C", help="at the airport, °C; else standard")
    parser.add_argument("--qnh", type=float, metavar="HPA", help="altimeter setting, for pressure altitudes")
    parser.add_argument("--joined", default=JOINED[0], choices=JOINED, help="by the procedure or on vectors")
    parser.add_argument("--minimum", type=float, metavar="FT", help="decision altitude used, if not the chart's")
    parser.add_argument("--number", type=int, metavar="N", help="which approach of the recording; else the last")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    return parser


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

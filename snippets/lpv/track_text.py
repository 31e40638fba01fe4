"""A debrief as text for a terminal and as JSON; times count from the approach's first sample."""

import dataclasses
import json
from typing import Any

from lpv.track_flown import Debrief, Moment
from lpv.track_gates import GateFound
from lpv.track_moments import ending
from lpv.track_points import Point
from lpv.track_records import IN_WORDS, Remark
from lpv.track_words import feet

MARKS = {True: "+", False: "!", None: " "}


def told(debrief: Debrief) -> str:
    """Everything in words, line by line."""
    lines = [_head(debrief), "", "About the recording:", f"  {uncertainty(debrief)}"]
    lines += [f"  {remark_text(remark)}" for remark in debrief.remarks]
    lines += ["", "Moments (time, NM to the threshold, altimeter):"]
    lines += [_line(moment, debrief.flown.points[0].time_s) for moment in debrief.moments]
    lines += ["", "Gates, in what a recording tells:"]
    lines += [line for gate in debrief.gates for line in _gate_lines(gate)]
    return "\n".join(lines)


def uncertainty(debrief: Debrief) -> str:
    """One sentence: where the altitudes come from, and how far they may be off at the minimum."""
    flown = debrief.flown
    at = flown.minimum.at if flown.minimum else flown.lowest
    source = " and ".join(IN_WORDS[key] for key in (debrief.recording.geometric, debrief.recording.barometric) if key)
    return (
        f"Altitudes {source}: uncertain by {feet(flown.path_uncertainty_ft(at))} "
        f"({flown.path_uncertainty_dots(at):.1f} dots of the path) at the {'minimum' if flown.minimum else 'lowest'}, "
        f"{'doubt included, ' if flown.doubt_ft else ''}positions by {feet(flown.position_ft)}."
    )


def remark_text(remark: Remark) -> str:
    """A remark with the lines of the file that it is about."""
    if not remark.lines:
        return remark.what
    lines = ", ".join(str(line) for line in remark.lines)
    return f"{remark.what} Line{'s' if len(remark.lines) > 1 else ''} {lines}."


def clock(seconds: float) -> str:
    """A time since the first sample, m:ss."""
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02d}"


def not_told(debrief: Debrief) -> str:
    """What the gates limit and a recording does not tell."""
    names = dict.fromkeys(name for gate in debrief.gates for name in gate.not_told)
    return ", ".join(names)


def _head(debrief: Debrief) -> str:
    who = debrief.flown.approach.identity
    number = f", approach {debrief.number} of {debrief.count}" if debrief.count > 1 else ""
    return f"{debrief.recording.name}: {who.airport} {who.title}{number}. {ending(debrief.flown)}"


def _line(moment: Moment, from_s: float) -> str:
    at = moment.at
    height = "" if at.indicated_ft is None else feet(at.indicated_ft)
    return (f"{MARKS[moment.good]} {clock(at.time_s - from_s):>6} {at.along_nm:6.1f} {height:>8}  {moment.what}")


def _gate_lines(found: GateFound) -> list[str]:
    head = f"  {found.gate.name}, {feet(found.altitude_ft)}: {found.verdict or 'not judged'}"
    return [head] + [f"    {item.item}: {item.found} ({item.limit}): {item.verdict}" for item in found.items] + (
        [f"    not told by a recording: {', '.join(found.not_told)}"] if found.not_told else [])


def as_json(debrief: Debrief) -> str:
    """Everything as JSON, samples included."""
    flown = debrief.flown
    return json.dumps({
        "recording": debrief.recording.name, "approach": flown.approach.slug,
        "aircraft": flown.aircraft.slug if flown.aircraft else None,
        "number": debrief.number, "count": debrief.count, "ending": ending(flown), "minimum_ft": flown.minimum_ft,
        "altitude": {"geometric": debrief.recording.geometric, "barometric": debrief.recording.barometric},
        "remarks": [dataclasses.asdict(remark) for remark in debrief.remarks],
        "moments": [{"key": one.key, "what": one.what, "good": one.good, "at": _point(one.at)}
                    for one in debrief.moments],
        "gates": [_gate(gate) for gate in debrief.gates],
        "points": [_point(point) for point in flown.points],
    }, indent=1, ensure_ascii=False)


def _gate(found: GateFound) -> dict[str, Any]:
    return {
        "name": found.gate.name, "altitude_ft": found.altitude_ft, "verdict": found.verdict, "gap_s": found.gap_s,
        "items": [dataclasses.asdict(item) for item in found.items], "not_told": list(found.not_told),
    }


def _point(point: Point) -> dict[str, Any]:
    return {
        key: round(number, 4) if isinstance(number, float) else number
        for key, number in dataclasses.asdict(point).items()
    }

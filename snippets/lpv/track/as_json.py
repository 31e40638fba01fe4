"""A debrief as JSON, samples included."""

import json
from typing import Any

from lpv.track.flown import Debrief
from lpv.track.gates import GateFound
from lpv.track.moments import ending
from lpv.track.points import Point


def as_json(debrief: Debrief) -> str:
    """Everything as JSON."""
    flown = debrief.flown
    return json.dumps({
        "recording": debrief.recording.name, "approach": flown.approach.slug,
        "aircraft": flown.aircraft.slug if flown.aircraft else None,
        "number": debrief.number, "count": debrief.count, "ending": ending(flown), "minimum_ft": flown.minimum_ft,
        "altitude": {"geometric": debrief.recording.geometric, "barometric": debrief.recording.barometric},
        "remarks": [vars(remark) for remark in debrief.remarks],
        "moments": [{"key": one.key, "what": one.what, "good": one.good, "at": _point(one.at)}
                    for one in debrief.moments],
        "gates": [_gate(gate) for gate in debrief.gates],
        "points": [_point(point) for point in flown.points],
    }, indent=1, ensure_ascii=False)


def _gate(found: GateFound) -> dict[str, Any]:
    return {
        "name": found.gate.name, "altitude_ft": found.altitude_ft, "verdict": found.verdict, "gap_s": found.gap_s,
        "items": [vars(item) for item in found.items], "not_told": list(found.not_told),
    }


def _point(point: Point) -> dict[str, Any]:
    return {key: round(number, 4) if isinstance(number, float) else number for key, number in vars(point).items()}

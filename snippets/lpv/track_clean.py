"""Samples of a recorded flight put in order: what cannot be true is left out, and said; nothing is filled in.

What is left has rising times.  It is cut into parts where time is missing or a position jumps: nothing is drawn,
averaged or told across a cut.
"""

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from itertools import pairwise

from lpv.facts import value
from lpv.track_records import Reading, Recording, Remark
from lpv.units import FT_PER_NM

GAP_S = value("recording_gap_s")
JUMP_FT = value("recording_jump_ft")
JUMP_FPS = value("recording_jump_kt") * FT_PER_NM / 3600.0
JUMP_CLIMB_FPS = value("recording_jump_fpm") / 60.0
MOST_JUMPED = int(value("recording_jump_most_rows"))
MOST_PARTS_APART = 20  # between two parts that may still belong together
MOST_LINES = 10
FT_PER_DEG = 60.0 * FT_PER_NM

Part = tuple[Reading, ...]


def clean(recording: Recording) -> tuple[tuple[Part, ...], tuple[Remark, ...]]:
    """The parts of a recording in order of time, each without a gap or a jump, and what was left out or cut and why."""
    remarks: list[Remark] = []
    ordered = _in_order(recording.readings, remarks)
    parts = _without_jumps(_cut(ordered, jumps), remarks)
    found = [piece for part in parts for piece in _cut(part, _gap)]
    _tell_gaps(found, remarks)
    missing = [r.line for r in ordered if r.geometric_ft is None and r.barometric_ft is None]
    _tell(remarks, "no-altitude", missing, "without an altitude: only their position is used")
    return tuple(tuple(part) for part in found), tuple(remarks)


def _in_order(readings: Sequence[Reading], remarks: list[Remark]) -> list[Reading]:
    """The longest row of samples whose times rise; of equal times the first."""
    kept = longest_rising([reading.time_s for reading in readings])
    rest = [reading for place, reading in enumerate(readings) if place not in kept]
    times = {readings[place].time_s for place in kept}
    same = [r.line for r in rest if r.time_s in times]
    _tell(remarks, "duplicate", same, "at a time that another sample has: left out")
    _tell(remarks, "backwards", [r.line for r in rest if r.time_s not in times], "out of the order of time: left out")
    return [reading for place, reading in enumerate(readings) if place in kept]


def longest_rising(values: Sequence[float]) -> set[int]:
    """The places of the longest strictly rising row that is left when other values are taken out.

    Of equal values the first is kept.  So one wrong clock reading is left out, however far it goes.
    """
    lows: list[float] = []  # the least end of a rising row of each length
    ends: list[int] = []
    before: list[int] = []
    for place, found in enumerate(values):
        length = bisect_left(lows, found)
        before.append(ends[length - 1] if length else -1)
        if length == len(lows):
            lows.append(found)
            ends.append(place)
        elif lows[length] != found:
            lows[length], ends[length] = found, place
    kept: set[int] = set()
    place = ends[-1] if ends else -1
    while place >= 0:
        kept.add(place)
        place = before[place]
    return kept


def jumps(first: Reading, second: Reading) -> bool:
    """Whether an aircraft cannot have come from the first sample to the second in their time."""
    seconds = second.time_s - first.time_s
    if distance_ft(first, second) > JUMP_FT + JUMP_FPS * seconds:
        return True
    return any(
        before is not None and after is not None and abs(after - before) > JUMP_FT + JUMP_CLIMB_FPS * seconds
        for before, after in (
            (first.geometric_ft, second.geometric_ft), (first.barometric_ft, second.barometric_ft))
    )


def distance_ft(first: Reading, second: Reading) -> float:
    """Distance between two samples, good to one per cent: a minute of latitude taken as a nautical mile."""
    north = second.latitude_deg - first.latitude_deg
    east = math.remainder(second.longitude_deg - first.longitude_deg, 360.0)
    middle = math.radians((first.latitude_deg + second.latitude_deg) / 2.0)
    return FT_PER_DEG * math.sqrt(north**2 + (east * math.cos(middle)) ** 2)


def _gap(first: Reading, second: Reading) -> bool:
    return second.begins or second.time_s - first.time_s > GAP_S


def _cut(readings: Sequence[Reading], separate: Callable[[Reading, Reading], bool]) -> list[list[Reading]]:
    """The samples cut wherever two that follow each other are separate."""
    parts = [[reading] for reading in readings[:1]]
    for before, after in pairwise(readings):
        if separate(before, after):
            parts.append([])
        parts[-1].append(after)
    return parts


def _without_jumps(parts: list[list[Reading]], remarks: list[Remark]) -> list[list[Reading]]:
    """The parts between jumps, joined where nothing jumps once short ones that stand apart are left out."""
    chain = _longest_chain(parts)
    kept = [part for place, part in enumerate(parts) if place in chain or len(part) > MOST_JUMPED]
    wrong = [one.line for place, part in enumerate(parts) if place not in chain and len(part) <= MOST_JUMPED
             for one in part]
    _tell(remarks, "jump", wrong, "far away from the others: left out")
    joined = kept[:1]
    for part in kept[1:]:
        if jumps(joined[-1][-1], part[0]):
            _tell(remarks, "jump", [part[0].line], "after a jump: nothing is told across it")
            joined.append(part)
        else:
            joined[-1] = joined[-1] + part
    return joined


def _longest_chain(parts: list[list[Reading]]) -> set[int]:
    """Places of the parts that follow each other without a jump and hold the most samples together."""
    counts: list[int] = []
    before: list[int] = []
    for place, part in enumerate(parts):
        links = [-1, *(earlier for earlier in range(max(0, place - MOST_PARTS_APART), place)
                       if not jumps(parts[earlier][-1], part[0]))]
        best = max(links, key=lambda earlier: counts[earlier] if earlier >= 0 else 0)
        before.append(best)
        counts.append(len(part) + (counts[best] if best >= 0 else 0))
    chain: set[int] = set()
    place = counts.index(max(counts))
    while place >= 0:
        chain.add(place)
        place = before[place]
    return chain


def _tell_gaps(parts: list[list[Reading]], remarks: list[Remark]) -> None:
    gaps = [(before[-1], after[0]) for before, after in pairwise(parts) if _gap(before[-1], after[0])]
    if gaps:
        longest_s = max(after.time_s - before.time_s for before, after in gaps)
        _tell(remarks, "gap", [after.line for _, after in gaps],
              f"after a gap: nothing is told across it. The longest takes {longest_s:.0f} s")


def _tell(remarks: list[Remark], key: str, lines: list[int], what: str) -> None:
    """A remark about these lines, if there are any."""
    if lines:
        count = "1 sample" if len(lines) == 1 else f"{len(lines)} samples"
        remarks.append(Remark(key, f"{count} {what}.", tuple(lines[:MOST_LINES])))

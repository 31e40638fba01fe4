"""Samples of a recorded flight put in order: what cannot be true is left out, with a remark; nothing is filled in.

What is left has rising times.  It is cut into parts where time is missing or a position jumps: nothing is drawn,
averaged or judged across a cut.
"""

import math

from lpv.core.text import quantity
from lpv.core.units import FPS_PER_KT, FT_PER_NM, degrees_180
from lpv.facts import value
from lpv.track.noise import median
from lpv.track.records import Reading, Recording, Remark

GAP_S = value("recording_gap_s")
LONGEST_GAP_S = value("recording_gap_most_s")
GAP_INTERVALS = value("recording_gap_intervals")
JUMP_FT = value("recording_jump_ft")
JUMP_FPS = value("recording_jump_kt") * FPS_PER_KT
JUMP_CLIMB_FPS = value("recording_jump_fpm") / 60.0
MAX_JUMPED = int(value("recording_jump_most_rows"))
MAX_PARTS_APART = 20  # between two parts that may still belong together
MAX_LINES = 10
FT_PER_DEG = 60.0 * FT_PER_NM


def clean(recording: Recording) -> "tuple[tuple[tuple[Reading, ...], ...], tuple[Remark, ...]]":
    """The parts of a recording in order of time, each without a gap or a jump, and what was left out or cut and why."""
    remarks: list[Remark] = []
    ordered = _in_order(recording.readings, remarks)
    apart = [place > 0 and jumps(ordered[place - 1], reading) for place, reading in enumerate(ordered)]
    parts = _without_jumps(_cut(ordered, apart), remarks)
    cleaned: list[list[Reading]] = []
    gap_s = gap_of(ordered)
    for part in parts:
        cleaned.extend(_cut(part, [
            place > 0 and _gap(part[place - 1], reading, gap_s) for place, reading in enumerate(part)]))
    _remark_gaps(cleaned, remarks, gap_s)
    missing = [r.line for r in ordered if r.geometric_ft is None and r.barometric_ft is None]
    _remark(remarks, "no-altitude", missing, "without an altitude: only their position is used")
    return tuple([tuple(part) for part in cleaned]), tuple(remarks)


def _in_order(readings: "tuple[Reading, ...]", remarks: "list[Remark]") -> "list[Reading]":
    """The longest row of samples whose times rise; of equal times the first."""
    kept = longest_rising([reading.time_s for reading in readings])
    left = [reading for place, reading in enumerate(readings) if place not in kept]
    times = {readings[place].time_s for place in kept}
    same = [r.line for r in left if r.time_s in times]
    _remark(remarks, "duplicate", same, "at a time that another sample has: left out")
    _remark(remarks, "backwards", [r.line for r in left if r.time_s not in times], "out of the order of time: left out")
    return [reading for place, reading in enumerate(readings) if place in kept]


def longest_rising(values: "list[float]") -> "set[int]":
    """The places of the longest strictly rising row that is left when other values are taken out.

    Of equal values the first is kept.  So one wrong clock reading is left out, however far it goes.
    """
    lows: list[float] = []  # the least end of a rising row of each length
    ends: list[int] = []
    before: list[int] = []
    for place, reading in enumerate(values):
        length = _place_of(lows, reading)
        before.append(ends[length - 1] if length else -1)
        if length == len(lows):
            lows.append(reading)
            ends.append(place)
        elif lows[length] != reading:
            lows[length], ends[length] = reading, place
    kept: set[int] = set()
    place = ends[-1] if ends else -1
    while place >= 0:
        kept.add(place)
        place = before[place]
    return kept


def _place_of(lows: "list[float]", reading: float) -> int:
    """How many of the rising values lie under this one."""
    low, high = 0, len(lows)
    if high and lows[-1] < reading:
        return high
    while low < high:
        middle = (low + high) // 2
        low, high = (middle + 1, high) if lows[middle] < reading else (low, middle)
    return low


def jumps(first: Reading, second: Reading) -> bool:
    """Whether an aircraft cannot have come from the first sample to the second in their time."""
    seconds = second.time_s - first.time_s
    allowed_ft = JUMP_FT + JUMP_FPS * seconds
    # The way north and then east is never shorter, and soon worked out.
    longest_ft = FT_PER_DEG * (abs(second.latitude_deg - first.latitude_deg)
                               + abs(second.longitude_deg - first.longitude_deg))
    if longest_ft > allowed_ft and distance_ft(first, second) > allowed_ft:
        return True
    most_ft = JUMP_FT + JUMP_CLIMB_FPS * seconds
    return _apart(first.geometric_ft, second.geometric_ft, most_ft) or _apart(
        first.barometric_ft, second.barometric_ft, most_ft)


def _apart(before: "float | None", after: "float | None", most_ft: float) -> bool:
    return before is not None and after is not None and abs(after - before) > most_ft


def distance_ft(first: Reading, second: Reading) -> float:
    """Distance between two samples, good to one per cent: a minute of latitude taken as a nautical mile."""
    north = second.latitude_deg - first.latitude_deg
    east = degrees_180(second.longitude_deg - first.longitude_deg)
    middle = math.radians((first.latitude_deg + second.latitude_deg) / 2.0)
    return FT_PER_DEG * math.sqrt(north**2 + (east * math.cos(middle)) ** 2)


def gap_of(readings: "list[Reading]") -> float:
    """The time between two samples that is a gap: longer in a recording that has few."""
    usual_s = median([readings[place].time_s - readings[place - 1].time_s for place in range(1, len(readings))])
    return max(GAP_S, min(LONGEST_GAP_S, GAP_INTERVALS * usual_s))


def _gap(first: Reading, second: Reading, gap_s: float) -> bool:
    return second.begins or second.time_s - first.time_s > gap_s


def _cut(readings: "list[Reading]", where: "list[bool]") -> "list[list[Reading]]":
    """The samples cut before each that has a mark."""
    parts: list[list[Reading]] = []
    for place, reading in enumerate(readings):
        if where[place] or not parts:
            parts.append([])
        parts[-1].append(reading)
    return parts


def _without_jumps(parts: "list[list[Reading]]", remarks: "list[Remark]") -> "list[list[Reading]]":
    """The parts between jumps, joined where nothing jumps once short ones that stand apart are left out."""
    chain = _longest_chain(parts)
    kept = [part for place, part in enumerate(parts) if place in chain or len(part) > MAX_JUMPED]
    wrong = [reading.line for place, part in enumerate(parts) if place not in chain and len(part) <= MAX_JUMPED
             for reading in part]
    _remark(remarks, "jump", wrong, "far away from the others: left out")
    joined = kept[:1]
    for part in kept[1:]:
        if jumps(joined[-1][-1], part[0]):
            _remark(remarks, "jump", [part[0].line], "after a jump: nothing is derived across it")
            joined.append(part)
        else:
            joined[-1] = joined[-1] + part
    return joined


def _longest_chain(parts: "list[list[Reading]]") -> "set[int]":
    """Places of the parts that follow each other without a jump and hold the most samples together."""
    counts: list[int] = []
    before: list[int] = []
    for place, part in enumerate(parts):
        best = -1
        for earlier in range(max(0, place - MAX_PARTS_APART), place):
            if not jumps(parts[earlier][-1], part[0]) and counts[earlier] > (counts[best] if best >= 0 else 0):
                best = earlier
        before.append(best)
        counts.append(len(part) + (counts[best] if best >= 0 else 0))
    chain: set[int] = set()
    place = counts.index(max(counts))
    while place >= 0:
        chain.add(place)
        place = before[place]
    return chain


def _remark_gaps(parts: "list[list[Reading]]", remarks: "list[Remark]", gap_s: float) -> None:
    gaps = [(parts[place - 1][-1], part[0]) for place, part in enumerate(parts)
            if place and _gap(parts[place - 1][-1], part[0], gap_s)]
    if gaps:
        longest_s = max([after.time_s - before.time_s for before, after in gaps])
        _remark(remarks, "gap", [after.line for _, after in gaps],
              f"after a gap: nothing is derived across it. The longest takes {quantity(longest_s, 's')}")


def _remark(remarks: "list[Remark]", key: str, lines: "list[int]", what: str) -> None:
    """A remark about these lines, if there are any."""
    if lines:
        count = "1 sample" if len(lines) == 1 else f"{len(lines)} samples"
        remarks.append(Remark(key, f"{count} {what}.", tuple(lines[:MAX_LINES])))

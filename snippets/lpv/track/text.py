"""A debrief as text for a terminal; times count from the approach's first sample."""

from lpv.track.flown import Debrief, Moment
from lpv.track.gates import GateFound
from lpv.track.moments import ending
from lpv.track.records import IN_WORDS, Remark
from lpv.track.words import feet, in_dots, tenths, whole

MARKS = {True: "+", False: "!", None: " "}


def told(debrief: Debrief) -> str:
    """Everything in words, line by line."""
    lines = [_head(debrief), "", "About the recording:", f"  {uncertainty(debrief)}"]
    lines += [f"  {remark_text(remark)}" for remark in debrief.remarks]
    lines += ["", "Moments (time, NM to the threshold, altimeter):"]
    lines += [_line(moment, debrief.flown.points[0].time_s) for moment in debrief.moments]
    lines += ["", "Gates, in what a recording tells:"]
    for gate in debrief.gates:
        lines += _gate_lines(gate)
    return "\n".join(lines)


def uncertainty(debrief: Debrief) -> str:
    """One sentence: where the altitudes come from, and how far they may be off at the minimum."""
    flown = debrief.flown
    at = flown.minimum.at if flown.minimum else flown.lowest
    kinds = [key for key in (debrief.recording.geometric, debrief.recording.barometric) if key]
    return (
        f"Altitudes {' and '.join([IN_WORDS[key] for key in kinds])}: uncertain by "
        f"{feet(flown.path_uncertainty_ft(at))} ({in_dots(flown.path_uncertainty_dots(at))} of the path) at the "
        f"{'minimum' if flown.minimum else 'lowest'}, "
        f"{'doubt included, ' if flown.doubt_ft else ''}positions by {feet(flown.position_ft)}."
    )


def remark_text(remark: Remark) -> str:
    """A remark with the lines of the file that it is about."""
    if not remark.lines:
        return remark.what
    lines = ", ".join([str(line) for line in remark.lines])
    return f"{remark.what} Line{'s' if len(remark.lines) > 1 else ''} {lines}."


def clock(seconds: float) -> str:
    """A time since the first sample, m:ss."""
    count = int(whole(seconds))
    return f"{count // 60}:{count % 60:02d}"


def not_told(debrief: Debrief) -> str:
    """What the gates limit and a recording does not tell."""
    names: list[str] = []
    for gate in debrief.gates:
        names.extend([name for name in gate.not_told if name not in names])
    return ", ".join(names)


def _head(debrief: Debrief) -> str:
    to = debrief.flown.approach
    number = f", approach {debrief.number} of {debrief.count}" if debrief.count > 1 else ""
    return f"{debrief.recording.name}: {to.airport} {to.title}{number}. {ending(debrief.flown)}"


def _line(moment: Moment, from_s: float) -> str:
    at = moment.at
    height = "" if at.indicated_ft is None else feet(at.indicated_ft)
    return f"{MARKS[moment.good]} {clock(at.time_s - from_s):>6} {tenths(at.along_nm):>6} {height:>8}  {moment.what}"


def _gate_lines(found: GateFound) -> "list[str]":
    lines = [f"  {found.gate.name}, {feet(found.altitude_ft)}: {found.verdict or 'not judged'}"]
    lines += [f"    {item.item}: {item.found} ({item.limit}): {item.verdict}" for item in found.items]
    if found.not_told:
        lines.append(f"    not told by a recording: {', '.join(found.not_told)}")
    return lines

"""A debrief as text for a terminal and as lines for a page; times count from the approach's first sample."""

from lpv.setup.form import lines_of
from lpv.track.flown import Debrief, Moment
from lpv.track.moments import ending
from lpv.track.plot import drawn
from lpv.track.records import IN_WORDS, Remark
from lpv.track.verdicts import GateFound, feet, in_dots, tenths, whole

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


MARKS = {True: "✓", False: "✕", None: ""}


def answer(debrief: Debrief) -> str:
    """Everything that is told, as lines:

    sentence TAB words;  about TAB words;  altimeter TAB whose;  unsure TAB words;  remark TAB key TAB words
    talk TAB distance TAB words TAB key, or talk TAB TAB words
    moment TAB mark TAB distance TAB altimeter TAB clock TAB words TAB key
    gate TAB name TAB altitude TAB verdict, and for each of its items: item TAB name TAB found TAB limit TAB verdict
    missing TAB words;  the parts of the plots (`lpv.track.plot`);  text TAB a line of what the command prints
    """
    flown = debrief.flown
    rows = [["sentence", ending(flown)], ["about", about(debrief)], ["unsure", uncertainty(debrief)],
            ["altimeter", "as recorded" if debrief.recording.barometric else "as it should have read"]]
    rows += [["remark", one.key, remark_text(one)] for one in debrief.remarks]
    rows += talk_rows(debrief)
    rows += [moment_row(one, flown.points[0].time_s) for one in debrief.moments]
    for gate in debrief.gates:
        rows.append(["gate", gate.gate.name, feet(gate.altitude_ft), gate.verdict or "not judged"])
        rows += [["item", item.item, item.found, item.limit, item.verdict] for item in gate.items]
    rows.append(["missing", not_told(debrief)])
    rows += drawn(flown)
    rows += [["text", line] for line in told(debrief).split("\n")]
    return lines_of(rows)


def about(debrief: Debrief) -> str:
    """Which recording, which approach, by whom."""
    flown = debrief.flown
    number = f", approach {debrief.number} of {debrief.count}" if debrief.count > 1 else ""
    by = f"; {flown.aircraft.name}" if flown.aircraft else ""
    minimum = "none known" if flown.minimum_ft is None else feet(flown.minimum_ft)
    what = f"{debrief.recording.name}, {len(debrief.recording.readings)} samples{number}"
    return f"{what}. {flown.approach.airport} {flown.approach.title}{by}; minimum {minimum}."


def talk_rows(debrief: Debrief) -> "list[list[str]]":
    """What was not as it should be, in the order flown, or that nothing was."""
    rows = [["talk", f"{tenths(one.at.along_nm)} NM", one.what, key_of(one)] for one in debrief.moments
            if one.good is False]
    return rows or [["talk", "", "Nothing that a recording tells was wrong."]]


def key_of(moment: Moment) -> str:
    """The kind of a moment; it ends in ", wrong" where it was not as it should be, for the link."""
    return moment.key + (", wrong" if moment.good is False else "")


def moment_row(moment: Moment, from_s: float) -> "list[str]":
    """One moment."""
    at = moment.at
    altimeter = "" if at.indicated_ft is None else feet(at.indicated_ft)
    return ["moment", MARKS[moment.good], f"{tenths(at.along_nm)} NM", altimeter, clock(at.time_s - from_s),
            moment.what, key_of(moment)]

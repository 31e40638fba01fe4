"""A debrief as text for a terminal and as lines for a page; times count from the approach's first sample."""

from lpv.core.text import clock, feet, nautical_miles, number, quantity
from lpv.track.ending import ending
from lpv.track.flown import Debrief, Moment
from lpv.track.played import played_row
from lpv.track.plot import drawn
from lpv.track.records import IN_WORDS, Remark
from lpv.track.verdicts import (
    MARKS,
    NOT_JUDGED,
    OUTSIDE,
    PLAIN_MARKS,
    TOO_CLOSE,
    WITHIN,
    WORST_FIRST,
    Comparison,
    in_dots,
)

HEADINGS = {OUTSIDE: "Outside limits", TOO_CLOSE: "Too close to say", NOT_JUDGED: "Not judged", WITHIN: "Within limits"}
# Kind of moment -> its name in the line of verdicts, where the key alone is not clear.
NAMES = {
    "PFAF": "FAF", "PFAF, above the glidepath": "above the glidepath at the FAF",
    "PFAF, below the glidepath": "below the glidepath at the FAF",
    "sink": "rate of descent", "sink below the minimum": "rate of descent below the minimum",
    "minimum, truly lower": "minimum", "go-around": "lowest point of the go-around",
    "missed course": "course of the missed approach", "missed altitude": "missed approach altitude",
    "path from above": "glidepath from above", "path from below": "glidepath from below", "on path": "on the glidepath",
    "path below the minimum": "glidepath below the minimum",
    "gradient": "climb gradient", "below path": "below the glidepath", "fix": "altitude at a fix",
    "cold": "altitude in cold", "cold minimum": "minimum in cold", "near the glidepath": "glidepath near the minimum",
}


def lines_of(rows: "list[list[str]]") -> str:
    """Lines of parts, with nothing in a part that would end it."""
    return "\n".join(["\t".join([" ".join(" ".join(part.split("\n")).split("\t")) for part in row]) for row in rows])


def text(debrief: Debrief) -> str:
    """Everything in words, line by line, the verdicts first."""
    lines = [_head(debrief), verdict_line(debrief), "", "About the recording:", f"  {uncertainty(debrief)}"]
    lines += [f"  {remark_text(remark)}" for remark in debrief.remarks]
    if debrief.count > 1:
        lines += ["", "Approaches in the recording:"] + [f"  {line}" for line in debrief.others]
    lines += ["", "Moments (time, NM to the threshold, altimeter):"]
    for moment in debrief.moments:
        lines += _lines(moment, debrief.flown.points[0].time_s)
    lines += ["", f"Not recorded: {not_recorded_items(debrief)}."]
    return "\n".join(lines)


def verdict_line(debrief: Debrief) -> str:
    """What is outside, by name, and how many of each other verdict; never more than was compared."""
    parts = []
    for verdict in WORST_FIRST:
        moments = debrief.with_verdict(verdict)
        if not moments:
            continue
        names: list[str] = []
        for moment in moments:
            name = name_of(moment)
            if name not in names:
                names.append(name)
        shown = ", ".join(names) if verdict in (OUTSIDE, TOO_CLOSE) else str(len(moments))
        parts.append(f"{HEADINGS[verdict]}: {shown}")
    return ". ".join(parts) + "." if parts else "Nothing could be judged."


def name_of(moment: Moment) -> str:
    """What a moment is called in the line of verdicts."""
    if moment.key == "gate":
        gate, comma, conditions = moment.what.partition(":")[0].rpartition(",")[0].partition(", ")
        return f"{gate} ({conditions})" if comma else gate
    return NAMES.get(moment.key, moment.key)


def uncertainty(debrief: Debrief) -> str:
    """Where the altitudes come from, how far they may be off at the minimum, their noise, what is from memory."""
    flown = debrief.flown
    at = flown.minimum.at if flown.minimum else flown.lowest
    kinds = [key for key in (debrief.recording.geometric, debrief.recording.barometric) if key]
    dots = f" ({in_dots(flown.path_uncertainty_dots(at))} of the glidepath)" if flown.target.has_path else ""
    return (
        f"Altitudes {' and '.join([IN_WORDS[key] for key in kinds])}: uncertain by "
        f"{feet(flown.path_uncertainty_ft(at))}{dots} at the "
        f"{'minimum' if flown.minimum else 'lowest point'}, "
        f"{'doubt included, ' if flown.doubt_ft else ''}positions by {feet(flown.position_uncertainty_ft())}. "
        f"Noise of single samples {quantity(flown.noise.height_ft, 'ft', 0.1)}, one every "
        f"{quantity(flown.noise.interval_s, 's', 0.1)}; rates over {quantity(flown.noise.window_s, 's')}."
        f"{flown.target.scale_remembered()}"
    )


def remark_text(remark: Remark) -> str:
    """A remark with the lines of the file that it is about."""
    if not remark.lines:
        return remark.what
    lines = ", ".join([str(line) for line in remark.lines])
    return f"{remark.what} Line{'s' if len(remark.lines) > 1 else ''} {lines}."


def not_recorded_items(debrief: Debrief) -> str:
    """What the gates limit and a recording does not hold."""
    names: list[str] = []
    for gate in debrief.gates:
        names.extend([name for name in gate.not_recorded if name not in names])
    return ", ".join(names)


def comparison_text(comparison: Comparison) -> str:
    """A comparison in one line."""
    reason = f" ({comparison.reason})" if comparison.reason else ""
    return f"{comparison.item} {comparison.recorded()}, {comparison.limit()}: {comparison.verdict}{reason}"


def _head(debrief: Debrief) -> str:
    target = debrief.flown.target
    number = f", approach {debrief.number} of {debrief.count}" if debrief.count > 1 else ""
    return (f"{debrief.recording.name}: {target.airport} {target.title}, {target.level_words}{number}. "
            f"{ending(debrief.flown)}")


def _lines(moment: Moment, from_s: float) -> "list[str]":
    at = moment.at
    height = "" if at.indicated_ft is None else feet(at.indicated_ft)
    mark = PLAIN_MARKS[moment.verdict]
    columns = (_right(clock(at.time_s - from_s), 6), _right(number(at.along_nm, 0.1), 6), _right(height, 8))
    lines = [f"{mark} {' '.join(columns)}  {moment.what}"]
    return lines + [
        f"{'':25} {PLAIN_MARKS[comparison.verdict]} {comparison_text(comparison)}" for comparison in moment.compared]


def _right(text: str, width: int) -> str:
    """At the right of a column; a phone's Python fills up by bytes, so it is not asked to."""
    return " " * (width - len(text)) + text


def page_lines(debrief: Debrief) -> str:
    """Everything for a page, as lines:

    sentence TAB words;  verdicts TAB words;  about TAB words;  altimeter TAB whose;  unsure TAB words
    remark TAB key TAB words;  other TAB a line about each approach of the recording
    moment TAB mark TAB distance TAB altimeter TAB clock TAB words TAB key, and for each of its comparisons that is not
    within: item TAB mark TAB words
    missing TAB words;  the parts of the plots (`lpv.track.plot`);  flight TAB text TAB its last second
    (`lpv.track.played`);  text TAB a line of what the command prints
    """
    flown = debrief.flown
    rows = [["sentence", ending(flown)], ["verdicts", verdict_line(debrief)], ["about", about(debrief)],
            ["unsure", uncertainty(debrief)],
            ["altimeter", "as recorded" if debrief.recording.barometric else "as it should have read"]]
    rows += [["remark", remark.key, remark_text(remark)] for remark in debrief.remarks]
    if debrief.count > 1:
        rows += [["other", line] for line in debrief.others]
    for moment in debrief.moments:
        rows.append(moment_row(moment, flown.points[0].time_s))
        rows += [["item", MARKS[row.verdict], comparison_text(row)] for row in moment.compared if row.verdict != WITHIN]
    rows.append(["missing", not_recorded_items(debrief)])
    rows += drawn(flown)
    played = played_row(debrief)
    rows += [played] if played else []
    rows += [["text", line] for line in text(debrief).split("\n")]
    return lines_of(rows)


def about(debrief: Debrief) -> str:
    """Which recording, which approach, by whom."""
    flown = debrief.flown
    number = f", approach {debrief.number} of {debrief.count}" if debrief.count > 1 else ""
    type_words = f"; {flown.target.aircraft.type.name}" if flown.target.aircraft else ""
    minimum = "none known" if flown.minimum_ft is None else feet(flown.minimum_ft)
    what = f"{debrief.recording.name}, {len(debrief.recording.readings)} samples{number}"
    target = flown.target
    return f"{what}. {target.airport} {target.title}, {target.level_words}{type_words}; minimum {minimum}."


def key_of(moment: Moment) -> str:
    """The kind of a moment; it ends in ", wrong" where it was outside, for the link."""
    return moment.key + (", wrong" if moment.verdict == OUTSIDE else "")


def moment_row(moment: Moment, from_s: float) -> "list[str]":
    """One moment."""
    at = moment.at
    altimeter = "" if at.indicated_ft is None else feet(at.indicated_ft)
    return ["moment", MARKS[moment.verdict], f"{nautical_miles(at.along_nm)}", altimeter, clock(at.time_s - from_s),
            moment.what, key_of(moment)]

"""A debrief as lines for a page: "sentence", "about", "remark", "moment", "gate", "item", plots, and "text" to copy."""

from lpv.setup.form import lines_of
from lpv.track.flown import Debrief, Moment
from lpv.track.moments import ending
from lpv.track.plot import drawn
from lpv.track.text import clock, not_told, remark_text, told, uncertainty
from lpv.track.words import feet, tenths

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

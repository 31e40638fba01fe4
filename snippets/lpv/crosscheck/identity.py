"""Rules of the cross-check: is it the right segment, whole, of the right level, of the cycle in force?"""

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import TYPE_CHECKING

from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.findings import Finding, not_compared
from lpv.core.text import number
from lpv.crosscheck.statements import compared, finding, one_sided, or_none
from lpv.decide.currency import currency
from lpv.facts import fact, value
from lpv.fas.block import FinalApproachSegment
from lpv.fas.identity import is_sbas_channel, path_id_parts, provider_name

if TYPE_CHECKING:
    from lpv.core.findings import Grade

LOAD_AGAIN = "Load the approach on the chart. Still different: do not fly it, and report the database."
TITLE = re.compile(r"(?P<kind>.+?)(?: (?P<letter>[A-Z]))? RWY (?P<runway>\d\d[LCR]?)", re.ASCII)
# What titles of approaches to LPV minima begin with, by whose rules: from memory.
KINDS = {
    "FAA": ("RNAV (GPS)",), "ICAO": ("RNP", "RNAV (GNSS)", "RNAV (GPS)"), "EASA": ("RNP", "RNAV (GNSS)"),
}


def title_parts(title: str) -> "re.Match[str] | None":
    """Kind, letter and runway of a title, however it is spaced and in whatever case; None if it is none."""
    return TITLE.fullmatch(" ".join(title.upper().split()))


def runway_text(segment: FinalApproachSegment) -> str:
    """The runway of a segment as charts write it, "28L"."""
    return f"{segment.runway_number:02d}{segment.runway_letter}"


def remainder(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The remainder that came with the segment against the one its fields give."""
    coded = approach.held
    why = "The remainder shows whether any bit of the segment changed since it was made."
    if not coded.stored:
        yield not_compared(
            "remainder", "remainder of the segment", "missing in the database part", database="fields only",
            computed=coded.computed, action="Compare it with the remainder published for the segment.",
        )
        return
    yield finding(
        "remainder", "ok" if coded.stored == coded.computed else "stop", f"remainder of the {coded.form}",
        database=coded.stored, computed=coded.computed, why=why,
        action="The segment is damaged. Do not use it; get the database again and report it.",
    )


def place(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Airport and runway of the segment against the chart's."""
    identity, segment = approach.identity, approach.segment
    yield compared(
        "airport", "airport", identity.airport, segment.airport,
        why="The segment must belong to the chart's airport.", action=LOAD_AGAIN,
    )
    yield compared(
        "runway", "runway", identity.runway, runway_text(segment),
        why="Parallel runways differ by one letter.", action=LOAD_AGAIN,
    )


def record_names(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Airport, runway and approach that a path point record names beside its segment."""
    point, identity = approach.held.point, approach.identity
    if point is None:
        return
    coded = re.fullmatch(rf"[A-Z]{re.escape(identity.runway)}-?([A-Z]?)", point.approach, re.ASCII)
    read = title_parts(identity.title)
    letter = (read["letter"] or "") if read else ""
    named = (point.airport, point.runway) == (identity.airport, f"RW{identity.runway}") and (
        coded is not None and coded[1] == letter)
    yield finding(
        "record-names", "ok" if named else "stop", "names in the path point record",
        chart=f"{identity.airport}, {identity.title}",
        database=f"{point.airport}, {point.runway}, approach {point.approach}",
        why="The remainder does not protect the names outside the segment.", action=LOAD_AGAIN,
    )


def title(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Title of the procedure: its runway, its kind, and its letter against the route indicator."""
    identity, coded = approach.identity, approach.segment.route_indicator
    read = title_parts(identity.title)
    right = read is not None and read["runway"] == identity.runway and read["kind"] in KINDS[identity.rule]
    yield finding(
        "title", "ok" if right else "resolve", "title of the procedure",
        chart=f"{identity.title}, runway {identity.runway}",
        computed=f"{' or '.join(KINDS[identity.rule])}, then RWY {identity.runway}, by {identity.rule} rules",
        why="The crew reads title and runway aloud together.", action="Take both from the same chart.",
    )
    if read is None:
        yield not_compared("title-letter", "letter of the title", "not read", chart=identity.title, database=coded)
        return
    letter = read["letter"] or ""
    barred = list(str(fact("route_indicator_barred_letters").value))
    grade: Grade = "ok" if letter == coded and coded not in barred else "stop" if letter and coded else "resolve"
    yield finding(
        "title-letter", grade, "letter of the title", chart=or_none(letter), database=or_none(coded),
        computed=f"route indicator in the segment; never {' or '.join(barred)}",
        why="Two procedures to one runway have different paths and minima.", action=LOAD_AGAIN,
    )


def path_id(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The reference path identifier: chart, segment and display; and its structure."""
    segment = approach.segment
    displayed = approach.database.path_id
    coded = segment.reference_path_id
    yield compared(
        "path-id", "reference path identifier", approach.identity.path_id,
        coded if displayed in (None, coded) else f"{displayed} shown, {coded} in the segment",
        why="Four characters that confirm the procedure; two procedures to one runway differ in the last.",
        action=LOAD_AGAIN,
    )
    if displayed is None:
        yield one_sided("path-id-shown", "path identifier shown in the aircraft", chart=approach.identity.path_id)
    yield _structure(segment)


def _structure(segment: FinalApproachSegment) -> Finding:
    parts = path_id_parts(segment.reference_path_id, segment.sbas_provider, segment.runway_number)
    wrong = [part for part in parts if part.holds is False]
    unknown = [part for part in parts if part.holds is None]
    expected = ", ".join(f"{part.part} {part.expected}" for part in wrong)
    return finding(
        "path-id-structure", "resolve" if wrong else "note" if unknown else "ok",
        "structure of the path identifier",
        database=f"{segment.reference_path_id}, provider {segment.sbas_provider} "
                 f"({or_none(provider_name(segment.sbas_provider))}), runway {runway_text(segment)}",
        computed=f"expected: {expected}" if wrong else "its parts fit" if not unknown else "letter not known",
        why="First letter: the SBAS provider; two digits: the runway; last letter: which procedure.",
        action="Ask the data provider why the identifier does not fit.",
    )


def channel(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The SBAS channel: chart against what the aircraft or the record shows, and its range."""
    charted, point = approach.identity.channel, approach.held.point
    sources = (approach.database.channel, point.sbas_channel if point else None)
    channels = sorted({str(number) for number in sources if number is not None})
    if channels:
        yield compared(
            "channel", "SBAS channel", str(charted), " and ".join(channels),
            why="Five digits, used once in the world: a wrong one brings up another segment.", action=LOAD_AGAIN,
        )
    else:
        yield one_sided("channel", "SBAS channel", chart=str(charted),
                        action="Compare the channel in the aircraft with the chart.")
    low, high = value("sbas_channel_lowest"), value("sbas_channel_highest")
    yield finding(
        "channel-range", "ok" if is_sbas_channel(charted) else "stop", "range of the channel",
        chart=str(charted), computed=f"{number(low)} to {number(high)}",
        why="A number outside the range is another kind of channel, or a slip.",
        action="Read the channel from the chart again.",
    )


def level(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Level of service: the chart's against vertical alert limit and path point record."""
    segment, charted, point = approach.segment, approach.identity.level_of_service, approach.held.point
    levels = {"LP" if segment.is_lp else "LPV", (point.level_of_service if point else None) or charted}
    yield compared(
        "level-of-service", "level of service", charted, " and ".join(sorted(levels)),
        why="A vertical alert limit of 0 means: do not use vertical deviations.",
        action="Do not descend on a glidepath until chart and database agree on the level.",
    )


def cycle(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Data cycle of chart and database, its dates, and whether it is in force on a day."""
    charted, database = approach.identity.cycle, approach.database
    if database.cycle is None:
        yield one_sided("cycle", "data cycle", chart=charted)
    else:
        yield compared(
            "cycle", "data cycle", charted, database.cycle, grade="resolve",
            why="Chart and database of different cycles can both be right and yet differ.",
            action="Bring both to the cycle in force, then compare again.",
        )
    yield _dates(approach, airac.cycle(database.cycle or charted))
    yield from _record_cycle(approach, database.cycle or charted)
    yield _in_force(approach, on)


def _dates(approach: Approach, cycle_held: airac.Cycle) -> Finding:
    database = approach.database
    key, what = "cycle-dates", "cycle dates"
    if database.effective is None or database.expires is None:
        shown = _dates_text(database.effective, database.expires)
        return not_compared(
            key, what, "missing in the database part", database=shown, computed=cycle_held.held,
            action="Compare the dates that the aircraft shows.")
    fits = (database.effective.toordinal(), database.expires.toordinal()) == (cycle_held.effective, cycle_held.expiry)
    return finding(
        key, "ok" if fits else "resolve", what,
        database=_dates_text(database.effective, database.expires), computed=cycle_held.held,
        why="A cycle's number fixes its dates.", action="Find out which cycle is loaded.",
    )


def _dates_text(first: date | None, next_takes_over: date | None) -> str:
    """The dates that a database gives, worded as `airac.Cycle.held`: the last day is the one before the next cycle."""
    begins = [f"from {first.isoformat()}"] if first else []
    ends = [f"to {(next_takes_over - timedelta(days=1)).isoformat()}"] if next_takes_over else []
    return " ".join(begins + ends)


def _record_cycle(approach: Approach, cycle_held: str) -> Iterator[Finding]:
    """A record of the database was last changed in its cycle or before."""
    point = approach.held.point
    if point is not None:
        later = airac.effective_ordinal(point.cycle) > airac.effective_ordinal(cycle_held)
        yield finding(
            "record-cycle", "resolve" if later else "ok", "cycle of the path point record", database=cycle_held,
            computed=f"record of {point.cycle}", why="A record newer than its database was entered by hand.",
            action="Find out which cycle is loaded.",
        )


def _in_force(approach: Approach, on: int | None) -> Finding:
    """Chart and database on the day: the database's cycle, or the chart's where the aircraft shows none."""
    stated = approach.database.cycle
    in_force = currency(stated, on)
    key, label = "cycle-in-force", "data cycle in force on the day" if on is None else f"data cycle on {airac.iso(on)}"
    if in_force.grade == "not compared":
        return not_compared(
            key, label, "not stated" if on is None else "missing in the database part",
            chart=approach.identity.cycle, database=stated or "", why=in_force.reason)
    return finding(
        key, "ok" if in_force.grade == "ok" else "stop", label, database=stated or "", computed=in_force.reason,
        why="Outside its dates, data may not match the chart in force.",
        action="Use the data of the cycle in force.",
    )


RULES = (remainder, place, record_names, title, path_id, channel, level, cycle)

"""Rules of the cross-check: is it the right segment, whole, of the right level, of the cycle in force?"""

from collections.abc import Iterator
from datetime import date, timedelta
from typing import TYPE_CHECKING

from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.findings import Finding
from lpv.crosscheck.statements import compared, finding, given, metres
from lpv.facts import value
from lpv.fas.block import FinalApproachSegment
from lpv.fas.identity import is_sbas_channel, path_id_parts, provider_name

if TYPE_CHECKING:
    from lpv.core.findings import Grade

LOAD_AGAIN = "Load the approach the chart shows. If it stays, do not fly it and report the database."


def runway_text(segment: FinalApproachSegment) -> str:
    """The runway of a segment as charts write it, "28L"."""
    return f"{segment.runway_number:02d}{segment.runway_letter}"


def remainder(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The remainder that came with the segment against the one its fields give."""
    held = approach.held
    why = "The remainder shows whether any bit of the segment changed since it was made."
    if not held.stored:
        yield finding(
            "remainder", "note", "remainder of the segment", database="fields only", computed=held.computed,
            why=why, action="Compare with the remainder that was published for the segment.",
        )
        return
    yield finding(
        "remainder", "ok" if held.stored == held.computed else "stop", f"remainder of the {held.form}",
        database=held.stored, computed=held.computed, why=why,
        action="The segment is damaged. Do not use it; get the database again and report it.",
    )


def place(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Airport and runway of the segment, and the runway in the title."""
    identity, segment = approach.identity, approach.segment
    yield compared(
        "airport", "airport", identity.airport, segment.airport,
        why="The segment must belong to the airport of the chart.", action=LOAD_AGAIN,
    )
    yield compared(
        "runway", "runway", identity.runway, runway_text(segment),
        why="Parallel runways differ by one letter.", action=LOAD_AGAIN,
    )
    names_it = identity.title.endswith(f"RWY {identity.runway}")
    yield finding(
        "title", "ok" if names_it else "resolve", "runway in the title", chart=f"{identity.title}, {identity.runway}",
        why="Title and runway are read aloud together.", action="Take both from the same chart.",
    )


def path_id(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The reference path identifier: chart, segment and display; and its structure."""
    segment = approach.segment
    displayed = approach.database.path_id
    held = segment.reference_path_id
    yield compared(
        "path-id", "reference path identifier", approach.identity.path_id,
        held if displayed in (None, held) else f"{displayed} shown, {held} in the segment",
        why="Four characters that confirm the procedure; two procedures to one runway differ in the last.",
        action=LOAD_AGAIN,
    )
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
                 f"({given(provider_name(segment.sbas_provider))}), runway {runway_text(segment)}",
        computed=f"expected: {expected}" if wrong else "its parts fit" if not unknown else "letter not known",
        why="First letter: the SBAS provider; two digits: the runway; last letter: which procedure.",
        action="Ask the data provider why the identifier does not fit.",
    )


def channel(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The SBAS channel: chart against what the aircraft or the record shows, and its range."""
    charted, point = approach.identity.channel, approach.held.point
    sources = (approach.database.channel, point.sbas_channel if point else None)
    held = sorted({str(number) for number in sources if number is not None})
    why = "Five digits, used once in the world: a wrong one brings up another segment."
    if held:
        yield compared(
            "channel", "SBAS channel", str(charted), " and ".join(held), why=why, action=LOAD_AGAIN,
        )
    else:
        yield finding(
            "channel", "note", "SBAS channel", chart=str(charted), why=why,
            action="Compare the channel in the aircraft with the chart.",
        )
    low, high = value("sbas_channel_lowest"), value("sbas_channel_highest")
    yield finding(
        "channel-range", "ok" if is_sbas_channel(charted) else "stop", "range of the channel",
        chart=str(charted), computed=f"{low:.0f} to {high:.0f}",
        why="A number outside the range is a channel of another kind, or a slip.",
        action="Read the channel from the chart again.",
    )


def level(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Level of service: chart, vertical alert limit, path point record; both alert limits against the published."""
    segment, charted, point = approach.segment, approach.identity.level_of_service, approach.held.point
    held = {"LP" if segment.is_lp else "LPV", (point.level_of_service if point else None) or charted}
    yield compared(
        "level-of-service", "level of service", charted, " and ".join(sorted(held)),
        why="A vertical alert limit of 0 says that vertical deviations must not be used.",
        action="Do not descend on a glidepath until chart and database agree on the level.",
    )
    yield finding(
        "hal", "ok" if segment.hal_m == value("hal_lpv_m") else "resolve", "horizontal alert limit",
        database=metres(segment.hal_m), computed=metres(value("hal_lpv_m")),
        why="It decides when the receiver takes lateral guidance away.", action="Ask the data provider.",
    )
    if not segment.is_lp:
        most, least = value("val_lpv_m"), value("val_lpv_lowest_m")
        grade: Grade = "stop" if segment.val_m > most else "resolve" if segment.val_m <= least else "ok"
        yield finding(
            "val", grade, "vertical alert limit", database=metres(segment.val_m),
            computed=f"over {metres(least)}, at most {metres(most)}",
            why="It decides when the receiver takes vertical guidance away.", action="Ask the data provider.",
        )


def cycle(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Data cycle of chart and database, its dates, and whether it is in force on a day."""
    charted, database = approach.identity.cycle, approach.database
    if database.cycle is not None:
        yield compared(
            "cycle", "data cycle", charted, database.cycle, grade="resolve",
            why="Chart and database of different cycles can both be right, and differ.",
            action="Bring both to the cycle in force, then compare again.",
        )
    held = airac.cycle(database.cycle or charted)
    yield from _dates(approach, held)
    if on is not None:
        yield _in_force(held, on)


def _dates(approach: Approach, held: airac.Cycle) -> Iterator[Finding]:
    database = approach.database
    known = [(database.effective, held.effective), (database.expires, held.expiry)]
    given_dates = [(day, ordinal) for day, ordinal in known if day is not None]
    if given_dates:
        fits = all(day.toordinal() == ordinal for day, ordinal in given_dates)
        yield finding(
            "cycle-dates", "ok" if fits else "resolve", "dates of the cycle",
            database=_told(database.effective, database.expires), computed=held.held,
            why="Number and dates of a cycle follow from each other.", action="Find out which cycle is loaded.",
        )


def _told(first: date | None, next_takes_over: date | None) -> str:
    """The dates that a database gives, worded as `airac.Cycle.held`: the last day is the one before the next cycle."""
    begins = [f"from {first.isoformat()}"] if first else []
    ends = [f"to {(next_takes_over - timedelta(days=1)).isoformat()}"] if next_takes_over else []
    return " ".join(begins + ends)


def _in_force(held: airac.Cycle, on: int) -> Finding:
    early, late = on < held.effective, on >= held.expiry
    return finding(
        "cycle-in-force", "stop" if late else "resolve" if early else "ok",
        f"data cycle on {airac.iso(on)}", database=held.ident,
        computed=f"in force {held.held}",
        why="Outside its dates the data may no longer, or not yet, be what the chart in force prints.",
        action="Use the data of the cycle in force." if late else "Do not use this cycle before its first day.",
    )


RULES = (remainder, place, path_id, channel, level, cycle)

"""The sheet of a recorded flight for one printed page, and the answers that its page begins with.

Neither holds a date, a registration or a name of a person: only what the flight's file says of itself.
"""

from lpv.core.text import quantity
from lpv.track import report
from lpv.track.ending import ending
from lpv.track.flight_file import About
from lpv.track.flown import Debrief
from lpv.track.moments import cold_in_words
from lpv.track.points import Point
from lpv.track.verdicts import MARKS, OUTSIDE, TOO_CLOSE, WORST_FIRST, off_course, off_path
from lpv_site.briefing.card import CAUTION, card_row
from lpv_site.text.text import escape

MAX_ROWS = 9


def answers(debrief: Debrief) -> list[tuple[str, str]]:
    """What an instructor asks first: (question, answer), HTML."""
    flown = debrief.flown
    minimum, target = flown.minimum, flown.target
    at = minimum.at if minimum and not minimum.gap_s else None
    type_name = escape(target.aircraft.type.name) if target.aircraft else ""
    return [
        ("approach", f"{escape(target.airport)} {escape(target.title)}, {target.level_words}"), ("aircraft", type_name),
        ("FAF", quantity(target.pfaf_nm, "NM", 0.1)), ("cold", escape(cold_in_words(flown))),
        ("course within one dot", _from(flown.established)), ("glidepath within one dot", _from(flown.on_path)),
        ("minimum", "not known" if flown.minimum_ft is None else quantity(flown.minimum_ft, "ft")),
        ("at the minimum", _at_minimum(at, "not recorded" if minimum else "not passed")),
        ("gates", gates_in_words(debrief)),
        ("altitude uncertain by", quantity(flown.path_uncertainty_ft(at or flown.lowest), "ft")),
        ("samples", f"one every {quantity(flown.noise.interval_s, 's', 0.1)}, "
         f"noise {quantity(flown.noise.height_ft, 'ft', 0.1)}"),
    ]


def _at_minimum(at: Point | None, without: str) -> str:
    return escape(f"{off_course(at)}, {off_path(at)}") if at else without


def _from(at: Point | None) -> str:
    return "never" if at is None else f"from {quantity(at.along_nm, 'NM', 0.1)} in"


def gates_in_words(debrief: Debrief) -> str:
    """How many gates got each verdict, in what is recorded."""
    given_verdicts = [gate.verdict for gate in debrief.gates if gate.verdict]
    order = [word for word in WORST_FIRST if word in given_verdicts]
    return ", ".join(f"{given_verdicts.count(word)} {word}" for word in order) or "none could be judged"


def invented(flight: About) -> str:
    """What is said of a flight that nobody flew."""
    return " The flight is invented." if flight.invented else ""


def card(debrief: Debrief, flight: About) -> str:
    """The sheet: with the address ending in #card it is printed alone (docs/assets/card.css)."""
    facts = " · ".join(f"{question} <b>{answer}</b>" for question, answer in answers(debrief) if answer)
    doubts = [card_row("doubtful", escape(remark.what)) for remark in debrief.remarks if remark.key == "reference"]
    return (
        "## Sheet { #print data-search-exclude }\n\n"
        '<p class="hb-print"><a href="#card">Print this sheet</a> on one page: A5 or half letter.</p>\n\n'
        '<section class="hb-card" id="card" aria-label="Sheet" data-search-exclude>\n'
        f'<p class="hb-card-name">{escape(flight.name)}</p>\n<p>{escape(ending(debrief.flown))}{invented(flight)}</p>\n'
        + card_row("verdicts", escape(report.verdict_line(debrief)))
        + f"{''.join(doubts)}<p>{facts}</p>\n{_moments(debrief)}"
        + card_row("not recorded", escape(report.not_recorded_items(debrief)))
        + f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p>\n</section>\n'
    )


def _moments(debrief: Debrief) -> str:
    """What was outside, then what was too close to say, as many as fit."""
    moments = debrief.with_verdict(OUTSIDE) + debrief.with_verdict(TOO_CLOSE)
    rows = [card_row(f"{MARKS[moment.verdict]} {quantity(moment.at.along_nm, 'NM', 0.1)}", escape(moment.what))
            for moment in moments[:MAX_ROWS]]
    if len(moments) > MAX_ROWS:
        rows.append(card_row("more", f"{len(moments) - MAX_ROWS} on the page"))
    return "".join(rows)

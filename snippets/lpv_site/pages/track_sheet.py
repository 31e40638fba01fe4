"""The sheet of a recorded flight for one printed page, and the answers that its page begins with."""

from lpv.track import report as track_text
from lpv.track.flight_file import About
from lpv.track.flown import Debrief
from lpv.track.moments import ending, in_words
from lpv.track.points import Point
from lpv.track.verdicts import beside, over
from lpv_site.briefing.card import CAUTION
from lpv_site.text.text import escape, kept, quantity

MOST_TOLD = 8


def answers(debrief: Debrief) -> list[tuple[str, str]]:
    """What an instructor asks first: (question, answer), HTML."""
    flown = debrief.flown
    minimum = flown.minimum
    at = minimum.at if minimum and not minimum.gap_s else None
    who = flown.approach
    by = escape(flown.aircraft.name) if flown.aircraft else ""
    return [
        ("approach", f"{escape(who.airport)} {escape(who.title)}"), ("aircraft", by),
        ("PFAF", quantity(flown.scales.pfaf_nm, "NM", 1)), ("cold", kept(in_words(flown))),
        ("course within one dot from", _from(flown.established)), ("path within one dot from", _from(flown.on_path)),
        ("minimum", "not known" if flown.minimum_ft is None else quantity(flown.minimum_ft, "ft")),
        ("there", kept(f"{beside(at)}, {over(at)}") if at else "not recorded" if minimum else "not passed"),
        ("gates", gates_in_words(debrief)),
        ("altitude uncertain by", quantity(flown.path_uncertainty_ft(at or flown.lowest), "ft")),
    ]


def _from(at: Point | None) -> str:
    return "never" if at is None else quantity(at.along_nm, "NM", 1)


def gates_in_words(debrief: Debrief) -> str:
    """How many gates were met, in what a recording tells."""
    found = [gate.verdict for gate in debrief.gates if gate.verdict]
    parts = [f"{found.count(word)} {word}" for word in ("not met", "too close to say", "met") if word in found]
    return ", ".join(parts) or "none could be judged"


def invented(flight: About) -> str:
    """What is said of a flight that nobody flew."""
    return " The flight is invented." if flight.invented else ""


def card(debrief: Debrief, flight: About) -> str:
    """The sheet: with the address ending in #card it is printed alone (docs/assets/card.css)."""
    facts = " · ".join(f"{question} <b>{answer}</b>" for question, answer in answers(debrief) if answer)
    doubts = [_row("doubtful", kept(remark.what)) for remark in debrief.remarks if remark.key == "reference"]
    return (
        "## Sheet { #print data-search-exclude }\n\n"
        '<p class="hb-print"><a href="#card">Print this sheet</a> on one page: A5 or half letter.</p>\n\n'
        '<section class="hb-card" id="card" aria-label="Sheet" data-search-exclude>\n'
        f'<p class="hb-card-name">{escape(flight.name)}</p>\n<p>{kept(ending(debrief.flown))}{invented(flight)}</p>\n'
        f"{''.join(doubts)}<p>{facts}</p>\n{_to_talk_about(debrief)}"
        + _row("a recording does not tell", escape(track_text.not_told(debrief)))
        + f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p>\n</section>\n'
    )


def _to_talk_about(debrief: Debrief) -> str:
    """What was not as it should be, as many as fit; gates by name."""
    wrong = [moment for moment in debrief.moments if moment.good is False and moment.key != "gate"]
    rows = [_row(f"✕ {quantity(one.at.along_nm, 'NM', 1)}", kept(one.what)) for one in wrong[:MOST_TOLD]]
    if len(wrong) > MOST_TOLD:
        rows.append(_row("more", f"{len(wrong) - MOST_TOLD} on the page"))
    gates = [escape(gate.gate.name) for gate in debrief.gates if gate.verdict == "not met"]
    if gates:
        rows.append(_row("✕ gates not met", ", ".join(gates)))
    return "".join(rows) or _row("to talk about", "nothing that a recording tells was wrong")


def _row(label: str, text: str) -> str:
    return f'<p class="hb-card-row"><b>{label[:1].upper()}{label[1:]}</b> {text}</p>\n'

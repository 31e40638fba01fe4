"""Planning: what the notices of a flight do to each line at the destination and at the alternate, by time.

The texts are read by `lpv.notices`.  A person who has read a notice can say in the file what it takes (`takes`): that
settles a doubt, and never gives back a line that the text clearly takes away.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from lpv.core.findings import Finding, not_compared
from lpv.core.text import miles, with_unit
from lpv.facts import fact, value
from lpv.notices import kinds, words
from lpv.notices.airport import Place, Reading, effect_at
from lpv.notices.kinds import State, worst_state
from lpv.notices.reading import read_notice
from lpv.plan.case import Case, category
from lpv.plan.schema import NoticeText

Airport = Literal["destination", "alternate"]
STATE_WORDS = {"gone": "not available", "doubted": "in doubt", "changed": "figures changed", "noted": "to be known"}
NOTE_KINDS = (
    kinds.MAY_NOT_BE, kinds.LINE_NOT_AVAILABLE, kinds.SATELLITE_OUT, kinds.RAIM_NOT_AVAILABLE, kinds.VDP_OUT,
    kinds.SLOPE_LIGHTS_OUT, kinds.GROUND_AID_OUT,
)


@dataclass(frozen=True)
class LineState:
    """What the notices together do to one line: the gravest state, and which notices bring it."""

    state: State
    reasons: tuple[str, ...]


UNAFFECTED = LineState("unaffected", ())


def place_of(case: Case, airport: Airport) -> Place:
    """The destination or the alternate, as far as the files know it."""
    listed, who, chart = case.scenario.alternate, case.approach.identity, case.approach.chart
    if airport == "alternate" and listed is not None:
        return Place(listed.airport, listed.runway, others=(who.airport,), category=category(case))
    segment = case.approach.segment
    names = [fix.name for fix in chart.fixes if not fix.name.startswith("RW")] + [who.path_id, str(who.channel)]
    highest_ft = max((fix.altitude_ft for fix in chart.fixes if fix.altitude_ft is not None), default=None)
    return Place(
        who.airport, who.runway, who.title, (segment.ltp_latitude_deg, segment.ltp_longitude_deg), highest_ft,
        tuple(names), category(case), (listed.airport,) if listed is not None else (),
    )


def _span(case: Case, airport: Airport) -> tuple[datetime, datetime]:
    """The time that a notice is compared with: some time before and after the ETA there."""
    listed = case.scenario.alternate
    eta = listed.eta if airport == "alternate" and listed is not None else case.scenario.flight.eta
    margin = timedelta(hours=value("notice_window_h"))
    return eta - margin, eta + margin


def reading(case: Case, notice: NoticeText, airport: Airport) -> Reading:
    """What one notice does at one airport, a person's reading of it included."""
    default = effect_at(read_notice(notice.text), place_of(case, airport), *_span(case, airport))
    if not notice.takes or default.outside:
        return default
    taken: dict[str, State] = {line: "gone" for name in notice.takes for line in words.LINES.get(name, ())}
    clear: dict[str, State] = {line: state for line, state in default.states.items() if state == "gone"}
    return Reading(default.notice, clear | taken, settled=True)


def airports(case: Case) -> tuple[Airport, ...]:
    """The airports of the plan."""
    return ("destination",) if case.scenario.alternate is None else ("destination", "alternate")


def line_states(case: Case, airport: Airport) -> dict[str, LineState]:
    """State of every line that any notice touches at an airport, with the notices that bring it."""
    states_of: dict[str, list[tuple[State, str]]] = {}
    bare: list[tuple[str, frozenset[str]]] = []
    for number, notice in enumerate(case.scenario.notices, 1):
        effect = reading(case, notice, airport)
        bare.append((f"notice {number}", effect.without_sbas))
        for line, state in effect.states.items():
            states_of.setdefault(line, []).append((_after_additions(case, effect, line, state), f"notice {number}"))
    if airport == "destination" and case.scenario.flight.no_site_notices:
        for line in words.SBAS_LINES:
            states_of.setdefault(line, []).append(("doubted", "the mark on the chart"))
    without = _is_without_sbas(case, states_of)
    for name, lines in bare:
        for line in lines:
            states_of.setdefault(line, []).append(("doubted" if without else "noted", name))
    return {line: _joined(states) for line, states in states_of.items()}


def _joined(states: list[tuple[State, str]]) -> LineState:
    worst = worst_state(state for state, _ in states)
    return LineState(worst, tuple(dict.fromkeys(name for state, name in states if state == worst)))


def _is_without_sbas(case: Case, states_of: dict[str, list[tuple[State, str]]]) -> bool:
    """Whether the receiver has no SBAS, or a notice takes it away or puts it in doubt."""
    if case.aircraft.equipment.sbas_class is None:
        return True
    states = [state for line in words.SBAS_LINES for state, _ in states_of.get(line, [])]
    return worst_state(states) in ("doubted", "gone")


def _after_additions(case: Case, reading: Reading, line: str, state: State) -> State:
    """The state, less what the files already carry: the addition of the day, or the new minimum of the notice."""
    flight, kind = case.scenario.flight, reading.notice.kind
    if state != "changed" or reading.in_doubt:
        return state
    carried = {kinds.ALTIMETER: flight.remote_addition_ft, kinds.LIGHTS_OUT: flight.visibility_addition_sm}
    if kind in carried:
        return "noted" if carried[kind] is not None else state
    new_ft = [altitude_ft for name, altitude_ft in reading.altitudes if name == line]
    rows = [row for row in case.approach.chart.minima if line in words.LINES[row.line]]
    if new_ft and rows and all(row.altitude_ft >= max(new_ft) for row in rows):
        return "noted"
    return state


# Findings.

def findings(case: Case) -> Iterator[Finding]:
    """One finding for every notice: what it is, what it does at each airport, and what to plan."""
    if not case.scenario.notices and not case.scenario.flight.no_notices:
        yield not_compared(
            "notices", "notices", "not stated", why="The file lists no notices, and does not state that there are none "
            "(no_notices).", action="Read the notices of GPS and SBAS, of both airports, and enter them.")
    for number, notice in enumerate(case.scenario.notices, 1):
        yield _finding(case, notice, number)
    if case.scenario.flight.no_site_notices:
        kind = kinds.CHART_WITHOUT_NOTICES
        yield Finding("notice-" + kind.name, "note", "chart without site notices", chart="marked", why=kind.means,
                      action=kind.plan)


def _finding(case: Case, notice: NoticeText, number: int) -> Finding:
    readings = {airport: reading(case, notice, airport) for airport in airports(case)}
    kind = readings["destination"].notice.kind
    effect = "; ".join(f"{airport}: {effect_words(reading)}" for airport, reading in readings.items())
    computed, about, key = f"{effect}. {readings['destination'].notice.text}", f"notice {number}", "notice-" + kind.name
    inside = [reading for reading in readings.values() if not reading.outside]
    if kind is kinds.OTHER_SUBJECT and not any(reading.in_doubt for reading in inside):
        return not_compared(key, "notice", "not read", computed=computed, why=kind.means, action=kind.plan, about=about)
    if not inside or not any(reading.states or reading.without_sbas or reading.in_doubt for reading in inside):
        return Finding(key, "note", "notice", computed=computed, why=f"It takes nothing here: {effect}.",
                       action="See that this is so.", about=about)
    why = _why(kind, inside) + _lights(case, kind)
    return Finding(key, _grade(case, notice, readings), "notice", computed=computed, why=why,
                   action=_action(kind, inside), about=about)


def _grade(case: Case, notice: NoticeText, readings: dict[Airport, Reading]) -> Literal["stop", "resolve", "note"]:
    destination = readings["destination"]
    published = {line for row in case.approach.chart.minima for line in words.LINES[row.line]}
    gone = {line for line, state in destination.states.items() if state == "gone"}
    if published and published <= gone:
        return "stop"
    if notice.takes:
        return "note"
    if any(effect.in_doubt and not effect.outside for effect in readings.values()):
        return "resolve"
    if destination.notice.kind is kinds.RAIM_NOT_AVAILABLE and case.aircraft.equipment.sbas_class is None:
        return "resolve"
    after = worst_state(
        _after_additions(case, effect, line, state)
        for effect in readings.values() for line, state in effect.states.items())
    if destination.notice.kind in NOTE_KINDS or after == "noted":
        return "note"
    return "resolve"


def _why(kind: kinds.Kind, inside: list[Reading]) -> str:
    unread = tuple(dict.fromkeys(word for effect in inside if effect.in_doubt for word in effect.unread))
    if not any(effect.in_doubt for effect in inside) or kind in (kinds.NOT_KNOWN, kinds.TAKES_BACK):
        return kind.means + _unread(unread)
    return f"{kind.means} It names GPS, SBAS or the approach, and is not fully understood.{_unread(unread)}"


def _unread(unread: tuple[str, ...]) -> str:
    return f" Not understood: {', '.join(unread)}." if unread else ""


def _lights(case: Case, kind: kinds.Kind) -> str:
    """What the table of the United States usually adds where approach lights are out."""
    if kind is not kinds.LIGHTS_OUT or case.approach.identity.rule != "FAA":
        return ""
    usual = fact("inoperative_lights_sm")
    return f" Usual {usual.what}: {with_unit(miles(float(usual.value)), 'SM')} ({usual.status})."


def _action(kind: kinds.Kind, inside: list[Reading]) -> str:
    if any(effect.in_doubt for effect in inside) and kind is not kinds.TAKES_BACK:
        return kinds.NOT_KNOWN.plan
    return kind.plan


def effect_words(effect: Reading) -> str:
    """What a notice does at an airport, in words: "LPV not available; LNAV in doubt"."""
    if effect.outside:
        return effect.outside
    parts = []
    for state, text in STATE_WORDS.items():
        lines = [line for line in words.ALL_LINES if effect.states.get(line) == state]
        if lines:
            parts.append(f"{_lines(lines)} {text}")
    if effect.without_sbas:
        parts.append("counts without SBAS")
    return "; ".join(parts) or "nothing"


def _lines(lines: list[str]) -> str:
    """Lines in words, a whole family by its name."""
    if set(lines) >= set(words.ALL_LINES):
        return "every line"
    names = []
    if set(lines) >= set(words.SATELLITE_LINES):
        names, lines = ["every satellite line"], [line for line in lines if line not in words.SATELLITE_LINES]
    return ", ".join(names + lines)


def lines_lost(case: Case, airport: Airport, lines: tuple[str, ...]) -> dict[str, LineState]:
    """The gravest state of each line as an alternate lists it ("LNAV/VNAV" by either way: the better one counts)."""
    states = line_states(case, airport)
    lost = {}
    for line in lines:
        ways = [states.get(name, UNAFFECTED) for name in words.LINES.get(line, (line,))]
        lost[line] = min(ways, key=lambda line_state: kinds.STATES.index(line_state.state))
    return lost

"""One generated page per aircraft type, and the index that compares them."""

from collections.abc import Callable, Sequence
from functools import cache, partial
from pathlib import Path

from lpv.aircraft.record import Aircraft, Labels, read_all
from lpv.aircraft.schema import Step
from lpv.core.spoken import spoken
from lpv.core.text import exact, number, quantity
from lpv.decide.additive import added_kt
from lpv.facts.sources import SOURCES as DOCUMENTS
from lpv.files.schema import entries
from lpv.modes.annunciation import timeline
from lpv.modes.machine import run, step
from lpv.modes.properties import PROPERTIES
from lpv.modes.rules import BY_HAND, SBAS, Rules
from lpv.modes.selection import kept_without_power
from lpv.modes.ways import PREPARING, left_behind, set_up_events, shortest_way
from lpv.setup.sources import before_you_leave
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.pages.aircraft_file_page import file_page
from lpv_site.pages.mode_tables import (
    differences_table,
    follows_table,
    left_table,
    levels_table,
    next_crew_table,
    rules_table,
    shown_table,
    sources_table,
    traps_list,
)
from lpv_site.text.table import stacked, table
from lpv_site.text.text import escape, front_matter

MAX_COMPARED = 3
AFTER_LANDING = "../after-landing/index.md#left"
EVENTS = ("course reached", "path reached from above", "path reached from below", "PFAF passed",
          "go around")


@cache
def aircraft_types(folder: Path) -> tuple[Aircraft, ...]:
    """Every type of a folder; DataError with every fault of every file."""
    return tuple(read_all(folder))
GUSTS_KT = (10.0, 30.0)  # over the steady wind, for which the page says what is added


def aircraft_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown, for the index and every type."""
    types = aircraft_types(docs / "aircraft")
    pages: dict[str, Callable[[], str]] = {"aircraft/index.md": partial(build_aircraft_index_page, types)}
    return pages | file_page(docs) | {f"aircraft/{row.slug}.md": partial(build_aircraft_page, row) for row in types}


def build_aircraft_page(aircraft: Aircraft) -> str:
    """The page of one type as Markdown: its words and speeds, what its modes do, and what is proven of them."""
    name = aircraft.type.name
    head = front_matter(name, "Speeds, modes and cockpit words: " + name)
    return head + "\n".join(section(aircraft) for section in SECTIONS)


def headline(aircraft: Aircraft) -> str:
    """What it is, and the few things that a crew compares first."""
    invented = " No such type exists." if aircraft.type.invented else ""
    rules, operator, equipment = aircraft.rules, aircraft.operator, aircraft.equipment
    within = aircraft.capture.arms_within_nm
    pairs = [
        ("category", aircraft.type.category),
        ("best level", rules.best_level),
        ("LP minima", equipment.lp),
        ("lowest DA above TDZE", quantity(operator.lowest_da_above_tdze_ft, "ft")),
        ("source control", rules.source_control),
        ("source after landing", "✕ SBAS stays" if left_behind(rules)[1][1] == SBAS else "not SBAS"),
        ("source after power-down", "✕ SBAS stays" if left_behind(rules)[-1][1] == SBAS else "not SBAS"),
        ("glidepath arms", rules.vertical_arms),
        ("glidepath met from above", rules.path_from_above),
        ("autopilot off by", _autopilot(aircraft)),
        ("added for gusts", _gusts(aircraft)),
        ("arms within", "" if within is None else
         f"{exact(within)}\u202fNM of the {spoken(aircraft.capture.arms_within_of or '')}"),
    ]
    return f"{escape(aircraft.type.about + '.')}{invented}\n\n" + stacked([("At a glance", pairs)])


def _autopilot(aircraft: Aircraft) -> str:
    """The lowest height of the autopilot, "" where the file gives none."""
    lowest_ft = aircraft.flying.autopilot_lowest_ft
    return "" if lowest_ft is None else f"{quantity(lowest_ft, 'ft')} above the runway"


def _gusts(aircraft: Aircraft) -> str:
    """What the operator adds to VREF in the example's gusts, "" where it has no rule."""
    rule = aircraft.operator.rule_of_additive()
    if rule is None:
        return ""
    headwind = f"{quantity(100.0 * rule.headwind_share, '%')} of the headwind, and " if rule.headwind_share else ""
    return headwind + "; ".join(
        f"{quantity(added_kt(rule, 0.0, gust_kt), 'kt')} for a gust of {quantity(gust_kt, 'kt')} over the steady wind"
        for gust_kt in GUSTS_KT)


def duties(aircraft: Aircraft) -> str:
    """Who flies and who monitors, with their calls, as the operator has it."""
    rows = [(spoken(duty.at), escape(duty.flying), escape(duty.monitoring)) for duty in aircraft.operator.duties]
    text = "## Who flies, who monitors { #duties }\n\nThe operator's own division of tasks. Nothing here checks it.\n\n"
    return text + table(["when", "pilot flying", "pilot monitoring"], rows, left=3) if rows else ""


def labels(aircraft: Aircraft) -> str:
    """What its own cockpit calls things, beside this handbook's words."""
    names = {key: entry.what.rpartition(": ")[2] for key, entry in entries(Labels).values()}
    rows = [
        (neutral, f"**{escape(aircraft.label(key, neutral))}**")
        for key, neutral in names.items() if aircraft.label(key, "")
    ]
    text = table(["here", "in this cockpit"], rows, left=2) if rows else (
        "The file gives no labels of its own; the words are this handbook's.\n")
    return "## Its words { #labels }\n\n" + text


def speeds(aircraft: Aircraft) -> str:
    """Reference speeds by weight, and the schedule of an approach."""
    references = [
        (escape(row.configuration), quantity(row.weight_lb, "lb"), f"**{quantity(row.vref_kt, 'kt')}**")
        for row in aircraft.landing.vref
    ]
    steps = [
        (escape(step.label), quantity(step.before_pfaf_nm, "NM", 0.1), _target(step),
         "" if step.limit_kt is None else quantity(step.limit_kt, "kt"))
        for step in aircraft.schedule
    ]
    return (
        "## Speeds { #speeds }\n\n" + table(["configuration", "weight", "VREF"], references)
        + "\n" + table(["step", "before FAF", "speed", "limit"], steps)
    )


def _target(step: Step) -> str:
    if step.above_vref_kt is not None:
        return f"VREF + {number(step.above_vref_kt)}"
    return quantity(step.speed_kt or 0.0, "kt")


def calls(aircraft: Aircraft) -> str:
    """What is called on the way to a minimum."""
    rows = [
        (call.minimum, quantity(call.above_ft, "ft"), escape(call.words)) for call in aircraft.operator.call_outs
    ]
    return "## Calls { #calls }\n\n" + table(["to a", "above it", "call"], rows, left=3) if rows else ""


def normal(aircraft: Aircraft) -> str:
    """A normal approach, event by event, with its own rules."""
    rules = aircraft.rules
    events = normal_events(rules)
    return "## An approach, event by event { #normal }\n\n" + timeline_figure(
        "approach-figure", events, rules, set_up=set_up_events(rules), begin="approach active",
        answer=events[0], finding=_normal_in_words(aircraft),
    )


def normal_events(rules: Rules) -> tuple[str, ...]:
    """The events of a normal approach of a type, from the approach being active and the source ready."""
    first = run(set_up_events(rules), rules)
    ready = shortest_way(
        first, PREPARING[:-2], rules, lambda state: step(state, "course reached", rules).lateral == "captured") or ()
    path = ("arm path",) if rules.vertical_arms == "by its own control" else ()
    return (*ready, *path, *EVENTS)


def _normal_in_words(aircraft: Aircraft) -> str:
    """What the figure of a normal approach shows, worked out from its moments."""
    rules = aircraft.rules
    moments = timeline(normal_events(rules), rules, run(set_up_events(rules), rules))
    by_event = {moment.event: moment.state.vertical for moment in moments}
    if "armed" not in by_event.values():
        return "The level of service has no glidepath: vertical guidance never arms."
    above = "is captured" if by_event["path reached from above"] == "captured" else "stays armed"
    return (f"The glidepath arms {rules.vertical_arms}; met from above, it {above}. "
            + ("The go-around is flown by hand." if rules.go_around == BY_HAND else
               f"The go-around flies {rules.go_around_roll}."))


def sources(aircraft: Aircraft) -> str:
    """The guidance sources, and what is shown by what is selected and tuned."""
    return (
        "## Its guidance sources { #sources }\n\n" + sources_table(aircraft.rules)
        + "\n## What is shown { #shown }\n\n" + shown_table([("shown", aircraft.rules)])
    )


def traps(aircraft: Aircraft) -> str:
    """Where it can catch a crew."""
    return "## Where it can catch you { #traps }\n\n" + traps_list(aircraft.exploration)


def levels(aircraft: Aircraft) -> str:
    """Every change of the level of service."""
    return "## Level of service, change by change { #levels }\n\n" + levels_table(aircraft.rules)


def follows(aircraft: Aircraft) -> str:
    """Every change of a mode."""
    return "## What follows what { #follows }\n\n" + follows_table(aircraft.exploration)


def left(aircraft: Aircraft) -> str:
    """What is left set, and what the next crew sees."""
    return (
        "## What is left set { #left }\n\nAfter an SBAS approach flown with a localizer tuned:\n\n"
        + left_table(aircraft.rules) + _power(aircraft) + "\n## What the next crew sees { #next-crew }\n\n"
        + next_crew_table(aircraft.rules)
    )


def _power(aircraft: Aircraft) -> str:
    """A warning where the selected source survives the removal of power."""
    if not kept_without_power(aircraft.rules):
        return ""
    leave = before_you_leave(aircraft.rules)
    return (
        '\n!!! warning "The selected source survives power-down"\n\n    Power-down resets nothing: '
        f"the next crew inherits your selection, even days later. {leave + ' ' if leave else ''}"
        f"Read the source at every power-up. [After landing]({AFTER_LANDING})\n"
    )


def behaviour(aircraft: Aircraft) -> str:
    """Every rule of its modes in words."""
    return "## Its rules, one by one { #rules }\n\n" + rules_table(aircraft.rules)


def proven(aircraft: Aircraft) -> str:
    """How many states it can get into, and what holds in all of them."""
    proof = aircraft.exploration
    return (
        "## What is proven { #proven }\n\n"
        f"Parked and powered, it can reach {proof.states} states, the farthest after {proof.depth} events. "
        f"Each event was tried in each state, {proof.tried} pairs; {proof.transitions} of them change something. "
        "In every one of them:\n\n" + "".join(
            f"- {_statement(key)}{_untested(key) if key in proof.untested else ''}\n" for key in proof.proven)
    )


def _untested(key: str) -> str:
    """That nothing in the type puts a property to the test, and why."""
    rule = next(rule for rule in PROPERTIES if rule.key == key)
    return f". **Never put to the test in this type:** {rule.untested}"


def _statement(key: str) -> str:
    """A property in words, with the regulation that asks for it."""
    rule = next(rule for rule in PROPERTIES if rule.key == key)
    regulation = rule.regulation
    document = DOCUMENTS[regulation.source][1]
    return f"{rule.statement} ({escape(document)}, {regulation.place}; {regulation.status})"


SECTIONS: tuple[Callable[[Aircraft], str], ...] = (
    headline, traps, labels, normal, sources, levels, follows, left, speeds, calls, duties, behaviour, proven,
)


def build_aircraft_index_page(types: Sequence[Aircraft]) -> str:
    """The index of all types, what they differ in, and what is proven of every one."""
    page = (
        front_matter("Aircraft", "One page for each type - its words, its speeds, what its modes do and what is proven "
                     "of them.")
        + "What your type does with the guidance. Find yours, "
        "then read how it differs from the last one you flew.\n\n"
    )
    page += "".join(
        f"- [{escape(row.type.name)}]({row.slug}.md): category {row.type.category}, {row.rules.best_level}. "
        f"{escape(row.type.about)}.\n" for row in types
    )
    return page + _differences(types[:MAX_COMPARED]) + _proven_of_all(types)


def _differences(types: Sequence[Aircraft]) -> str:
    if len(types) < 2:
        return ""
    return "\n## Where they differ { #differences }\n\n" + differences_table(
        [(escape(row.type.name), row.rules) for row in types])


def _proven_of_all(types: Sequence[Aircraft]) -> str:
    states = sum(row.exploration.states for row in types)
    return (
        "\n## What is proven of every type { #proven }\n\nBefore this page was made, every event was tried in every "
        f"state that a type can reach, {states} states in all. A file that breaks one of these stops the build, "
        "with the shortest sequence of events that shows it:\n\n"
        + "".join(f"- {_statement(rule.key)}\n" for rule in PROPERTIES)
        + "\nA design that no regulation or its guidance forbids is described, not refused; where it can catch a "
        "crew, the page of the type says so. How a type is written down: [the aircraft file](file.md).\n"
    )

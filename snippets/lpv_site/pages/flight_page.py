"""One generated page per scenario file docs/modes/scenarios/*.toml: the flight, what happened, what it amounts to.

Every scenario is flown when the site is built; nothing of it is kept.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from textwrap import shorten

from lpv.aircraft import record as aircraft
from lpv.aircraft.record import Aircraft
from lpv.approach import record as approach
from lpv.approach.record import Approach
from lpv.core.errors import DataError, DomainError, Fault
from lpv.core.text import number, quantity
from lpv.decide.stabilised import DONE
from lpv.files.toml_reader import read_folder
from lpv.modes.machine import EVENTS
from lpv.simulate import scenario
from lpv.simulate.pfaf import why_not_charted
from lpv.simulate.records import Flight, JudgedGate, Moment, Sample
from lpv.simulate.replay import replay_text
from lpv.simulate.simulation import simulate, summary
from lpv_site.department.data import DOCS, once
from lpv_site.figures.flight_figures import flight_figure
from lpv_site.figures.flight_views import plan_of_flight, profile_of_flight
from lpv_site.forms.live import build_player
from lpv_site.text.facts import PAGE as FACTS_PAGE
from lpv_site.text.links import relative
from lpv_site.text.table import stacked, table
from lpv_site.text.text import escape, front_matter

LONGEST_DESCRIPTION = 190
SAID = re.compile(r"(.+?): found (.+); allowed: (.+)\.")  # an error of `lpv.core.errors`
WEIGHT = "landing weight"
ASSUMED = DONE[2]  # of a gate: what a simulation cannot show
LINK_TO_FACTS = relative(FACTS_PAGE, "modes/scenarios.md")
TOLD = (*EVENTS, "crew", "through the course", "minimum", "lowest", "missed approach point", "scale",
        "gate lost", "tailwind", "leg", "level", "end")


@dataclass(frozen=True)
class Flown:
    """A scenario with its approach, its type, and the flight."""

    flight: Flight
    approach: Approach
    aircraft: Aircraft

    @property
    def kind(self) -> str:
        """What kind of flight it is, one of `lpv.simulate.scenario.KINDS`."""
        return self.flight.scenario.story.kind

    @property
    def name(self) -> str:
        """Name of its page in the folder modes/, without its ending."""
        return f"scenario-{self.flight.scenario.slug}"


@once
def flown(docs: Path = DOCS) -> tuple[Flown, ...]:
    """Every scenario of docs/modes/scenarios/, flown, by kind and name; DataError with the faults of all of them."""
    found = read_folder(docs / "modes" / "scenarios", partial(_fly, docs))
    return tuple(sorted(found, key=lambda one: (scenario.KINDS.index(one.kind), one.flight.scenario.story.name)))


def _fly(docs: Path, path: Path) -> Flown:
    found = scenario.read(path)
    of = approach.read(docs / "approaches" / f"{found.story.approach}.toml")
    by = aircraft.read(docs / "aircraft" / f"{found.story.aircraft}.toml")
    try:
        return Flown(simulate(found, of, by), of, by)
    except DomainError as error:
        raise DataError([_fault(path.name, str(error))]) from error


def _fault(file: str, told: str) -> Fault:
    """What a flight that cannot be computed says about the scenario's file, as one fault with its key."""
    parts = SAID.fullmatch(told)
    if parts is None:
        return Fault(file, "", told, "a flight that can be computed", "Change the scenario.")
    what, found, allowed = parts.groups()
    if what == WEIGHT:
        return Fault(file, "scenario.weight_lb", found, f"{allowed}, where the type has reference speeds",
                     "Change it, or add rows to the aircraft file.")
    return Fault(file, "", f"{what}: {found}", allowed, "Change the scenario.")


def flight_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown, for every scenario."""
    return {f"modes/{one.name}.md": partial(build_flight_page, one) for one in flown(docs)}


def build_flight_page(one: Flown) -> str:
    """The page of one flown scenario as Markdown."""
    story = one.flight.scenario.story
    about = shorten(story.about, LONGEST_DESCRIPTION, placeholder=" …")
    page = front_matter(story.name, about, search=0.5)  # the pages of the tasks come first
    page += f"{escape(story.about)}\n\n"
    page += (
        "## The flight { #flight }\n\nSolid: what the flying side shows. Dashed: deviation from SBAS, where that is "
        "not what is shown.\n\n" + flight_figure(one.flight, one.aircraft.rules)
    )
    page += (
        "\n\n## Moment by moment { #play }\n\nFrom above, from the side, and what is annunciated. Move the time, go "
        "from event to event, or let it run.\n" + build_player(replay_text(one.flight), LINK_TO_FACTS)
    )
    page += (
        "\n\n## From above and from the side { #views }\n\n" + plan_of_flight(one.flight) + "\n"
        + profile_of_flight(one.flight)
    )
    return page + "\n".join(("", _happened(one), _gates(one), _amounts_to(one), _flown_with(one)))


def _happened(one: Flown) -> str:
    rows = [_row(moment) for moment in one.flight.moments if moment.key in TOLD]
    heads = ["NM", "altimeter", "what, and what is shown then"]
    text = "## What happened { #happened }\n\n" + table(heads, rows, left=3)
    later = [moment for moment in one.flight.moments if moment.sample is None]
    if later:
        text += "\nAfterwards:\n\n" + "".join(f"- {_words(moment)}\n" for moment in later)
    return text


def _row(moment: Moment) -> tuple[str, str, str]:
    at = moment.sample
    return (
        number(at.along_nm, 0.1) if at else "", quantity(at.indicated_ft, "ft") if at else "", _words(moment),
    )


def _words(moment: Moment) -> str:
    """What happened, and each thing that is then shown differently."""
    changed = [f"{escape(change.partition(':')[0])} **{escape(_new(change))}**" for change in moment.changes]
    return escape(moment.what) + (f"<br>→ {', '.join(changed)}" if changed else "")


def _new(change: str) -> str:
    """The new words of a change, as the mode figures have them: "lateral: from armed to captured" -> "captured"."""
    return change.rpartition(" to ")[2].replace(", vertical lost", " less vertical").replace(", lost", " lost")


def _gates(one: Flown) -> str:
    """Every gate that was passed, item by item."""
    text = "## What each gate says { #gates }\n\n"
    if not one.flight.gates:
        return text + "No gate was reached.\n"
    return text + stacked([(_verdict(gate), _items(gate)) for gate in one.flight.gates])


def _verdict(gate: JudgedGate) -> str:
    said = "stabilized" if gate.stable else "not stabilized"
    return f"{escape(gate.gate.name)}: <strong>{said}</strong>"


def _items(gate: JudgedGate) -> list[tuple[str, str]]:
    """Label and words of each item of a gate; what was lost below it comes last."""
    found = [(escape(item.item), "not flown here, taken as done" if item.item == ASSUMED else
              f"{'✓' if item.met else '✕'} {escape(item.found)} ({escape(item.limit)})")
             for item in gate.items]
    if gate.lost:
        what, at = gate.lost
        found.append(("below it", f"✕ {escape(what)}, at {quantity(at.indicated_ft, 'ft')} on the altimeter"))
    return found


def _amounts_to(one: Flown) -> str:
    found = summary(one.flight)
    established = "never" if found.established_nm is None else quantity(found.established_nm, "NM", 0.1)
    pairs = [
        ("course captured", _where(found.course_captured)),
        ("path captured", _where(found.path_captured)),
        ("through the course by", quantity(found.overshoot_ft, "ft")),
        ("within one dot from", established),
        ("charted at the FAF", _charted(one)),
        ("altimeter there", _altitude(found.pfaf)),
        ("true altitude there", quantity(found.pfaf.altitude_ft, "ft") if found.pfaf else "not reached"),
        ("minimum used", quantity(one.flight.minimum_ft, "ft")),
        ("lowest in the go-around", _altitude(found.lowest) if found.go_around else ""),
        ("steepest bank", quantity(found.steepest_bank_deg, "°")),
        ("highest rate down", quantity(found.highest_sink_fpm, "ft/min")),
        ("not stabilized at", escape(", ".join(found.unstable)) or ("none" if one.flight.gates else "no gate reached")),
        ("the end", escape(found.ending)),
    ]
    why = why_not_charted(one.flight, one.approach)
    at_pfaf = f"\nAt the FAF: {escape(why[:1].lower() + why[1:])}\n" if why else ""
    return "## In numbers { #numbers }\n\n" + stacked([("The flight", pairs)]) + at_pfaf


def _charted(one: Flown) -> str:
    charted_ft = one.approach.pfaf.altitude_ft
    return "" if charted_ft is None else quantity(charted_ft, "ft")


def _where(at: Sample | None) -> str:
    return "never" if at is None else f"{quantity(at.along_nm, 'NM', 0.1)}, {escape(at.source)}"


def _altitude(at: Sample | None) -> str:
    return "not reached" if at is None else quantity(at.indicated_ft, "ft")


def _flown_with(one: Flown) -> str:
    who, story = one.approach.identity, one.flight.scenario.story
    invented = "The flight is invented. " if story.invented else ""
    return (
        f"## Flown with {{ #with }}\n\n{invented}"
        f"[{escape(one.aircraft.type.name)}](../aircraft/{one.aircraft.slug}.md), "
        f"{quantity(story.weight_lb, 'lb')}, {quantity(story.temperature_c, 'deg C')} at the airport; "
        f"[{escape(who.airport)} {escape(who.title)}](../approaches/{story.approach}.md). What the simulation "
        "leaves out: [Scenarios](scenarios.md#computed).\n"
    )

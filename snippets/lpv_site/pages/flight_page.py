"""One generated page per scenario file docs/modes/scenarios/*.toml: the flight, what happened, what it amounts to.

Every scenario is flown when the site is built.  How it ended is kept for the list of all scenarios.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from textwrap import shorten
from typing import Any

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
from lpv.simulate.scenario import Scenario
from lpv.simulate.simulation import simulate, summary
from lpv_site.build import reach, store
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
        "gate lost", "tailwind", "autopilot", "autopilot low", "leg", "speed", "restriction", "level", "end")


@dataclass(frozen=True)
class Flown:
    """A scenario with its approach, its type, and the flight."""

    flight: Flight
    approach: Approach
    aircraft: Aircraft


@dataclass(frozen=True)
class Ended:
    """How the flight of a scenario ended, and whether it was stabilized at every gate."""

    scenario: Scenario
    ending: str
    stable: bool

    @property
    def name(self) -> str:
        """Name of its page in the folder modes/, without its ending."""
        return page_name(self.scenario)


def page_name(story: Scenario) -> str:
    return f"scenario-{story.slug}"


@once
def scenarios(docs: Path = DOCS) -> tuple[Scenario, ...]:
    """Every scenario of docs/modes/scenarios/ by kind and name; DataError with the faults of all of them."""
    stories = read_folder(docs / "modes" / "scenarios", scenario.read)
    return tuple(sorted(stories, key=lambda row: (scenario.KINDS.index(row.story.kind), row.story.name)))


def _files(docs: Path, story: Scenario) -> dict[str, Path]:
    """The files that a flight is made of."""
    return {"scenario": docs / "modes" / "scenarios" / f"{story.slug}.toml",
            "approach": docs / "approaches" / f"{story.story.approach}.toml",
            "aircraft": docs / "aircraft" / f"{story.story.aircraft}.toml"}


@cache
def flown(docs: Path, story: Scenario) -> Flown:
    """A scenario with its approach and type, flown; DataError where that cannot be."""
    files = _files(docs, story)
    over, jet = approach.read(files["approach"]), aircraft.read(files["aircraft"])
    try:
        return Flown(simulate(story, over, jet), over, jet)
    except DomainError as error:
        raise DataError([_fault(files["scenario"].name, str(error))]) from error


def ended(docs: Path, story: Scenario) -> Ended:
    """How a scenario ends, as its page has found or, if there is none yet, as its flight shows; errors as `flown`."""
    data = [path.read_bytes() for path in _files(docs, story).values() if path.is_file()]
    key = store.key_of(reach.version(frozenset([f"{__name__}._end", f"{__name__}.flown"])), "flight", *data)
    return Ended(story, **store.kept(key, lambda: _end(flown(docs, story))))


def _end(item: Flown) -> dict[str, Any]:
    totals = summary(item.flight)
    return {"ending": totals.ending, "stable": not totals.unstable}


def _fault(file: str, message: str) -> Fault:
    """What a flight that cannot be computed says about the scenario's file, as one fault with its key."""
    parts = SAID.fullmatch(message)
    if parts is None:
        return Fault(file, "", message, "a flight that can be computed", "Change the scenario.")
    subject, actual, allowed = parts.groups()
    if subject == WEIGHT:
        return Fault(file, "scenario.weight_lb", actual, f"{allowed}, where the type has reference speeds",
                     "Change it, or add rows to the aircraft file.")
    return Fault(file, "", f"{subject}: {actual}", allowed, "Change the scenario.")


def flight_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown, for every scenario."""
    return {f"modes/{page_name(story)}.md": partial(_page, docs, story) for story in scenarios(docs)}


def _page(docs: Path, story: Scenario) -> str:
    ended(docs, story)  # which keeps it
    return build_flight_page(flown(docs, story))


def build_flight_page(item: Flown) -> str:
    """The page of one flown scenario as Markdown."""
    story = item.flight.scenario.story
    about = shorten(story.about, LONGEST_DESCRIPTION, placeholder=" …")
    page = front_matter(story.name, about, search=0.5)  # the pages of the tasks come first
    page += f"{escape(story.about)}\n\n"
    page += (
        "## The flight { #flight }\n\nSolid: what the flying side shows. Dashed: the deviation from the SBAS "
        "approach, where another source is shown.\n\n" + flight_figure(item.flight, item.aircraft.rules)
    )
    page += (
        "\n\n## Moment by moment { #play }\n\nPlan, profile and annunciations. Move the time, step "
        "from event to event, or play it.\n" + build_player(replay_text(item.flight), LINK_TO_FACTS)
    )
    page += (
        "\n\n## From above and from the side { #views }\n\n" + plan_of_flight(item.flight) + "\n"
        + profile_of_flight(item.flight)
    )
    return page + "\n".join(("", _happened(item), _gates(item), _amounts_to(item), _flown_with(item)))


def _happened(item: Flown) -> str:
    rows = [_row(moment) for moment in item.flight.moments if moment.key in TOLD]
    heads = ["NM", "altimeter", "what happened, and what is then shown"]
    text = "## What happened { #happened }\n\n" + table(heads, rows, left=3)
    later = [moment for moment in item.flight.moments if moment.sample is None]
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
    return change.rpartition(" to ")[2].replace(", vertical lost", ", no vertical").replace(", lost", " lost")


def _gates(item: Flown) -> str:
    """Every gate that was passed, item by item."""
    text = "## What each gate says { #gates }\n\n"
    if not item.flight.gates:
        return text + "No gate was reached.\n"
    return text + stacked([(_verdict(gate), _items(gate)) for gate in item.flight.gates])


def _verdict(gate: JudgedGate) -> str:
    verdict = "stabilized" if gate.stable else "not stabilized"
    return f"{escape(gate.gate.name)}: <strong>{verdict}</strong>"


def _items(gate: JudgedGate) -> list[tuple[str, str]]:
    """Label and words of each item of a gate; what was lost below it comes last."""
    items = [(escape(item.item), "not simulated, taken as done" if item.item == ASSUMED else
              f"{'✓' if item.met else '✕'} {escape(item.actual)} ({escape(item.limit)})")
             for item in gate.items]
    if gate.lost:
        item_lost, at = gate.lost
        items.append(("below it", f"✕ {escape(item_lost)}, at {quantity(at.indicated_ft, 'ft')} on the altimeter"))
    return items


def _amounts_to(item: Flown) -> str:
    totals = summary(item.flight)
    established = "never" if totals.established_nm is None else quantity(totals.established_nm, "NM", 0.1)
    pairs = [
        ("course captured", _where(totals.course_captured)),
        ("glidepath captured", _where(totals.path_captured)),
        ("through the course by", quantity(totals.overshoot_ft, "ft")),
        ("within one dot from", established),
        ("charted at the FAF", _charted(item)),
        ("altimeter there", _altitude(totals.pfaf)),
        ("true altitude there", quantity(totals.pfaf.altitude_ft, "ft") if totals.pfaf else "not reached"),
        ("minimum used", quantity(item.flight.minimum_ft, "ft")),
        ("lowest in the go-around", _altitude(totals.lowest) if totals.go_around else ""),
        ("steepest bank", quantity(totals.steepest_bank_deg, "°")),
        ("highest rate down", quantity(totals.highest_sink_fpm, "ft/min")),
        ("not stabilized at", escape(", ".join(totals.unstable)) or (
            "none" if item.flight.gates else "no gate reached")),
        ("ends", escape(totals.ending)),
    ]
    why = why_not_charted(item.flight, item.approach)
    at_pfaf = f"\nAt the FAF: {escape(why[:1].lower() + why[1:])}\n" if why else ""
    return "## In numbers { #numbers }\n\n" + stacked([("The flight", pairs)]) + at_pfaf


def _charted(item: Flown) -> str:
    charted_ft = item.approach.pfaf.altitude_ft
    return "" if charted_ft is None else quantity(charted_ft, "ft")


def _where(at: Sample | None) -> str:
    return "never" if at is None else f"{quantity(at.along_nm, 'NM', 0.1)}, {escape(at.source)}"


def _altitude(at: Sample | None) -> str:
    return "not reached" if at is None else quantity(at.indicated_ft, "ft")


def _flown_with(item: Flown) -> str:
    who, story = item.approach.identity, item.flight.scenario.story
    invented = "The flight is invented. " if story.invented else ""
    return (
        f"## Flown with {{ #with }}\n\n{invented}"
        f"[{escape(item.aircraft.type.name)}](../aircraft/{item.aircraft.slug}.md), "
        f"{quantity(story.weight_lb, 'lb')}, {quantity(story.temperature_c, 'deg C')} at the airport; "
        f"[{escape(who.airport)} {escape(who.title)}](../approaches/{story.approach}.md). What the simulation "
        "leaves out: [Scenarios](scenarios.md#computed).\n"
    )

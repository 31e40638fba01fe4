"""How a type is written down: every key of an aircraft file, every word of its modes, what is refused and why.

Made from the records that read the files, so that it cannot be out of date.
"""

import re
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from lpv.aircraft import record
from lpv.aircraft.record import Aircraft
from lpv.core.text import exact, exact_quantity, interval
from lpv.facts.sources import SOURCES as DOCUMENTS
from lpv.files.schema import Entry, entries
from lpv.modes.meanings import MEANINGS, SOURCE_MEANINGS
from lpv.modes.properties import PROPERTIES
from lpv.modes.rules import LISTS, RULES
from lpv.modes.traps import TRAPS
from lpv_site.pages.aircraft_recipes import RECIPES
from lpv_site.text.table import table
from lpv_site.text.text import escape, front_matter

ADDRESS = "aircraft/file.md"
EXAMPLE = "large-jet"
KINDS = {
    "text": "text", "texts": "list of texts", "choice": "one of", "choices": "list of", "number": "number",
    "whole": "whole number", "flag": "true or false",
}
SPLIT = ("modes", "source")  # tables that have a section of their own


def build_aircraft_file_page(docs: Path) -> str:
    """The page as Markdown; docs: where the example's file stands, in `aircraft/`."""
    head = front_matter(
        "The aircraft file", "Every key of an aircraft file with unit, range and words; what is refused, and why.")
    files = sorted((docs / "aircraft").glob("*.toml"))
    named = [path for path in files if path.stem == EXAMPLE] or files[:1]
    parts = (_how(), _tables(), _sources(), _modes(), _recipes(), _refused())
    return head + "\n".join((*parts, *[_example(path.read_text("utf-8")) for path in named]))


def file_page(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown."""
    return {ADDRESS: partial(build_aircraft_file_page, docs)}


def _how() -> str:
    return """One TOML file describes one type, in `docs/aircraft/`; from it come the type's page, its schedule, its
simulated flights and its set-up checks.

## Do { #do }

1. Name the file in small letters, digits and single hyphens, ending in `.toml`: it becomes the page's address.
2. Write every table below. Every key must be there unless it is optional; nothing is guessed, and an unknown key
   is a fault.
3. Describe the type as it **is**, not as it should be. A design that can catch a crew is described, with a warning;
   only what a regulation or its guidance forbids is [refused](#refused).
4. Check it: `lpv aircraft FILE` prints every fault at once, with what was found, what is allowed and what to
   do; or what was proven, and where the type can catch you. Once each table is right by itself, it names
   contradictions between tables, such as drag for a step that is not in the schedule.
5. Read its warnings: a source that can never be armed or captured, the keys that decide it, and a property that
   nothing in the type puts to the test.
6. Read its table: what is shown after the loss of guidance, a go-around, a localizer left tuned, a change of level, and
   the removal of power. If a row is not what the type does, a key says something else than you meant.
7. Write the words of a `[modes]` choice exactly as here, in quotes; a list is `["...", "..."]`, or `[]`.

Weights are in lb, speeds in kt indicated, distances in NM, deviations in dots of a two-dot scale (two are full scale).
For your editor there is a [schema](../reference/cycle.md#cycle-schemas). A complete file is at the end of this page.
"""


def _tables() -> str:
    """Every table of the file but those of the modes, in order."""
    return "## Key by key { #keys }\n\n" + "\n".join(
        _table(key, entry) for key, (_, entry) in entries(Aircraft).items() if key not in SPLIT)


def _table(key: str, entry: Entry, parent: str = "") -> str:
    """One table: a heading, what it is, its keys, then the tables within it."""
    name = f"{parent}{key}"
    rows = [_row(inner, field) for inner, (_, field) in entries(entry.record).items() if field.record is None]
    within = [_table(inner, field, name + ".") for inner, (_, field) in entries(entry.record).items() if field.record]
    identity = "key-" + name.replace(".", "-").replace("_", "-")
    text = f"### `{_brackets(name, entry)}` {{ #{identity} }}\n\n{_what(entry)}\n\n"
    return "\n".join([text + table(["key", "holds", "meaning"], rows, left=3), *within])


def _brackets(name: str, entry: Entry) -> str:
    return f"[[{name}]]" if entry.kind == "tables" else f"[{name}]"


def _what(entry: Entry) -> str:
    """What a table is, how often it stands there, and what the record itself says of its rules."""
    times = "Optional. " if not entry.required else ""
    if entry.kind == "tables":
        often = f"Repeated, {interval(entry.low, entry.high)} times. "
        times = often if entry.low else "Repeated, or left out. "
    notes = (entry.record.faults.__doc__ or "") if hasattr(entry.record, "faults") else ""
    what = entry.what[:1].upper() + entry.what[1:] + ". "
    return f"{what}{times}{escape(' '.join(notes.split()))}".strip()


def _row(key: str, entry: Entry) -> tuple[str, str, str]:
    optional = "" if entry.required else "<br>optional"
    return f"`{key}`{optional}", _holds(entry), escape(entry.what)


def _holds(entry: Entry) -> str:
    if entry.kind in ("number", "whole"):
        return f"{KINDS[entry.kind]}, {exact(entry.low)} to {exact_quantity(entry.high, entry.unit)}"
    if entry.kind in ("choice", "choices"):
        return f"{KINDS[entry.kind]}<br>" + ",<br>".join(f'"{escape(word)}"' for word in entry.allowed)
    return KINDS.get(entry.kind, entry.kind)


SOURCE_KEYS = {
    "name": "Which source.",
    "offered": "What must hold, all of it, for the source to be selected. Left out: always offered. Each condition "
               "also exists with `no ` before it, but for the last two.",
    "guides_while": "As `offered`, for guiding. Left out: nothing besides.",
    "selected_by": "What selects it, any of it.",
    "removed_by": "What takes it away, any of it. Left out: only selecting another does.",
}


def _sources() -> str:
    parts = [
        """## Guidance sources: `[[source]]` { #sources }

One table for each source that the type has, at most three: SBAS, ILS, FMS lateral navigation. On each side one of them
is always selected. The **order of the tables** counts: where two could be selected, the one that stands first is.

1. At power-up, and whenever a source is taken away, the first source takes over that has `"another taken away"` in
   `selected_by` and is offered then. One source must have it and no `offered`, so that there always is one.
2. An event in `removed_by` of the selected source takes it away; an event in `selected_by` of another source selects
   that one, if its `offered` holds. Selecting one source always replaces the other.
3. A source **guides** while it is selected, everything in `guides_while` holds, and it has what it needs: SBAS an
   active SBAS approach with a level of service, ILS a tuned localizer on that side. Selected without guiding it is
   shown as "without guidance".
4. When what an armed or captured mode follows stops guiding, or becomes another source, the mode is lost: `[modes]`
   says what it then becomes.

"""]
    for key, what in SOURCE_KEYS.items():
        words = SOURCE_MEANINGS["offered" if key == "guides_while" else key]
        rows = [(f'`"{word}"`', meaning) for word, meaning in words.items()]
        body = "" if key == "guides_while" else "\n" + table(["word", "means"], rows, left=2)
        parts.append(f"### `{key}` {{ #source-{key.replace('_', '-')} }}\n\n{what}\n{body}")
    return "\n".join(parts)


def _modes() -> str:
    parts = ["""## Behavior: `[modes]` { #modes }

Lateral and vertical approach modes are each inactive, armed, captured or lost. A basic mode (heading;
altitude, rate or pitch) flies otherwise, and in some types an FMS lateral mode.

- **Arming** makes lateral guidance armed, vertical as `vertical_arms` says, if all of `arming_needs` holds.
- **Capture** of the course needs lateral armed and a source that guides, or one that its capture selects; of the
  glidepath, vertical armed and a glidepath: from SBAS at LPV or LNAV/VNAV, from the ILS, or from the altimeter with
  `baro_vnav = "approved"`. LNAV has none. `[capture]` says where.
- **When the source is lost**, `when_lateral_lost` and `when_vertical_lost` say what armed or captured guidance becomes.
- **The level of service** is annunciated at activation: the best one that SBAS, equipment and baro-VNAV support. Four
  keys say what happens to it when the signal falls or returns, before and inside the FAF.
- **From LPV** the signal can fall to LNAV/VNAV, then to LNAV. With `baro_vnav = "approved"` the glidepath of LNAV/VNAV
  is the altimeter's: a level that falls to the level supported stops at LNAV/VNAV, whatever becomes of SBAS vertical
  guidance. With that change the captured glidepath of SBAS is lost, and becomes what `when_vertical_lost` says.
  "falls to LNAV" makes it LNAV all the same; under "stays, flagged" there is no glidepath until the approach is
  activated again.
- **Activating** counts before the FAF and after a go-around. **A go-around, landing, and power-down** end the
  approach: not active, no level, nothing armed.
- Before `[modes]` stand the two keys `best_level` and `baro_vnav` of `[equipment]`.
"""]
    for key, (question, _) in {**RULES, **LISTS}.items():
        kind = "A list of any of these words." if key in LISTS else "One of these words."
        rows = [(f'`"{word}"`', meaning) for word, meaning in MEANINGS[key].items()]
        where = " In `[equipment]`." if key in ("best_level", "baro_vnav") else ""
        parts.append(f"### `{key}` {{ #mode-{key.replace('_', '-')} }}\n\n{question[:1].upper()}{question[1:]}. {kind}"
                     f"{NOTES.get(key, '')}{where}\n\n" + table(["word", "means"], rows, left=2))
    return "\n".join(parts)


NOTES = {
    "arming_too_early": ' Given exactly where `arming_needs` holds "the arming distance".',
    "autopilot_at_level_change": " May be left out: then the first.",
    "autopilot_at_go_around": ' May be left out: then the first. Left out with `go_around = "by hand alone"`.',
    "localizer_tuning": " May be left out: then the first.",
    "arming_needs": " May be empty: then it arms at any time in flight, even with no source.",
    "vertical_capture": ' "on its own" needs `capture.vertical_lateral_dots`.',
    "announced": " Whatever the type can do must be among them, or the file is refused.",
    "armed_by": " At least one.",
}


def _recipes() -> str:
    text = "## Designs, written down { #recipes }\n\nOnly the keys that make the difference.\n\n"
    for identity, (title, toml) in RECIPES.items():
        text += f"### {title} {{ #recipe-{identity} }}\n\n```toml\n{toml.strip()}\n```\n\n"
    return text


def _refused() -> str:
    """What refuses a file, and what only warns."""
    rules = [
        (f"{rule.statement} (`{rule.key}`)",
         f"{escape(DOCUMENTS[rule.regulation.source][1])}, {escape(rule.regulation.place)}; {rule.regulation.status}",
         ", ".join(f"`{key}`" for key in rule.rules))
        for rule in PROPERTIES
    ]
    return (
        "## What is refused, and what is described { #refused }\n\nEvery state that the type can get into is tried "
        "with every event. A file is refused, with the shortest sequence of events that shows it, where one of these "
        "does not hold:\n\n" + table(["what must hold", "whose rule", "decided by"], rules, left=3)
        + "\nA file is also refused for a missing or unknown key, a value outside its range, and for "
        "what cannot be true together:\n\n" + "".join(f"- {line}\n" for line in impossible())
        + "\n**Described, and never refused**, with a warning on the type's page, and by its short "
        "name in what `lpv aircraft` prints; a source that is never armed or captured is named first:\n\n"
        + "".join(f"- `{trap.key}`: {trap.statement}\n" for trap in TRAPS)
    )


def impossible() -> Iterator[str]:
    """What no single key shows, from the records' own words."""
    for method in record.CHECKS:
        first, *_ = re.sub(r"\s+", " ", (method.__doc__ or "").strip()).split(". ")
        yield escape(first.rstrip(".")) + "."


def _example(text: str) -> str:
    return f"## A whole file {{ #example }}\n\n```toml\n{text.strip()}\n```\n"

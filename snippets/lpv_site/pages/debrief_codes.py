"""The short codes of the debrief index: a permanent code for each entry under "When it goes wrong".

docs/debrief/codes.toml lists them, one line each.  A code is two letters of the task and a number.  Codes are
only ever added (tests/site/write_codes.py); when an entry goes, its code points to where it is treated since.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from lpv.approach.schema import FaultRow
from lpv.core.errors import DataError, Fault
from lpv.files import schema
from lpv.files import toml_reader as tomlfile
from lpv_site.department.data import DOCS
from lpv_site.text.headings import headings, wrong_entries

FILE = Path("debrief") / "codes.toml"
# What happened, in the order of the index: key -> heading.
GROUPS = {
    "guidance": "Guidance went, or never came",
    "source": "Another source",
    "level": "Another level than briefed",
    "course": "The course",
    "path": "The path down",
    "altitude": "Altimeter and altitudes",
    "speed": "Speed, configuration, gates",
    "decision": "Minimum and decision",
    "missed": "The missed approach",
    "set-up": "The set-up",
    "data": "Chart and database",
    "plan": "Planning and alternate",
    "after": "The next leg",
    "site": "This handbook",
}
# Folder of a page -> letters of its codes, group of an entry that nobody has sorted yet.
TASKS = {
    "plan": ("PL", "plan"),
    "verify": ("VE", "data"),
    "set-up": ("SU", "set-up"),
    "intercept": ("IN", "course"),
    "final": ("FI", "path"),
    "decide": ("DE", "decision"),
    "modes": ("MO", "guidance"),
    "after-landing": ("AL", "after"),
    "practice": ("PR", "site"),
    "reference": ("RE", "site"),
}
OWN_PAGES = ("OP", "site")  # pages that a department has added in folders of its own


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One code: where it leads, the group it stands in, and what happened in the words of a crew."""

    code: str = schema.text("permanent code", pattern="[A-Z]{2}-[0-9]{2}", example="VE-03")
    at: str = schema.text("page and id", pattern="[a-z0-9/-]+\\.md#[a-z0-9-]+", example="verify/index.md#finding-stop")
    group: str = schema.choice("what kind of thing happened", tuple(GROUPS))
    what: str = schema.text("what happened, as a crew would say it", longest=90)


@dataclass(frozen=True, kw_only=True)
class Codes:
    """The list of codes."""

    entries: tuple[Entry, ...] = schema.tables(Entry, "codes", least=1, most=2000, unique="code", key="entry")

    def faults(self) -> Iterator[FaultRow]:
        """One code for one place."""
        code_at_place: dict[str, str] = {}
        for number, entry in enumerate(self.entries, 1):
            if entry.at in code_at_place:
                yield (f"entry[{number}].at", f"{entry.at} for {entry.code} and {code_at_place[entry.at]}",
                       "one code a place", "Keep the older one.")
            code_at_place.setdefault(entry.at, entry.code)


@cache
def codes(docs: Path = DOCS) -> tuple[Entry, ...]:
    """Every code in the order of the file; DataError with every fault, those that lead nowhere included."""
    entries = tomlfile.read_file(docs / FILE, Codes).entries
    faults = [
        Fault(FILE.name, entry.code, f"{entry.at}, which is no heading", "page.md#id of a heading",
              "Name the place where it is treated now; never give the code to something else.")
        for entry in entries if entry.at not in headings(docs)
    ]
    if faults:
        raise DataError(faults)
    return entries


@cache
def code_at(docs: Path = DOCS) -> dict[str, str]:
    """Address ("verify/index.md#finding-stop") -> code."""
    return {entry.at: entry.code for entry in codes(docs)}


def uncoded(docs: Path = DOCS) -> dict[str, str]:
    """Address -> heading of every entry under "When it goes wrong" that has no code."""
    return {at: text for at, text in wrong_entries(docs).items() if at not in code_at(docs)}


def line_of(entry: Entry) -> str:
    """An entry as its line in the file."""
    what = entry.what.replace("\\", "\\\\").replace('"', '\\"')
    return f'  {{ code = "{entry.code}", at = "{entry.at}", group = "{entry.group}", what = "{what}" }},\n'


def new_entries(docs: Path = DOCS) -> list[Entry]:
    """A new code for every entry without one: the next number of its task, its heading as what happened."""
    last: dict[str, int] = {}
    for entry in codes(docs):
        letters, number = entry.code.split("-")
        last[letters] = max(last.get(letters, 0), int(number))
    made = []
    for at, text in uncoded(docs).items():
        letters, group = TASKS.get(at.split("/")[0], OWN_PAGES)
        last[letters] = last.get(letters, 0) + 1
        made.append(Entry(code=f"{letters}-{last[letters]:02d}", at=at, group=group, what=text))
    return made

"""A department's own folder: its name, looks, cautions, words and figures, from department.toml.

HANDBOOK_DATA names the folder (`make build DATA=/path`).  Beside department.toml it holds what docs/ of the handbook
holds, in the same places: approaches, aircraft and so on (see `lpv_site.department.files`), and `pages/`.  Nothing
of it is ever written to.  The file is read here once, before anything has read a fact: an own figure then acts
everywhere, and every page that prints it says so.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import os
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import Any

from lpv import facts
from lpv.core.errors import DataError, Fault
from lpv.core.text import exact_quantity
from lpv.facts import own
from lpv.facts.sources import SOURCES
from lpv.files import schema
from lpv.files import toml_reader as tomlfile
from lpv_site.department.colours import Colours

FaultRow = tuple[str, str, str, str]
FILE = "department.toml"
OWN = "department"  # where own pages, logo and colours lie below docs/ and on the site
# What may keep an edition from being published (`lpv_site.build.gate`), and what does where nothing is said.
GATE = ("stop", "duplicate", "unresolved", "to be filled", "not verified", "not compared", "expired",
        "not yet in force")
REFUSED = ("stop", "duplicate")
STATUSES = ("published", "published, quoted", "derived", "common practice", "from memory")
FIGURE = re.compile(r"fact\[(\d+)\]\.value")
ADDRESS = r"https?://[A-Za-z0-9.-]+(:[0-9]+)?/([A-Za-z0-9._~-]+/)*"


@dataclass(frozen=True, kw_only=True)
class Term:
    """An abbreviation of the department, for the glossary."""

    short: str = schema.text("the abbreviation", longest=20, pattern="[A-Za-z0-9/+-]+", example="OPC")
    meaning: str = schema.text("what it means", longest=160)


@dataclass(frozen=True, kw_only=True)
class OwnFact:
    """A figure that takes the place of one of ours."""

    key: str = schema.text("the key of our fact, as the facts page prints it", example="gate_imc_ft")
    value: float = schema.number("the department's own figure, in the unit of ours", "", -1e9, 1e9)
    source: str = schema.text("the document that says so", longest=120)
    place: str = schema.text("the place in it", required=False)
    status: str = schema.choice("how sure it is", STATUSES)

    def faults(self) -> Iterator[FaultRow]:
        """The key is one of ours, and a figure of its own."""
        ours = facts.FACTS.get(self.key)
        if ours is None:
            near = get_close_matches(self.key, facts.FACTS, 1)
            advice = f"Did you mean {near[0]}?" if near else "Look it up on the facts page."
            yield "key", self.key, "the key of a fact", advice
        elif isinstance(ours.value, str) or self.key.startswith(facts.IN_TABLES):
            yield ("key", f"{self.key}, which belongs to a text or a table", "a figure that stands by itself",
                   "Take it back; say what differs in a page of your own.")


@dataclass(frozen=True, kw_only=True)
class Department:
    """What department.toml says."""

    name: str = schema.text("name of the department", longest=60)
    title: str | None = schema.text("title of the site, if not LPV handbook", longest=40, required=False)
    address: str | None = schema.text("address at which it is published", pattern=ADDRESS, longest=120,
                                      example="https://handbook.example/lpv/", required=False)
    logo: str | None = schema.text("file of the logo in this folder", pattern="[a-z0-9-]+\\.(svg|png)",
                                   example="logo.svg", required=False)
    cautions: tuple[str, ...] = schema.texts("cautions that stand below ours", most=3, longest=200)
    refuse: tuple[str, ...] = schema.choices(
        "what no approach may have if the edition is to be published; where nothing is said, stop and duplicate",
        GATE, REFUSED)
    without_demo: bool = schema.flag("whether the demo's own approaches, aircraft, flights and drills are left out")
    pages_are_code: bool = schema.flag("whether pages of the department's may run Python while the site is built")
    colours: Colours | None = schema.table(Colours, "colors of the header and of links", required=False)
    terms: tuple[Term, ...] = schema.tables(Term, "abbreviations", most=500, unique="short", key="term")
    facts: tuple[OwnFact, ...] = schema.tables(OwnFact, "own figures", most=200, unique="key", key="fact")

    @property
    def site_name(self) -> str:
        """What stands in the header and under an icon on a phone."""
        return f"{self.title or 'LPV handbook'}, {self.name}"


@cache
def folder() -> Path | None:
    """The department's folder; None for the handbook as it comes."""
    named = os.environ.get("HANDBOOK_DATA")
    return Path(named).resolve() if named else None


@cache
def _read() -> tuple[Department | None, list[Fault]]:
    where = folder()
    if where is None:
        return None, []
    try:
        return tomlfile.read_file(where / FILE, Department), []
    except DataError as error:
        return None, [_beside_ours(fault, where / FILE) for fault in error.faults]


def _beside_ours(fault: Fault, path: Path) -> Fault:
    """A fault of an own figure with ours, in its unit, as what is allowed; any other fault as it is."""
    place = FIGURE.fullmatch(fault.key)
    if place is None:
        return fault
    key = tomllib.loads(path.read_text("utf-8"))["fact"][int(place[1]) - 1].get("key")
    ours = facts.FACTS.get(key) if isinstance(key, str) else None
    if ours is None or isinstance(ours.value, str):
        return fault
    ours = ours.ours or ours
    unit = f" in {ours.unit}" if ours.unit else ""
    allowed = f"a number{unit} in the place of ours, {exact_quantity(float(ours.value), ours.unit)}"
    return Fault(fault.file, fault.key, fault.found, allowed, fault.action)


def department() -> Department | None:
    """What department.toml says; None without one, or with one that has faults."""
    return _read()[0]


def file_faults() -> list[Fault]:
    """Every fault of department.toml."""
    return _read()[1]


def runs_code(address: str) -> bool:
    """Whether the fences of a page may be run: the handbook's may, a department's own where it says so."""
    owner = department()
    return not address.startswith(f"{OWN}/") or (owner is not None and owner.pages_are_code)


def cautions() -> tuple[str, ...]:
    """Cautions of the department's own, plain text."""
    owner = department()
    return owner.cautions if owner else ()


def terms() -> dict[str, str]:
    """Abbreviations of the department's own -> meaning, plain text."""
    owner = department()
    return {term.short: term.meaning for term in owner.terms} if owner else {}


def fact_rows() -> dict[str, Any]:
    """Rows of own figures as `lpv.facts` has them; what it is and its unit stay as they are."""
    owner = department()
    rows = {}
    for number, row in enumerate(owner.facts if owner else (), 1):
        ours = facts.FACTS[row.key].ours or facts.FACTS[row.key]
        rows[row.key] = (row.value, ours.unit, ours.what, f"own-{number}", row.place or "", row.status, "")
    return rows


def fact_sources() -> dict[str, tuple[str, str, str, str]]:
    """Their sources as `lpv.facts.sources` has them."""
    owner = department()
    rows = enumerate(owner.facts, 1) if owner else ()
    return {f"own-{number}": (owner.name if owner else "", row.source, "", "") for number, row in rows}


def overridden(fact: facts.Fact) -> str:
    """In plain words whose figure it is, where it is not ours; else ""."""
    owner = department()
    return f"overridden by {owner.name}" if fact.ours and owner else ""


def facts_module() -> str:
    """The text of the module lpv/facts/own.py with these rows, for the code that runs in the browser."""
    return f'"""Figures of the department\'s own."""\n\nFACTS = {fact_rows()!r}\nSOURCES = {fact_sources()!r}\n'


def put_in_place() -> None:
    """Let the own figures act: called when `render` is imported, before anything has read a fact."""
    rows = fact_rows()
    facts.override(rows)
    own.FACTS.update(rows)
    own.SOURCES.update(fact_sources())
    SOURCES.update(own.SOURCES)

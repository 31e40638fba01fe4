"""One page, or picture beside it, of a department's own: what is wrong with its name, its head and its text."""


import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from lpv.core.errors import DataError, Fault, shown
from lpv.files import schema
from lpv.files.named_file import name_faults
from lpv.files.toml_reader import read_tables

HEAD = re.compile(r"---\n(.*?)\n---\n", re.S)
# For words about it: what a page's fences may do is settled where it is made (`department.runs_code`).
FENCE = re.compile(r"[\s>\x00-\x1f]*(?:[-*+]\s+|\d+\.\s+)?(?:`{3,}|~{3,}).*\bexec\b")
# Tags by which a browser leaves the page, or takes more into it, whatever the page's policy says of scripts.
LEAVES = re.compile(r"<(meta|base|iframe|frame|object|embed|link)\b", re.I)
UNREADABLE = "\N{REPLACEMENT CHARACTER}"
NAME_OF_FILE = re.compile(r"[^\W_][\w .()-]*")
OTHER_KEYS = ("hide", "search")  # of the theme


@dataclass(frozen=True, kw_only=True)
class Head:
    """What stands above a page: these go into the menu, into the page's title and into descriptions of it."""

    title: str = schema.text("title of the page", longest=120)
    description: str = schema.text("what it is about, in one sentence", longest=300)


def faults(path: Path, place: str, may_run: bool) -> Iterator[Fault]:
    """Every fault of one file; place: as the department names it;  may_run: whether its fences may be run."""
    if path.suffix != ".md":
        if not NAME_OF_FILE.fullmatch(path.name):
            yield Fault(place, "", "a file name that makes no address", "letters, digits, spaces, hyphens and dots",
                        "Rename the file.")
        return
    for fault in name_faults(path.stem):
        yield Fault(place, "", fault.found, fault.allowed, fault.action)
    text = path.read_text("utf-8-sig", "replace")
    if UNREADABLE in text:
        yield Fault(place, "", "letters that are not UTF-8", "a text in UTF-8", "Save it as UTF-8.",
                    *_line(text, text.index(UNREADABLE)))
    for number, line in enumerate(text.split("\n"), 1):
        if not may_run and FENCE.match(line):
            yield Fault(place, "", "code that would run during the build", "text and pictures",
                        "Take it out, or see what pages_are_code = true in department.toml means.",
                        number, shown(line.strip(), 120))
    for tag in LEAVES.finditer(text):
        yield Fault(place, "", f"<{tag[1]}>", "text, tables and pictures", "Take it out.", *_line(text, tag.start()))
    yield from _head_faults(text, place)


def _head_faults(text: str, place: str) -> Iterator[Fault]:
    head = HEAD.match(text)
    try:
        found: Any = yaml.safe_load(head[1]) if head else {}
    except yaml.YAMLError as error:
        yield Fault(place, "", f"a head that cannot be read: {' '.join(str(error).split())}",
                    "title: and description: between --- and ---", "Put a title with a colon or a quote in quotes.")
        return
    keys = found if isinstance(found, dict) else {}
    try:
        read_tables({str(key): value for key, value in keys.items() if key not in OTHER_KEYS}, place, Head)
    except DataError as error:
        yield from error.faults


def _line(text: str, at: int) -> tuple[int, str]:
    """The number of the line with this place in a text, and that line."""
    number = text.count("\n", 0, at) + 1
    return number, shown(text.split("\n")[number - 1].strip(), 120)

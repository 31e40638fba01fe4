"""A blank data file with a comment above every key: nothing in it is copied from the demo, nothing is filled.

    lpv new approach ZZXX 27             prints one; airport and runway are the only values in it
    lpv new aircraft --out FOLDER        writes one into a folder, never over a file that is there

Every key that must be there waits behind a "#": take it away and write the value.  What is still missing the reader
names, all at once, so the file is never taken for a whole one.
"""

import argparse
import re
import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from lpv.command.json_schema import RECORDS, Kinds, record_of
from lpv.files.schema import Entry, entries
from lpv.files.toml_value import allowed

WIDTH = 100
FILE_NAMES = {"approach": "{airport}-{runway}", "drills": "drills", "department": "department", "moved": "moved"}
Given = dict[str, str]


def template(name: str, values: Given | None = None, kinds: Kinds = RECORDS) -> str:
    """A blank file of a kind; KeyError for a name that is none.

    given: path of keys -> value as text, of what is known already;  kinds: as `lpv.command.json_schema.RECORDS`
    """
    head = _comment(
        f"Data file of {kinds[name][2]}. Take the # away before a key and write its value behind the =. Keys marked * "
        "must be there; delete what you do not need. A key belongs to the [heading] above it.")
    return "\n".join([*head, *_table(record_of(name, kinds), "", values or {})]) + "\n"


def _comment(text: str) -> list[str]:
    return [f"# {line}" for line in textwrap.wrap(text, WIDTH)]


def _table(record: type, path: str, values: Given) -> Iterator[str]:
    """The lines of a table: its own keys first, since a key belongs to the heading above it; then the tables in it."""
    known = {key: entry for key, (_, entry) in entries(record).items()}
    for key, entry in known.items():
        if entry.kind not in ("table", "tables"):
            yield from _key(key, entry, f"{path}.{key}" if path else key, values)
    for key, entry in known.items():
        if entry.kind in ("table", "tables"):
            yield from _inner(entry, f"{path}.{key}" if path else key, values)


def _key(key: str, entry: Entry, place: str, values: Given) -> Iterator[str]:
    mark = "* " if entry.required else ""
    yield from _comment(f"{mark}{entry.what}: {allowed(entry)}")
    value = values.get(place)
    yield f"#{key} =" if value is None else f'{key} = "{value}"'


def _inner(entry: Entry, place: str, values: Given) -> Iterator[str]:
    """A table, or as many rows as there must be; behind a # where there need not be any."""
    rows = max(1, int(entry.low)) if entry.kind == "tables" else 1
    for _ in range(rows):
        heading = f"[[{place}]]" if entry.kind == "tables" else f"[{place}]"
        yield ""
        yield from _comment(f"{'* ' if entry.required else ''}{entry.what}")
        yield heading if entry.required else f"#{heading}"
        yield from _table(entry.record, place, values)


def main(argv: list[str], kinds: Kinds = RECORDS) -> int:
    """Print a blank file, or write it; 0 done, 2 wrong arguments or a file that is there."""
    listed = "; ".join(f"{name}: {what}" for name, (_, _, what) in kinds.items())
    parser = argparse.ArgumentParser(
        "lpv new", description="Make a blank data file with a comment above every key.",
        epilog=f"Kinds: {listed}. Exit code: 0 done; 2 wrong arguments, or the file exists.")
    parser.add_argument("kind", choices=[*kinds], metavar="KIND", help="kind of file, one of those below")
    parser.add_argument("airport", nargs="?", metavar="AIRPORT",
                        help="of an approach: location identifier, such as ZZXX")
    parser.add_argument("runway", nargs="?", metavar="RUNWAY", help="of an approach: such as 27 or 09L")
    parser.add_argument("--out", type=Path, metavar="FOLDER", help="write the file into this folder")
    options = parser.parse_args(argv)
    if options.kind != "approach" and options.airport:
        parser.error(f"{options.airport}: only an approach is named by airport and runway")
    if options.kind == "approach" and not _named(options):
        given = " ".join(filter(None, (options.airport, options.runway)))
        parser.error(f"found {given!r}; an approach needs airport and runway, such as: approach ZZXX 27")
    names: dict[str, Any] = {"airport": options.airport, "runway": options.runway}
    values = {f"identity.{key}": value for key, value in names.items() if value}
    text = template(options.kind, values, kinds)
    if options.out is None:
        print(text, end="")
        return 0
    stem = FILE_NAMES.get(options.kind, f"new-{options.kind}").format(**names).lower()
    return _written(options.out / f"{stem}.toml", text)


def _named(options: argparse.Namespace) -> bool:
    airport, runway = options.airport or "", options.runway or ""
    return bool(re.fullmatch("[A-Z0-9]{3,4}", airport) and re.fullmatch("(0[1-9]|[12][0-9]|3[0-6])[LCR]?", runway))


def _written(path: Path, text: str) -> int:
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        file = path.open("x", encoding="utf-8")
    except FileExistsError:
        print(f"{path}: found a file of this name; allowed: none. Fill that one, or move it away.", file=sys.stderr)
        return 2
    try:
        with file:
            file.write(text)
    except OSError:
        path.unlink()  # a disk that is full leaves no half file
        raise
    print(path)
    return 0

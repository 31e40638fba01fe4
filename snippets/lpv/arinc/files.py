"""Approach files made from coded records: written whole or not at all, and never over somebody's work.

The head of a file holds a mark of its cycle and of the records that it was made from, and one of its own text as
made.  With them a second run leaves what is unchanged, replaces what nobody touched, and puts the new version of a
file that somebody has edited into the folder `changed` beside it; but where nothing is new except the cycle, it
leaves an edited file as it is, or writes the new cycle into it (`lpv.arinc.cycle`).
"""

import hashlib
import re
from pathlib import Path

from lpv.approach.record import Approach
from lpv.arinc import cycle as arinc_cycle
from lpv.arinc.approach import Imported
from lpv.files.outside import write
from lpv.files.toml_reader import read_tables
from lpv.files.toml_writer import toml_text

CHANGED = "changed"
WRITTEN, SAME, REPLACED, ASIDE = "written", "unchanged", "replaced", "edited; new version put aside"
CYCLE_NEW = "records unchanged; cycle, effective and expires are new"
ADVANCED = "records unchanged; cycle, effective and expires written into it"
_MARKS = re.compile(r"^# Records: ([0-9a-f]{16}); text: ([0-9a-f]{16})\r?$", re.M)
NOT_OURS = "0" * 16  # in place of the hash of a text that is not of records alone
_BLANK = re.compile(r"\r?\n\r?\n")


def text_of(imported: Imported, name: str, *, by_people: bool = False) -> str:
    """The text of the approach file, its head included; DataError where it would not read back.

    by_people: whether it holds what somebody filled in, so that it never counts as untouched
    """
    read_tables(imported.tables, f"{imported.slug}.toml", Approach)
    body = toml_text(imported.tables)
    text_hash = NOT_OURS if by_people else _hash(body)
    remarks = "".join(f"# {remark}\n" for remark in imported.remarks)
    cycle = imported.tables["identity"]["cycle"]
    return (
        f"# Made from coded records ({_plain(name)}, cycle {cycle}). Compare every number "
        f"with the chart in force.\n{remarks}# Records: {imported.mark(cycle)}; text: {text_hash}\n\n{body.lstrip()}"
    )


def put(folder: Path, imported: Imported, name: str, advance: bool = False) -> str:
    """Writes an approach's file where it may; what was done with it, in words: WRITTEN, SAME, ... ADVANCED.

    name:    of the file of records
    advance: whether a new cycle alone is written into a file that somebody has edited

    OSError where the folder cannot be written; DataError where the file would not read back.
    """
    path, mark = folder / f"{imported.slug}.toml", imported.mark(imported.tables["identity"]["cycle"])
    old = path.read_bytes().decode("utf-8", "replace") if path.exists() else ""
    if _marks(old)[0] == mark:
        return SAME
    text = text_of(imported, name)
    if not old.strip("\0\r\n "):  # not there, or lost in a power failure
        write(path, text)
        return WRITTEN
    if untouched(old):
        write(path, text)
        return REPLACED
    if (advanced := _advanced(old, imported)) is not None:
        if advance:
            write(path, advanced, surely=True)
        return ADVANCED if advance else CYCLE_NEW
    aside = folder / CHANGED / path.name
    if not aside.exists() or aside.read_bytes() != text.encode():
        write(aside, text)
    return ASIDE


def untouched(text: str) -> bool:
    """Whether a file is as this module made it: its text below the head has the hash that the head names."""
    _, _, body = text.partition("\n\n")
    return _marks(text)[1] == _hash(body)


def _advanced(old: str, imported: Imported) -> str | None:
    """The text of an edited file with the new cycle and mark; None where more is new, or its cycle is not as written.

    None also where a leg may be missing, and for a file that is no UTF-8, which could not be written back as it was.
    """
    before, after = arinc_cycle.cycle_of(old), imported.tables["database"]["cycle"]
    mark = _marks(old)[0]
    if before is None or imported.gaps or "\ufffd" in old or mark != imported.mark(before):
        return None
    text = arinc_cycle.advanced(old, before, after)
    return text and marked(text, imported.mark(after))


def mark_of(text: str) -> str:
    """The mark of the records that a file was made from, "" where its head has none."""
    return _marks(text)[0]


def marked(text: str, mark: str) -> str:
    """The text with another mark of its records in the head."""
    return text.replace(f"# Records: {mark_of(text)};", f"# Records: {mark};", 1)


def _marks(text: str) -> tuple[str, str]:
    match = _MARKS.search(_BLANK.split(text, maxsplit=1)[0])
    return (match[1], match[2]) if match else ("", "")


def _hash(body: str) -> str:
    return hashlib.sha256(body.lstrip().encode()).hexdigest()[:16]


def _plain(name: str) -> str:
    return "".join(sign for sign in Path(name).name if sign.isprintable())


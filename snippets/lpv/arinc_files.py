"""Approach files made from coded records: written whole or not at all, and never over somebody's work.

The head of a file holds a mark of the records that it was made from and one of its own text as made.  With
them a second run leaves what is unchanged, replaces what nobody touched, and puts the new version of a file
that somebody has edited into the folder `changed` beside it.
"""

import hashlib
import os
import re
from pathlib import Path

from lpv import approach
from lpv.arinc_approach import Imported
from lpv.tomlwrite import toml_text

CHANGED = "changed"
WRITTEN, SAME, REPLACED, ASIDE = "written", "unchanged", "replaced", "edited here; new version aside"
_MARKS = re.compile(r"^# Records: ([0-9a-f]{16}); text: ([0-9a-f]{16})$", re.M)


def text_of(found: Imported, name: str) -> str:
    """The text of the approach file, its head included; DataError where it would not read back."""
    body = toml_text(found.tables)
    approach.read_text(body, f"{found.slug}.toml")
    remarks = "".join(f"# {remark}\n" for remark in found.remarks)
    return (
        f"# Made from coded records ({_plain(name)}, cycle {found.tables['identity']['cycle']}). Compare every number "
        f"with the chart in force.\n{remarks}# Records: {found.mark}; text: {_hash(body)}\n\n{body.lstrip()}"
    )


def put(folder: Path, slug: str, text: str) -> str:
    """Writes the file where it may; what was done with it: WRITTEN, SAME, REPLACED or ASIDE.

    OSError where the folder cannot be written.
    """
    path = folder / f"{slug}.toml"
    if not path.exists():
        _write(path, text)
        return WRITTEN
    old = path.read_bytes().decode("utf-8", "replace")
    if _marks(old)[0] == _marks(text)[0] != "":
        return SAME
    if untouched(old):
        _write(path, text)
        return REPLACED
    aside = folder / CHANGED / path.name
    if not aside.exists() or aside.read_bytes() != text.encode():
        _write(aside, text)
    return ASIDE


def untouched(text: str) -> bool:
    """Whether a file is as this module made it: its text below the head has the hash that the head names."""
    _, _, body = text.partition("\n\n")
    return _marks(text)[1] == _hash(body)


def _marks(text: str) -> tuple[str, str]:
    found = _MARKS.search(text.partition("\n\n")[0])
    return (found[1], found[2]) if found else ("", "")


def _hash(body: str) -> str:
    return hashlib.sha256(body.lstrip().encode()).hexdigest()[:16]


def _plain(name: str) -> str:
    return "".join(sign for sign in Path(name).name if sign.isprintable())


def _write(path: Path, text: str) -> None:
    """Written aside, made sure of on the disk, and moved into place: a killed run leaves no half file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    aside = path.with_name(path.name + ".part")
    with open(aside, "wb") as file:
        file.write(text.encode())
        file.flush()
        os.fsync(file.fileno())
    aside.replace(path)

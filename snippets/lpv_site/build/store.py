"""What a build keeps for the next one: one folder of entries, each under a key made of all that it was made from.

An entry is a record that JSON can hold and, after it, the bytes of a finished part.  It is written aside and moved into
place, so that a killed build leaves no half entry; an entry that cannot be read is made again.  The folder may be
deleted at any time; HANDBOOK_STORE moves it.
"""

import hashlib
import importlib.metadata
import json
import os
import sys
import time
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

from lpv_site.department import department

SNIPPETS = Path(__file__).resolve().parents[2]
CONFIG = SNIPPETS.parent / "mkdocs.yml"
FOLDER = Path(os.environ.get("HANDBOOK_STORE", SNIPPETS.parent / ".cache"))
MADE = "made"
LIBRARIES = (
    "matplotlib", "numpy", "geographiclib", "pygeomag", "segno", "markdown", "pymdown-extensions", "pygments",
    "markdown-exec", "jinja2", "mkdocs", "mkdocs-material",
)
UNUSED_DAYS = 60


@cache
def surroundings() -> str:
    """What everything is made with: versions of Python and of libraries, how Markdown is read, the own figures."""
    libraries = [f"{library} {importlib.metadata.version(library)}" for library in LIBRARIES]
    department_parts = [department.fact_rows(), department.fact_sources(), department.terms(), department.cautions()]
    extensions = CONFIG.read_text("utf-8").partition("markdown_extensions:")[2].partition("\n\n")[0]
    return json.dumps([sys.version, libraries, department_parts, extensions], sort_keys=True)


def key_of(sources: str, *parts: str | bytes) -> str:
    """The key of what these sources (see `imports.version`) make from these parts."""
    digest = hashlib.sha256(surroundings().encode())
    for part in (sources, *parts):
        data = part.encode() if isinstance(part, str) else part
        digest.update(f" {len(data)} ".encode() + data)
    return digest.hexdigest()


def path_of(key: str) -> Path:
    return FOLDER / MADE / key


def is_kept(key: str) -> bool:
    """Whether there is such an entry, if it can be read."""
    return path_of(key).is_file()


def load(key: str) -> dict[str, Any] | None:
    """The record with this key; None if there is none or it cannot be read.  Its use is noted by its time."""
    try:
        with open(path_of(key), "rb") as entry:
            record = json.loads(entry.readline())
        os.utime(path_of(key))
    except (OSError, ValueError):
        return None
    return record if isinstance(record, dict) else None


def body(key: str) -> bytes:
    """The finished part after the record; OSError where the entry has gone."""
    with open(path_of(key), "rb") as entry:
        entry.readline()
        return entry.read()


def keep(key: str, record: dict[str, Any], finished: bytes = b"") -> None:
    """Keep a record, and a finished part after it: written aside, then moved into place."""
    path = path_of(key)
    path.parent.mkdir(parents=True, exist_ok=True)
    aside = path.with_name(f"{key}.{os.getpid()}")
    aside.write_bytes(json.dumps(record, separators=(",", ":")).encode() + b"\n" + finished)
    aside.replace(path)


def kept(key: str, make: Callable[[], dict[str, Any]]) -> dict[str, Any]:
    """What `make` gives, or what it gave when it was last made from the same."""
    record = load(key)
    if record is not None:
        return record
    made = make()
    keep(key, made)
    return made


def tidy(unused_days: float = UNUSED_DAYS) -> int:
    """Delete the entries that no build has used for so many days, and return how many."""
    before = time.time() - unused_days * 86400
    old = [entry.path for entry in os.scandir(FOLDER / MADE) if entry.stat().st_mtime < before]
    for path in old:
        Path(path).unlink(missing_ok=True)
    return len(old)

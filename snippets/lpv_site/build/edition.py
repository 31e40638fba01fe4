"""Which edition this is: its number, and its own time.

The number is the data cycle and the start of a hash of all that the edition is made of: the handbook and its data.  The
time is that of the later of two commits, of the handbook and of the department's folder.  Both are the same for
whoever builds the same again, whenever that is.
"""

import hashlib
import os
import re
import time
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

from lpv.core import airac
from lpv.core.errors import DomainError, Fault
from lpv_site.build import store
from lpv_site.build.git import git
from lpv_site.department import files as department_files
from lpv_site.department.department import FILE, folder

ROOT = store.SNIPPETS.parent
SECONDS = "SOURCE_DATE_EPOCH"  # where it is set it is the time, of whoever builds without git
BESIDE_DOCS = ("mkdocs.yml", "requirements.txt")
HANDBOOK = ("snippets", "tests/reference")
NO_SOURCE = re.compile(r"\.|__pycache__$|.*\.egg-info$|.*\.pyc$")
CYCLE = re.compile(r"""^\s*cycle\s*=\s*["']([0-9]{4})["']""", re.M)
DIGITS = 8


def committed(where: Path, *place: str) -> int | None:
    """Seconds since 1970 of the last commit of a folder, or of a place in it; None where there is none."""
    timestamp = git(where, "log", "-1", "--format=%ct", *(("--", *place) if place else ()))
    return int(timestamp) if timestamp.isdigit() else None


def seconds(root: Path = ROOT, data: Path | None = None) -> int | None:
    """The edition's time in seconds since 1970; None where a folder has no commit and nobody says the time.

    data: a department's folder; its own commit must be known, else two editions of one handbook had the same time
    """
    if timestamp := os.environ.get(SECONDS, ""):
        return int(timestamp) if timestamp.isdigit() else None
    if data is not None and not data.is_dir():
        return None
    commits = [committed(root), *([committed(data, ".")] if data is not None else [])]
    known = [commit_s for commit_s in commits if commit_s is not None]
    return max(known) if len(known) == len(commits) else None


def faults() -> list[Fault]:
    """The fault of an edition whose time nobody can tell; none where it is known."""
    where = folder()
    if seconds(ROOT, where) is not None or (where is not None and not where.is_dir()):
        return []
    if os.environ.get(SECONDS):
        return [Fault(SECONDS, "", os.environ[SECONDS], "whole seconds since 1970", "Correct it, or remove it.")]
    repository = "the handbook" if committed(ROOT) is None else str(where)
    return [Fault(repository, "", "no commit, so this edition has no time",
                  "a folder under git with a commit, or a time",
                  "Commit it, or say the time: make build TIME=2026-11-20T08:00Z.")]


def built() -> str:
    """The edition's time in UTC, to the minute; that of now where nothing is published, as while pages are written."""
    at = seconds(ROOT, folder())
    return datetime.fromtimestamp(time.time() if at is None else at, UTC).strftime("%Y-%m-%dT%H:%MZ")


def seconds_of(text: str) -> int:
    """Seconds since 1970 of a time in UTC as `built` prints it; ValueError for any other text."""
    return int(datetime.strptime(text, "%Y-%m-%dT%H:%MZ").replace(tzinfo=UTC).timestamp())


def cycles(docs: Path) -> dict[str, int]:
    """Data cycle -> approaches that name it, without those of the demo where a department has its own."""
    demo = department_files.demo_approaches(docs)
    own_files = (path for path in (docs / "approaches").glob("*.toml") if path.stem not in demo)
    texts = (path.read_text("utf-8", "replace") for path in own_files)
    return dict(sorted(Counter(named[1] for text in texts if (named := CYCLE.search(text))).items()))


@cache
def number(docs: Path) -> str:
    """The edition's number, such as 2612-1f3a9c02: its latest data cycle, and the start of the hash of what it has."""
    digest = hashlib.sha256()
    for place, path in sorted(_parts(docs)):
        digest.update(f"{place} {hashlib.sha256(path.read_bytes()).hexdigest()}\n".encode())
    latest = max(filter(_starts, cycles(docs)), key=_starts, default="")
    return "-".join(filter(None, [latest, digest.hexdigest()[:DIGITS]]))


def _starts(cycle: str) -> int:
    """The first day of a cycle; 0 for one that there is not, which is a fault elsewhere."""
    try:
        return airac.effective_ordinal(cycle)
    except DomainError:
        return 0


def _parts(docs: Path) -> Iterator[tuple[str, Path]]:
    """Every file that the edition is made from, with a name for it."""
    where = folder()
    for name, place in [("docs", docs), *((name, ROOT / name) for name in HANDBOOK)]:
        for path in place.rglob("*"):
            below = path.relative_to(place)
            if path.is_file() and not any(NO_SOURCE.match(part) for part in below.parts):
                yield f"{name}/{below.as_posix()}", path
    yield from ((name, ROOT / name) for name in BESIDE_DOCS if (ROOT / name).is_file())
    if where is not None and (where / FILE).is_file():
        yield FILE, where / FILE


def words(docs: Path) -> str:
    """The edition in a few words, for paper: number and day."""
    return f"Edition {number(docs)}. Built {built()[:10]}."

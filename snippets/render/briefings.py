"""All briefings of a build: made in worker processes, kept by content, made again only when something changed.

A finished briefing is kept under a key made of the approach file's bytes and of everything that turns them
into a page (code, styles, versions of the libraries).  The store may be deleted at any time; an entry is
written aside and moved into place, so a killed build leaves no half entry.
"""

import hashlib
import importlib.metadata
import json
import os
import sys
import zlib
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict, dataclass
from functools import cache
from multiprocessing import get_context
from pathlib import Path

from lpv.approach import read
from lpv.errors import DataError, Fault
from render import figure
from render.briefing import IndexEntry, build_briefing_page, index_entry
from render.fold import CONFIG, fold
from render.inline import expand

SNIPPETS = Path(__file__).resolve().parents[1]
STORE = Path(os.environ.get("HANDBOOK_STORE", SNIPPETS.parent / ".cache")) / "briefings"
LIBRARIES = ("matplotlib", "numpy", "geographiclib", "pygeomag", "segno", "markdown", "pymdown-extensions")
WORTH_A_POOL = 8


@dataclass(frozen=True)
class Briefing:
    """One finished page: its Markdown, the drawings it refers to, and its line in the index."""

    markdown: str
    drawings: dict[str, str]
    entry: IndexEntry


@cache
def code_version() -> str:
    """A hash of all that makes a briefing from its file."""
    digest = hashlib.sha256(sys.version.encode())
    for library in LIBRARIES:
        digest.update(f"{library} {importlib.metadata.version(library)}".encode())
    for package in ("lpv", "render"):
        for path in sorted((SNIPPETS / package).rglob("*.py")):
            digest.update(path.name.encode() + path.read_bytes())
    digest.update(CONFIG.read_bytes())
    return digest.hexdigest()


def key_of(path: Path) -> str:
    """The key under which the briefing of an approach file is kept."""
    return hashlib.sha256(f"{code_version()} {path.name} ".encode() + path.read_bytes()).hexdigest()


def make(path: Path) -> Briefing | list[Fault]:
    """Read one approach file and build its briefing, or return its faults."""
    try:
        approach = read(path)
    except DataError as error:
        return error.faults
    markdown = fold(expand(build_briefing_page(approach), "../reference/facts.md", path.name))
    return Briefing(markdown, figure.drawings_of(markdown), index_entry(approach))


def load(key: str, store: Path = STORE) -> Briefing | None:
    """The kept briefing with this key; None if there is none or it cannot be read."""
    try:
        data = json.loads(zlib.decompress((store / key).read_bytes()))
        return Briefing(data["markdown"], data["drawings"], IndexEntry(**data["entry"]))
    except (OSError, zlib.error, ValueError, KeyError, TypeError):
        return None


def keep(key: str, briefing: Briefing, store: Path = STORE) -> None:
    """Keep a briefing: written aside, then moved into place."""
    store.mkdir(parents=True, exist_ok=True)
    aside = store / f"{key}.{os.getpid()}"
    aside.write_bytes(zlib.compress(json.dumps(asdict(briefing)).encode(), 1))
    aside.replace(store / key)


def briefings(folder: Path, store: Path = STORE) -> dict[str, Briefing]:
    """Slug -> briefing of every approach file of a folder; DataError with every fault of every file."""
    paths = sorted(folder.glob("*.toml"))
    keys = {path: key_of(path) for path in paths}
    found = {path: load(keys[path], store) for path in paths}
    faults: list[Fault] = []
    for path, made in make_all([path for path in paths if found[path] is None]):
        if isinstance(made, Briefing):
            found[path] = made
            keep(keys[path], made, store)
        else:
            faults += made
    if faults:
        raise DataError(faults)
    done = {path.stem: briefing for path in paths if (briefing := found[path]) is not None}
    for briefing in done.values():
        figure.remember(briefing.drawings)
    return done


def make_all(paths: list[Path]) -> Iterable[tuple[Path, Briefing | list[Fault]]]:
    """Every path with its briefing or faults; in worker processes where there are enough of them."""
    if len(paths) < WORTH_A_POOL:
        yield from ((path, make(path)) for path in paths)
        return
    workers = os.cpu_count() or 1
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        yield from zip(paths, pool.map(make, paths, chunksize=4), strict=True)

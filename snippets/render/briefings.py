"""All briefings of a build: made in worker processes, kept by content, made again only when something changed.

A finished briefing is kept (see `render.store`) under a key made of the approach file's bytes and of everything
that turns them into a page: code, styles, versions of the libraries.
"""

import os
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict, dataclass
from multiprocessing import get_context
from pathlib import Path

from lpv.approach import read
from lpv.errors import DataError, Fault
from render import figure, store
from render.briefing import IndexEntry, build_briefing_page, index_entry
from render.fold import fold
from render.inline import expand

STORE = store.FOLDER / "briefings"
WORTH_A_POOL = 8


@dataclass(frozen=True)
class Briefing:
    """One finished page: its Markdown, the drawings it refers to, and its line in the index."""

    markdown: str
    drawings: dict[str, str]
    entry: IndexEntry


def key_of(path: Path) -> str:
    """The key under which the briefing of an approach file is kept."""
    return store.key_of("briefing", path.name, path.read_bytes())


def make(path: Path) -> Briefing | list[Fault]:
    """Read one approach file and build its briefing, or return its faults."""
    try:
        approach = read(path)
    except DataError as error:
        return error.faults
    markdown = fold(expand(build_briefing_page(approach), "../reference/facts.md", path.name))
    return Briefing(markdown, figure.drawings_of(markdown), index_entry(approach))


def load(key: str, folder: Path = STORE) -> Briefing | None:
    """The kept briefing with this key; None if there is none or it cannot be read."""
    data = store.load(folder, key)
    try:
        return Briefing(data["markdown"], data["drawings"], IndexEntry(**data["entry"]))
    except (KeyError, TypeError):
        return None


def briefings(folder: Path, kept_in: Path = STORE) -> dict[str, Briefing]:
    """Slug -> briefing of every approach file of a folder; DataError with every fault of every file."""
    done = made_or_kept(sorted(folder.glob("*.toml")), kept_in)
    for briefing in done.values():
        figure.remember(briefing.drawings)
    return done


def made_or_kept(paths: list[Path], kept_in: Path = STORE) -> dict[str, Briefing]:
    """Slug -> briefing of these approach files: those kept as they were, the others made and kept."""
    keys = {path: key_of(path) for path in paths}
    found = {path: load(keys[path], kept_in) for path in paths}
    faults: list[Fault] = []
    for path, made in make_all([path for path in paths if found[path] is None]):
        if isinstance(made, Briefing):
            found[path] = made
            store.keep(kept_in, keys[path], asdict(made))
        else:
            faults += made
    if faults:
        raise DataError(faults)
    return {path.stem: briefing for path in paths if (briefing := found[path]) is not None}


def make_all(paths: list[Path]) -> Iterable[tuple[Path, Briefing | list[Fault]]]:
    """Every path with its briefing or faults; in worker processes where there are enough of them."""
    if len(paths) < WORTH_A_POOL:
        yield from ((path, make(path)) for path in paths)
        return
    workers = os.cpu_count() or 1
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        yield from zip(paths, pool.map(make, paths, chunksize=4), strict=True)

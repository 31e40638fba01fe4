"""All briefings of a build: made in worker processes, kept by content, made again only when something changed.

A finished briefing is kept (see `lpv_site.build.store`) under a key made of the approach file's bytes and of everything
that turns them into a page: code, styles, versions of the libraries, the site's address.  Its drawings and finished
parts, nine tenths of it, are kept apart and read only while its page is written, so that thousands of briefings
do not fill the memory.
"""

from dataclasses import asdict, dataclass
from functools import partial
from pathlib import Path
from typing import Any

from lpv.approach.record import read
from lpv.core.errors import DataError, Fault
from lpv_site.briefing.briefing import IndexEntry, build_briefing_page, index_entry
from lpv_site.build import store, workers
from lpv_site.figures import figure
from lpv_site.figures.qr import in_place
from lpv_site.forms.setup_figures import figures
from lpv_site.text.fold import Html, fold, html_of
from lpv_site.text.inline import expand

STORE = store.FOLDER / "briefings"
PARTS = ".parts"  # what the key of a briefing's drawings and finished parts ends in
_of_this_build: dict[str, "Briefing"] = {}


@dataclass(frozen=True)
class Briefing:
    """One finished page: its Markdown, what MkDocs makes of it, its line in the index, its figures for the forms."""

    markdown: str
    html: Html
    entry: IndexEntry
    figures: dict[str, Any]


def key_of(path: Path, site_url: str = "") -> str:
    """The key under which the briefing of an approach file is kept."""
    return store.key_of("briefing", path.name, path.read_bytes(), site_url.rstrip("/"))


def make(path: Path, site_url: str = "") -> tuple[Briefing, dict[str, str]] | list[Fault]:
    """Read one approach file and build its briefing, with its drawings and finished parts; or return its faults."""
    try:
        approach = read(path)
    except DataError as error:
        return error.faults
    markdown = fold(expand(build_briefing_page(approach), "../reference/facts.md", path.name))
    parts = figure.drawings_of(markdown)
    coded = {key: in_place(part, site_url, f"approaches/{path.stem}.md") for key, part in parts.items()}
    return Briefing(markdown, html_of(markdown), index_entry(approach), figures(approach)), coded


def make_and_keep(path: Path, site_url: str, kept_in: Path = STORE) -> list[Fault]:
    """Make a briefing and keep it; the faults of its file.  The parts first: a briefing that is kept has its parts."""
    made = make(path, site_url)
    if isinstance(made, list):
        return made
    key = key_of(path, site_url)
    store.keep(kept_in, key + PARTS, made[1])
    store.keep(kept_in, key, asdict(made[0]))
    return []


def load(key: str, folder: Path = STORE) -> Briefing | None:
    """The kept briefing with this key; None if there is none, or it cannot be read or lacks its parts."""
    data = store.load(folder, key)
    try:
        found = Briefing(data["markdown"], Html(**data["html"]), IndexEntry(**data["entry"]), data["figures"])
    except (KeyError, TypeError):
        return None
    return found if is_kept(key, folder) else None


def is_kept(key: str, folder: Path = STORE) -> bool:
    """Whether there are a briefing with this key and its parts."""
    return (folder / key).is_file() and (folder / (key + PARTS)).is_file()


def files(docs: Path) -> list[Path]:
    """The approach files, in the order of their names."""
    return sorted((docs / "approaches").glob("*.toml"))


def briefings(folder: Path, kept_in: Path = STORE, site_url: str = "") -> dict[str, Briefing]:
    """Slug -> briefing of every approach file of a folder; DataError with every fault of every file."""
    found = made_or_kept(sorted(folder.glob("*.toml")), kept_in, site_url)
    _of_this_build.clear()
    _of_this_build.update(found)
    return found


def made() -> dict[str, Briefing]:
    """Slug -> briefing, as `briefings` gave them last."""
    return dict(_of_this_build)


def html(address: str) -> Html | None:
    """What MkDocs would make of the briefing at an address below docs/; None if there is none of this build."""
    briefing = _of_this_build.get(address.removeprefix("approaches/").removesuffix(".md"))
    return briefing.html if briefing and address.startswith("approaches/") else None


def made_or_kept(paths: list[Path], kept_in: Path = STORE, site_url: str = "") -> dict[str, Briefing]:
    """Slug -> briefing of these approach files: those kept as they were, the others made and kept."""
    keys = {path: key_of(path, site_url) for path in paths}
    found = {path: load(keys[path], kept_in) for path in paths}
    missing = [path for path in paths if found[path] is None]
    faults = workers.each(partial(make_and_keep, site_url=site_url, kept_in=kept_in), missing)
    if any(faults):
        raise DataError([fault for of_file in faults for fault in of_file])
    found |= {path: load(keys[path], kept_in) for path in missing}
    return {path.stem: briefing or _made(path, site_url)[0] for path, briefing in found.items()}


def parts(address: str, docs: Path, site_url: str = "", kept_in: Path = STORE) -> dict[str, str]:
    """Drawings and finished parts of the page at an address below docs/; {} if it is no briefing.

    What was deleted since the build began is made again.
    """
    if html(address) is None:
        return {}
    path = docs / address.replace(".md", ".toml")
    found = store.load(kept_in, key_of(path, site_url) + PARTS)
    return found if isinstance(found, dict) else _made(path, site_url)[1]


def _made(path: Path, site_url: str) -> tuple[Briefing, dict[str, str]]:
    made = make(path, site_url)
    if isinstance(made, list):
        raise DataError(made)
    return made

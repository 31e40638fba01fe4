"""The files of a department's own folder, checked, and put together with ours into the docs of one build.

The department's folder has what docs/ has, in the same places.  Where it brings files of a kind, ours of that kind,
which are invented for the demo, are left out; but approaches and aircraft stay as long as other demo files that
stay (drills, scenarios, sheets) name them.  The docs of the build are a copy under .cache, made anew as far as
anything has changed; neither folder is written to.
"""

import hashlib
import re
import shutil
from collections.abc import Iterator
from difflib import get_close_matches
from pathlib import Path

from lpv.arinc.files import CHANGED
from lpv.core.errors import Fault
from lpv.core.text import listed
from lpv_site.build import moves, store
from lpv_site.department import drawings, own_page
from lpv_site.department.department import FILE, OWN, department, file_faults, folder

OURS = store.SNIPPETS.parent / "docs"
RECORDINGS = (".toml", ".csv", ".gpx")
# Folder, here and below docs/ -> endings of its files.
KINDS = {
    "approaches": (".toml",), "approaches/previous": (".toml",), "aircraft": (".toml",), "plan": (".toml",),
    "plan/operators": (".toml",), "set-up": (".toml",), "modes/scenarios": (".toml",), "debrief/flights": RECORDINGS,
    "practice": (".toml",), "teach": (".toml",),
}
NAMED_BY_OTHERS = ("approaches", "aircraft")
# Kinds of which pages of the handbook show at least one.
SHOWN = ("approaches", "aircraft", "plan", "set-up", "modes/scenarios", "debrief/flights", "practice")
PAGES, PAGES_ENDINGS = "pages", (".md", ".png", ".jpg", ".svg", ".pdf")
STYLES = f"{OWN}/colours.css"
ABOUT = f"{OWN}/own-data.md"
LARGEST_BYTES = 1_000_000
PASSED_OVER = re.compile(r"\.|README|LICENSE|Makefile")
# What file managers and editors leave behind: passed over with a word.
LEFT_BEHIND = re.compile(r"(?i:thumbs\.db|desktop\.ini|~\$.*|.*~|.*\.(?:bak|tmp|swp|orig))$")
FIXED_NAMES = ("practice/drills.toml",)  # which are the only ones that their folders may have
QUOTED = re.compile(r"""["']([a-z0-9-]+)["']""")


def docs() -> Path:
    """The docs of this build: ours, or those put together with a department's; ours for a folder that is not there."""
    where = folder()
    if where is None or not where.is_dir():
        return OURS
    return store.FOLDER.resolve() / "department" / hashlib.sha256(str(where).encode()).hexdigest()[:12] / "docs"


def is_own(path: Path) -> bool:
    """Whether a file of the docs of this build comes from the department's folder."""
    where, built = folder(), docs()
    return where is not None and path.is_relative_to(built) and (where / path.relative_to(built)).is_file()


def own_first(paths: Iterator[Path] | list[Path]) -> list[Path]:
    """Files in the order of their names, those of the department before those of the demo."""
    return sorted(paths, key=lambda path: (not is_own(path), path.name))


def demo_approaches(docs: Path) -> set[str]:
    """Slugs of the demo's approaches beside those of a department; none where the demo is all there is."""
    files = list((docs / "approaches").glob("*.toml"))
    return {path.stem for path in files if not is_own(path)} if any(map(is_own, files)) else set()


def faults() -> list[Fault]:
    """Everything that is wrong in the department's folder but for the data files, which are read as ours are."""
    where = folder()
    if where is None:
        return []
    if not where.is_dir():
        return [Fault(str(where), "", "no folder", "a department's folder", "Check the path given as DATA.")]
    rows = [*file_faults(), *_strays(where), *_clashes(where), *_page_faults(where), *_picture_faults(where),
            *moves.file_faults(where / moves.FILE)]
    owner = department()
    if owner and owner.without_demo and (lacking := [kind for kind in SHOWN if not brought(where, kind)]):
        rows.append(Fault(FILE, "without_demo", f"nothing of your own in {listed(lacking)}",
                          "at least one file of each kind that pages take their examples from",
                          "Add one of each, or keep the demo."))
    if owner and owner.logo and not (where / owner.logo).is_file():
        rows.append(Fault(FILE, "logo", f"{owner.logo}, which is not there", "a file beside it", "Add or correct it."))
    return rows


def _strays(where: Path) -> Iterator[Fault]:
    """Files and folders that no build would take: nothing is dropped without a word."""
    owner = department()
    beside = {FILE, moves.FILE, *([owner.logo] if owner and owner.logo else [])}
    for path in sorted(where.rglob("*")):
        place = path.relative_to(where)
        if any(PASSED_OVER.match(part) for part in place.parts) or path.is_dir() or LEFT_BEHIND.match(path.name):
            continue
        endings = (*KINDS.items(), (PAGES, PAGES_ENDINGS))
        taken = place.as_posix() in beside if len(place.parts) == 1 else any(
            place.parent.as_posix() == kind and path.suffix in allowed for kind, allowed in endings)
        if owner is None and len(place.parts) == 1:
            continue
        if not taken and path.parent.name == CHANGED and path.suffix == ".toml":
            yield Fault(place.as_posix(), "", "a new version that the importer put aside", "none in a build",
                        "Carry what is new over into your file, with the chart in hand, then remove this one.")
        elif not taken:
            others = [kind for kind in (*KINDS, PAGES) if kind != place.parent.as_posix()]
            near = get_close_matches(place.parent.as_posix(), others, 1, 0.75)
            advice = f"Did you mean {near[0]}?" if near else "Move it, or take it out."
            yield Fault(place.as_posix(), "", "a file that makes no page",
                        f"{FILE}, {moves.FILE}, the logo, and files in {', '.join([*KINDS, PAGES])}", advice)
        elif not path.is_file():
            yield Fault(place.as_posix(), "", "a link that leads nowhere, or what is no file", "a file", "Take it out.")
        elif place.parts[0] == PAGES and not path.resolve().is_relative_to(where):
            yield Fault(place.as_posix(), "", "a link to a file outside of this folder", "a file in it",
                        "Put the file itself in its place.")
        elif path.stat().st_size > LARGEST_BYTES and path.suffix not in RECORDINGS:
            size = path.stat().st_size
            yield Fault(place.as_posix(), "", f"{size} bytes", f"at most {LARGEST_BYTES}", "Make it smaller.")


def left_behind() -> list[str]:
    """Places in the department's folder of files that are passed over with a word."""
    where = folder()
    if where is None or not where.is_dir():
        return []
    places = (path.relative_to(where) for path in sorted(where.rglob("*")) if LEFT_BEHIND.match(path.name))
    return [place.as_posix() for place in places if not any(PASSED_OVER.match(part) for part in place.parts)]


def _clashes(where: Path) -> Iterator[Fault]:
    """Own files with the name of one of the demo's, which would take its place on pages that are about ours."""
    if without_demo():
        return
    for kind in KINDS:
        for path in brought(where, kind):
            place = f"{kind}/{path.name}"
            if (OURS / place).is_file() and place not in FIXED_NAMES:
                yield Fault(place, "", f"the name of docs/{place} of the demo", "a name that no file of the demo has",
                            f"Rename it, or leave the demo out: without_demo = true in {FILE}.")


def without_demo() -> bool:
    """Whether the department leaves the demo's data out."""
    owner = department()
    return owner is not None and owner.without_demo


def _picture_faults(where: Path) -> Iterator[Fault]:
    """Drawings that would run something, or fetch it from elsewhere."""
    for path in sorted([*where.glob("*.svg"), *(where / PAGES).glob("*.svg")]):
        yield from drawings.faults(path, path.relative_to(where).as_posix())


def _page_faults(where: Path) -> Iterator[Fault]:
    owner = department()
    for path in own_pages(where):
        yield from own_page.faults(path, f"{PAGES}/{path.name}", owner is not None and owner.pages_are_code)
        if f"{OWN}/{path.name}" == ABOUT:
            yield Fault(f"{PAGES}/{path.name}", "", "a name that a handbook page has", "another name", "Rename it.")


def brought(where: Path, kind: str) -> list[Path]:
    """The department's files of one kind, by name."""
    return sorted(path for path in (where / kind).glob("*")
                  if path.suffix in KINDS[kind] and path.is_file() and not LEFT_BEHIND.match(path.name))


def own_pages(where: Path) -> list[Path]:
    """The department's pages and their pictures, by name."""
    return sorted(path for path in (where / PAGES).glob("*")
                  if path.suffix in PAGES_ENDINGS and path.is_file() and not LEFT_BEHIND.match(path.name)
                  and path.resolve().is_relative_to(where))


def stays(where: Path) -> dict[str, Path]:
    """Address below docs/ -> file, of all our files that stay beside the department's."""
    ours = {path.relative_to(OURS).as_posix(): path for path in sorted(OURS.rglob("*")) if path.is_file()}
    kinds = [kind for kind in KINDS if brought(where, kind)]
    if "approaches" in kinds and "approaches/previous" not in kinds:
        kinds.append("approaches/previous")  # ours is the cycle before of the demo, not of theirs
    if "plan" in kinds and "plan/operators" not in kinds:
        kinds.append("plan/operators")  # nobody flies by the rules of an invented operator
    kinds = list(KINDS) if without_demo() else kinds
    out = {address for address, path in ours.items()
           if any(Path(address).parent.as_posix() == kind and path.suffix in KINDS[kind] for kind in kinds)}
    texts = (path.read_text("utf-8") for address, path in ours.items() if path.suffix == ".toml" and address not in out)
    named = set() if without_demo() else {name for text in texts for name in QUOTED.findall(text)}
    kept = {address for address in out
            if Path(address).parent.as_posix() in NAMED_BY_OTHERS and Path(address).stem in named}
    return {address: path for address, path in ours.items() if address not in out - kept}


def put_together() -> Path:
    """Make the docs of this build as they must be, and return them."""
    where, target = folder(), docs()
    if where is None or not where.is_dir():
        return OURS
    sources = stays(where) | {f"{kind}/{path.name}": path for kind in KINDS for path in brought(where, kind)}
    sources |= {f"{OWN}/{path.name}": path for path in own_pages(where)}
    owner = department()
    if owner and owner.logo and (where / owner.logo).is_file():
        sources[f"{OWN}/{owner.logo}"] = where / owner.logo
    if (where / moves.FILE).is_file():
        sources[moves.OWN_FILE] = where / moves.FILE
    for address, source in sources.items():
        data = source.read_bytes()
        _copy(data.decode("utf-8-sig", "replace").encode() if source.suffix == ".md" else data, target / address)
    if owner and owner.colours:
        _copy(owner.colours.style_sheet().encode(), target / STYLES)
        sources[STYLES] = target / STYLES
    for path in [path for path in target.rglob("*") if path.is_file()]:
        if path.relative_to(target).as_posix() not in sources:
            path.unlink()
    return target


def _copy(data: bytes, target: Path) -> None:
    """Write a file only if that changes it: what serves while one edits watches these files."""
    if target.is_dir():
        shutil.rmtree(target)
    if not target.is_file() or target.read_bytes() != data:
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)

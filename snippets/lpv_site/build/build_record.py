"""What was built from what: a page of the site, and build-record.json at its root.

    python -m lpv_site.build.build_record SITE        say whether a site, or a copy of it, is as its record says

Nothing in it depends on when or where one builds, so two builds of one commit with one set of data have the same.
"""

import hashlib
import importlib.metadata
import json
import os
import platform
import sys
from collections import Counter
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from lpv.command.runner import run
from lpv_site.build import edition, moves, store
from lpv_site.build.digests import Digest, digest, digests
from lpv_site.build.edition import cycles
from lpv_site.build.git import git
from lpv_site.checks import checks
from lpv_site.checks.checks import CASE_STATUSES
from lpv_site.department import files as department_files
from lpv_site.department.data import hash_of
from lpv_site.department.department import FILE, department, folder
from lpv_site.text.table import table
from lpv_site.text.text import escape, front_matter

ROOT = store.SNIPPETS.parent
ADDRESS = "reference/build-record.md"
NAME = "build-record.json"
# What is made after the record, or from it.
AFTERWARDS = ("sw.js", "manifest.webmanifest", "offline/", NAME)
BUILT_FROM = ("docs", "snippets", "mkdocs.yml", "requirements.txt", "tests/reference")
SHOWN_DIGITS = 10
SAID = "HANDBOOK_COMMIT"  # the commit, of who builds without git, as in a container


def commit(where: Path) -> str:
    """The commit that a folder is at; for the handbook what HANDBOOK_COMMIT says, if it says so.  "" where unknown."""
    return (os.environ.get(SAID, "") if where == ROOT else "") or git(where, "rev-parse", "HEAD")


def changed(where: Path, *places: str) -> int:
    """How many files differ from that commit; none where HANDBOOK_COMMIT vouches for it."""
    if where == ROOT and os.environ.get(SAID):
        return 0
    return len(git(where, "status", "--porcelain", "--", *(places or (".",))).splitlines())


def hashes(docs: Path) -> dict[str, str]:
    """Address below docs/ -> SHA-256 of every data file; of a department's other files by address in its folder."""
    files = (path for kind, endings in department_files.KINDS.items() for path in sorted((docs / kind).glob("*"))
             if path.suffix in endings)
    paths = {path.relative_to(docs).as_posix(): path for path in files} | _own_files()
    return {address: hashlib.sha256(path.read_bytes()).hexdigest() for address, path in paths.items()}


def _own_files() -> dict[str, Path]:
    """Address in a department's folder -> file, of what is no data file: department.toml, moves, logo, pages."""
    where, owner = folder(), department()
    if where is None or owner is None:
        return {}
    names = (FILE, moves.FILE, *([owner.logo] if owner.logo else []))
    files = [*(where / name for name in names), *sorted((where / department_files.PAGES).glob("*"))]
    return {path.relative_to(where).as_posix(): path for path in files if path.is_file()}


@cache
def validation() -> dict[str, int]:
    """Status of a published value -> checks of that status; all of them hold, or there were no build."""
    return dict(Counter(case.status for case in checks.load_cases()))


def record(docs: Path) -> dict[str, Any]:
    """What is known before the site is made."""
    owner, where = department(), folder()
    own = {"name": owner.name, "commit": commit(where), "changed_files": changed(where)} if owner and where else None
    return {
        "edition": edition.number(docs),
        "commit": commit(ROOT),
        "changed_files": changed(ROOT, *BUILT_FROM),
        "time": edition.built(),
        "handbook": importlib.metadata.version("lpv-handbook"),
        "department": own,
        "cycles": cycles(docs),
        "validation": validation(),
        "python": platform.python_version(),
        "libraries": {name: importlib.metadata.version(name) for name in sorted(store.LIBRARIES)},
        "data": hashes(docs),
    }


def build_record_page(docs: Path) -> str:
    """The record in words, with a hash for each kind of data."""
    contents = record(docs)
    page = (
        front_matter("Build record", "What this edition was built from, and how to prove it.", search=0)
        + "What this edition was built from. The same as a "
        f"file, with the hash of every data file: [{NAME}](../{NAME}). How to prove it: "
        "[editions](publish-editions.md#prove).\n\n## Built from { #built-from }\n\n"
    )
    page += "".join(f"- **{label}**: {escape(text)}\n" for label, text in _sources(contents))
    page += "\n## Data { #data }\n\n" + table(["kind", "files", "SHA-256, its start"], _kinds(docs), left=1)
    rows = [(status, contents["validation"][status]) for status in CASE_STATUSES if status in contents["validation"]]
    rows.append(("all, and all hold", sum(contents["validation"].values())))
    return page + "\n## Checks { #checks }\n\n" + table(["status of the expected value", "checks"], rows)


def _sources(contents: dict[str, Any]) -> list[tuple[str, str]]:
    own_part = contents["department"]
    rows = [("edition", contents["edition"]), ("its time, that of its latest commit, UTC", contents["time"]),
            ("commit", _commit_words(contents))]
    rows += [("department", own_part["name"]), ("commit of its folder", _commit_words(own_part))] if own_part else []
    cycles = (f"{cycle} ({count} approaches)" for cycle, count in contents["cycles"].items())
    rows.append(("data cycles", ", ".join(cycles)))
    rows.append(("made with", ", ".join([f"Python {contents['python']}", *(
        f"{name} {version}" for name, version in contents["libraries"].items())])))
    return rows


def _commit_words(contents: dict[str, Any]) -> str:
    words = contents["commit"] or "not known: built outside git"
    return f"{words}, with {contents['changed_files']} changed files" if contents["changed_files"] else words


def _kinds(docs: Path) -> list[tuple[str, int, str]]:
    rows = []
    for kind, endings in department_files.KINDS.items():
        files = sorted(path for path in (docs / kind).glob("*") if path.suffix in endings)
        if files:
            rows.append((kind, len(files), hash_of(files, docs)[:SHOWN_DIGITS]))
    return rows


def site_hash(files: Mapping[str, Digest]) -> str:
    """A hash of the names and hashes of all files of a site but those that are made from the record or after it."""
    lines = (f"{place} {entry.sha256}\n" for place, entry in files.items() if not place.startswith(AFTERWARDS))
    return hashlib.sha256("".join(lines).encode()).hexdigest()


def as_json(contents: dict[str, Any]) -> str:
    """A record as the text of its file."""
    return json.dumps(contents, indent=1) + "\n"


def seal(site: Path, files: Mapping[str, Digest]) -> dict[str, Digest]:
    """Add the hash of all its files to the record of a finished site; the files with the record as it is now."""
    contents = json.loads((site / NAME).read_text("utf-8"))
    text = as_json(contents | {"site": site_hash(files)})
    (site / NAME).write_text(text, "utf-8")
    return {**files, NAME: digest(text.encode())}


def main(arguments: list[str]) -> int:
    """0 if the site's files are those that its record names, 1 if not, 2 if there is no record, or no site is named."""
    if len(arguments) != 1:
        print("usage: python -m lpv_site.build.build_record SITE", file=sys.stderr)
        return 2
    site = Path(arguments[0])
    try:
        contents = json.loads((site / NAME).read_text("utf-8"))
    except (OSError, ValueError) as error:
        print(f"{site / NAME}: no record that can be read ({error})", file=sys.stderr)
        return 2
    same = contents.get("site") == site_hash(digests(site))
    words = "As recorded" if same else "NOT as recorded"
    commit_words = contents.get("commit") or "unknown"
    print(f"{words}: edition {contents.get('edition')}, commit {commit_words}, {contents.get('time')}")
    return 0 if same else 1


if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))

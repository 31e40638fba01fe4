"""What a build keeps for the next one, each result under a key made of everything that it was made from.

An entry is written aside and moved into place, so that a killed build leaves no half entry; an entry that cannot
be read is made again.  The folder may be deleted at any time; HANDBOOK_STORE moves it.
"""

import hashlib
import importlib.metadata
import json
import os
import sys
import time
import zlib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from jinja2 import FileSystemBytecodeCache

from lpv_site.department import department

SNIPPETS = Path(__file__).resolve().parents[2]
CONFIG = SNIPPETS.parent / "mkdocs.yml"
FOLDER = Path(os.environ.get("HANDBOOK_STORE", SNIPPETS.parent / ".cache"))
LIBRARIES = (
    "matplotlib", "numpy", "geographiclib", "pygeomag", "segno", "markdown", "pymdown-extensions", "pygments",
    "markdown-exec", "jinja2", "mkdocs", "mkdocs-material",
)
SETTINGS = ("markdown_extensions", "site_url")
UNUSED_DAYS = 60


def code_files() -> list[Path]:
    """The hook and the files of both packages, templates and scripts for the browser too."""
    files = (path for package in ("lpv", "lpv_site") for path in (SNIPPETS / package).rglob("*"))
    return [SNIPPETS / "hooks.py", *sorted(path for path in files if path.is_file() and path.suffix != ".pyc")]


@cache
def code_version() -> str:
    """A hash of all that makes pages from data: code, own figures, versions of libraries, settings of Markdown."""
    digest = hashlib.sha256(sys.version.encode())
    for library in LIBRARIES:
        digest.update(f"{library} {importlib.metadata.version(library)} ".encode())
    for path in code_files():
        digest.update(f"{path.relative_to(SNIPPETS).as_posix()} ".encode() + path.read_bytes())
    said = yaml.safe_load(CONFIG.read_text("utf-8"))
    one = department.department()
    own = [department.fact_rows(), department.fact_sources(), department.cautions(), one.address if one else ""]
    digest.update(json.dumps([own, [said.get(key) for key in SETTINGS]], sort_keys=True).encode())
    return digest.hexdigest()


def site_url() -> str:
    """Where the site is published: the department's address, else that of mkdocs.yml; "" where neither is said."""
    one = department.department()
    said = one.address if one and one.address else yaml.safe_load(CONFIG.read_text("utf-8")).get("site_url")
    return str(said or "")


def key_of(*parts: str | bytes) -> str:
    """The key of what this code makes from these parts."""
    digest = hashlib.sha256(code_version().encode())
    for part in parts:
        data = part.encode() if isinstance(part, str) else part
        digest.update(f" {len(data)} ".encode() + data)
    return digest.hexdigest()


def load(folder: Path, key: str) -> Any:
    """The entry with this key; None if there is none or it cannot be read.  Its use is noted by its time."""
    try:
        found = json.loads(zlib.decompress((folder / key).read_bytes()))
        os.utime(folder / key)
    except (OSError, zlib.error, ValueError):
        return None
    return found


def kept_templates() -> Any:
    """Where Jinja keeps the templates that it has compiled."""
    folder = FOLDER / "templates"
    folder.mkdir(parents=True, exist_ok=True)
    return FileSystemBytecodeCache(str(folder), f"{code_version()}-%s")


def is_kept(kind: str, key: str) -> bool:
    """Whether there is such an entry, if it can be read."""
    return (FOLDER / kind / key).is_file()


def keep(folder: Path, key: str, value: Any) -> None:
    """Keep a value that JSON can hold: written aside, then moved into place."""
    folder.mkdir(parents=True, exist_ok=True)
    aside = folder / f"{key}.{os.getpid()}"
    aside.write_bytes(zlib.compress(json.dumps(value).encode(), 1))
    aside.replace(folder / key)


def kept(kind: str, key: str, make: Callable[[], dict[str, Any]]) -> dict[str, Any]:
    """What `make` gives, or what it gave when it was last made from the same."""
    found = load(FOLDER / kind, key)
    if isinstance(found, dict):
        return found
    made = make()
    keep(FOLDER / kind, key, made)
    return made


def tidy(folder: Path = FOLDER, unused_days: float = UNUSED_DAYS) -> int:
    """Delete the entries that no build has used for so many days, and return how many."""
    before = time.time() - unused_days * 86400
    old = [path for path in folder.glob("*/*") if path.is_file() and path.stat().st_mtime < before]
    for path in old:
        path.unlink(missing_ok=True)
    return len(old)

"""Which files a module of snippets/ reaches by its imports, so that a key holds those sources and no others.

The imports are read from the text: nothing is run.  An import inside a function counts like any other; one made from
a name at run time is not seen, so who makes it names what it may reach.  Files beside a module that are no modules
(tables, templates of files) belong to it.
"""

import hashlib
import re
from functools import cache
from pathlib import Path

SNIPPETS = Path(__file__).resolve().parents[2]
IMPORT = re.compile(
    r"^[ \t]*(?:from[ \t]+([\w.]+)[ \t]+import[ \t]+(?:\(([^)]*)\)|([^\n#]*))|import[ \t]+([\w., \t]+))", re.M
)
WORD = re.compile(r"[A-Za-z_]\w*(?=[ \t]*(?:,|$|\n|as\b|#))")


@cache
def modules() -> dict[str, Path]:
    """Name of every module and package of snippets/ -> its file."""
    paths = {}
    for path in SNIPPETS.rglob("*.py"):
        parts = path.relative_to(SNIPPETS).with_suffix("").parts
        paths[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return paths


@cache
def imported(path: Path) -> frozenset[Path]:
    """The files of snippets/ that a file imports by itself, the packages above them included."""
    names: set[str] = set()
    if not path.is_file():
        return frozenset()
    for module, many, line, plain in IMPORT.findall(path.read_text("utf-8")):
        if module:
            names |= {module, *(f"{module}.{name}" for name in WORD.findall(many or line))}
        names |= {name.split()[0] for name in plain.split(",") if name.strip()}
    parts = (name.split(".") for name in names)
    above = {".".join(name[:length]) for name in parts for length in range(1, len(name) + 1)}
    return frozenset(modules()[name] for name in above if name in modules())


@cache
def reached(path: Path) -> frozenset[Path]:
    """A file and all files of snippets/ that it imports, directly or through others."""
    files, waiting = {path}, [path]
    while waiting:
        new = imported(waiting.pop()) - files
        files |= new
        waiting += new
    return frozenset(files)


@cache
def beside(folder: Path) -> frozenset[Path]:
    """The files of a package that are no modules."""
    return frozenset(path for path in folder.iterdir() if path.is_file() and path.suffix not in {".py", ".pyc"})


@cache
def _line(path: Path) -> str:
    """A file below snippets/ and the hash of its bytes."""
    digest = hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else ""
    return f"{path.relative_to(SNIPPETS).as_posix()} {digest}\n"


@cache
def version(paths: frozenset[Path]) -> str:
    """A hash of the names and bytes of all files that these reach, and of those beside them."""
    files = frozenset().union(*map(reached, paths))
    more = (beside(folder) for folder in {path.parent for path in files} - {SNIPPETS})
    return hashlib.sha256("".join(sorted(map(_line, files.union(*more)))).encode()).hexdigest()

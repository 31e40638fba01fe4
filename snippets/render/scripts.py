"""Page scripts: run once, their printed output and their `values` kept (see `render.store`)."""

import io
import re
import runpy
from contextlib import redirect_stdout
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from render import figure, store
from render.data import data_version

SNIPPETS = Path(__file__).resolve().parents[1]
PACKAGES = {"lpv", "render"}
# The head of a fence that is run, and the include line that is its body.
FENCE = re.compile(r'^([ ]*```python exec="on"[^\n]*\n)([ ]*)--8<-- "([^"\n]+)\.py"$', re.M)


def page_scripts() -> list[Path]:
    """Every page script, in name order: all scripts outside the two packages."""
    return sorted(
        path
        for path in SNIPPETS.rglob("*.py")
        if path.relative_to(SNIPPETS).parts[0] not in PACKAGES and path.parent != SNIPPETS
    )


@dataclass(frozen=True)
class Printed:
    """What a page script gives: its printed text, and the texts it offers to prose."""

    text: str
    values: dict[str, str]


@cache
def run(name: str) -> Printed:
    """What the page script `verify/path` (without .py) gives, or gave when it last ran with the same data and code."""
    path = SNIPPETS / f"{name}.py"
    if not path.is_file():
        raise FileNotFoundError(f"no page script snippets/{name}.py")
    found = store.kept("scripts", key_of(name), lambda: _run(path))
    figure.remember(found["drawings"])
    return Printed(found["text"], found["values"])


def key_of(name: str) -> str:
    """The key under which what a page script gives is kept."""
    return store.key_of("script", name, (SNIPPETS / f"{name}.py").read_bytes(), data_version())


def _run(path: Path) -> dict[str, Any]:
    printed = io.StringIO()
    with redirect_stdout(printed):
        offered = runpy.run_path(str(path), run_name="page").get("values", {})
    text, values = printed.getvalue(), {key: str(value) for key, value in offered.items()}
    return {"text": text, "values": values, "drawings": figure.drawings_of(" ".join([text, *values.values()]))}


def computed(name: str, key: str) -> str:
    """The text that a page script offers under `values[key]`, for use in prose."""
    values = run(name).values
    if key not in values:
        raise KeyError(f"snippets/{name}.py offers no values[{key!r}]; it has {sorted(values)}")
    return values[key]


def with_printed(markdown: str) -> str:
    """A page's Markdown whose fences print what their scripts gave, instead of running them once more."""
    return FENCE.sub(r"""\1\2print(__import__("render.scripts", fromlist=["run"]).run("\3").text, end="")""", markdown)

"""Page scripts: what they show, and the values that they offer to prose.

A page script is a module with a function `show() -> Shown`, which the fence of its page prints.  Scripts that print
when they are run are the older form.
"""

import ast
import io
import re
import runpy
from collections.abc import Iterator
from contextlib import redirect_stdout
from functools import cache
from importlib import import_module
from pathlib import Path

from lpv_site.figures import figure
from lpv_site.text.shown import Shown

SNIPPETS = Path(__file__).resolve().parents[2]
PACKAGES = {"demo", "lpv", "lpv_site"}
SHOWS = re.compile(r"^[ ]*from (\w+)\.(\w+) import show$", re.M)  # the body of a fence
# The head of a fence of the older form, and the include line that is its body.
FENCE = re.compile(r'^([ ]*```python exec="on"[^\n]*\n)([ ]*)--8<-- "([^"\n]+)\.py"$', re.M)


def page_scripts() -> list[Path]:
    """Every page script, in name order: all scripts outside the packages."""
    return sorted(
        path
        for path in SNIPPETS.rglob("*.py")
        if path.relative_to(SNIPPETS).parts[0] not in PACKAGES and path.parent != SNIPPETS and path.stem != "__init__"
    )


def named_on(markdown: str) -> Iterator[Path]:
    """The files of the scripts whose fences stand on a page."""
    names = [f"{folder}/{name}" for folder, name in SHOWS.findall(markdown)]
    return (SNIPPETS / f"{name}.py" for name in [*names, *(found[2] for found in FENCE.findall(markdown))])


@cache
def has_show(path: Path) -> bool:
    """Whether a page script is a module with a function `show`."""
    body = ast.parse(path.read_text("utf-8")).body
    return any(isinstance(node, ast.FunctionDef) and node.name == "show" for node in body)


def show(name: str) -> Shown:
    """What the page script `final/altimeter` (without .py) shows, with its figures at hand."""
    shown, figures = _shown(name)
    figure.remember(figures)
    return shown


@cache
def _shown(name: str) -> tuple[Shown, dict[str, str]]:
    path = SNIPPETS / f"{name}.py"
    if not path.is_file():
        raise FileNotFoundError(f"no page script snippets/{name}.py")
    shown = import_module(name.replace("/", ".")).show() if has_show(path) else _printed(path)
    if not isinstance(shown, Shown):
        raise TypeError(f"snippets/{name}.py: show() must return a Shown, not {type(shown).__name__}")
    return shown, figure.drawings_of(" ".join([shown.markdown, *map(str, shown.values.values())]))


def _printed(path: Path) -> Shown:
    printed = io.StringIO()
    with redirect_stdout(printed):
        offered = runpy.run_path(str(path), run_name="page").get("values", {})
    return Shown(printed.getvalue(), {key: str(value) for key, value in offered.items()})


def in_prose(_page: str, name: str, key: str) -> str:
    """The text that a page script offers under `values[key]`."""
    values = show(name).values
    if key not in values:
        raise KeyError(f"snippets/{name}.py offers no value {key!r}; it has {sorted(values)}")
    return str(values[key])


def with_printed(markdown: str) -> str:
    """A page's Markdown whose fences of the older form print what their scripts give."""
    run = '__import__("lpv_site.build.scripts", fromlist=["show"]).show'
    return FENCE.sub(rf'\1\2print({run}("\3"), end="")', markdown)

"""Page scripts: what they show and the values they offer to prose, kept between builds (see `lpv_site.build.store`).

A page script is a module with a function `show() -> Shown`, which the fence of its page prints.  Scripts that print
when they are run are the older form.
"""

import ast
import io
import re
import runpy
from contextlib import redirect_stdout
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

from lpv_site.build import store
from lpv_site.department.data import data_version
from lpv_site.figures import figure
from lpv_site.text.headings import headings, headings_version
from lpv_site.text.shown import Shown

SNIPPETS = Path(__file__).resolve().parents[2]
PACKAGES = {"demo", "lpv", "lpv_site"}
PRINTS = re.compile(r'\.run\("([^"\n]+)"\)\.text')  # what `with_printed` writes
SHOWS = re.compile(r"^[ ]*from (\w+)\.(\w+) import show$", re.M)  # the body of a fence of the new form
WITH_HEADINGS = {"debrief/own", "set_up/check"}  # scripts that print the words of other pages' headings
# The head of a fence that is run, and the include line that is its body.
FENCE = re.compile(r'^([ ]*```python exec="on"[^\n]*\n)([ ]*)--8<-- "([^"\n]+)\.py"$', re.M)


def page_scripts() -> list[Path]:
    """Every page script, in name order: all scripts outside the packages."""
    return sorted(
        path
        for path in SNIPPETS.rglob("*.py")
        if path.relative_to(SNIPPETS).parts[0] not in PACKAGES and path.parent != SNIPPETS and path.stem != "__init__"
    )


@cache
def has_show(path: Path) -> bool:
    """Whether a page script is a module with a function `show`."""
    body = ast.parse(path.read_text("utf-8")).body
    return any(isinstance(node, ast.FunctionDef) and node.name == "show" for node in body)


def show(name: str) -> Shown:
    """What the page script `final/altimeter` shows now."""
    shown = import_module(name.replace("/", ".")).show()
    if not isinstance(shown, Shown):
        raise TypeError(f"snippets/{name}.py: show() must return a Shown, not {type(shown).__name__}")
    return shown


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
    found = store.kept("scripts", key_of(name), lambda: _run(name))
    figure.remember(found["drawings"])
    return Printed(found["text"], found["values"])


def key_of(name: str) -> str:
    """The key under which what a page script gives is kept."""
    more = headings_version() if name in WITH_HEADINGS else ""
    return store.key_of("script", name, (SNIPPETS / f"{name}.py").read_bytes(), data_version(), more)


def _run(name: str) -> dict[str, Any]:
    asked = headings.cache_info()
    text, values = _shown(name) if has_show(SNIPPETS / f"{name}.py") else _printed(name)
    if headings.cache_info() != asked and name not in WITH_HEADINGS:
        raise ValueError(f"snippets/{name}.py prints words of headings, so its name belongs into WITH_HEADINGS")
    return {"text": text, "values": values, "drawings": figure.drawings_of(" ".join([text, *values.values()]))}


def _shown(name: str) -> tuple[str, dict[str, str]]:
    shown = show(name)
    return shown.markdown, {key: str(value) for key, value in shown.values.items()}


def _printed(name: str) -> tuple[str, dict[str, str]]:
    printed = io.StringIO()
    with redirect_stdout(printed):
        offered = runpy.run_path(str(SNIPPETS / f"{name}.py"), run_name="page").get("values", {})
    return printed.getvalue(), {key: str(value) for key, value in offered.items()}


def computed(name: str, key: str) -> str:
    """The text that a page script offers under `values[key]`, for use in prose."""
    values = run(name).values
    if key not in values:
        raise KeyError(f"snippets/{name}.py offers no value {key!r}; it has {sorted(values)}")
    return values[key]


def printed_on(markdown: str) -> list[str]:
    """What the scripts on a page print; "" for one that fails, which its fence then says."""
    names = [*PRINTS.findall(markdown), *("/".join(found) for found in SHOWS.findall(markdown))]
    return [_text(name) for name in names]


def _text(name: str) -> str:
    try:
        return run(name).text
    except Exception:
        return ""


def with_printed(markdown: str) -> str:
    """A page's Markdown whose fences print what their scripts gave, instead of running them once more."""
    run = '__import__("lpv_site.build.scripts", fromlist=["run"]).run'
    return FENCE.sub(rf'\1\2print({run}("\3").text, end="")', markdown)

"""Page scripts: what they show, and the values that they offer to prose.

A page script is a module with a function `show() -> Shown`, which the fence of its page prints.
"""

import re
from collections.abc import Iterator
from functools import cache
from importlib import import_module
from pathlib import Path

from lpv_site.figures import figure
from lpv_site.text.shown import Shown

SNIPPETS = Path(__file__).resolve().parents[2]
PACKAGES = {"demo", "lpv", "lpv_site", "phone"}
SHOWS = re.compile(r"^[ ]*from (\w+)\.(\w+) import show$", re.M)  # the body of a fence


def page_scripts() -> list[Path]:
    """Every page script, in name order: all scripts outside the packages."""
    return sorted(
        path
        for path in SNIPPETS.rglob("*.py")
        if path.relative_to(SNIPPETS).parts[0] not in PACKAGES and path.parent != SNIPPETS and path.stem != "__init__"
    )


def named_on(markdown: str) -> Iterator[str]:
    """The functions of the scripts whose fences stand on a page, such as final.altimeter.show."""
    return (f"{folder}.{name}.show" for folder, name in SHOWS.findall(markdown))


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
    shown = import_module(name.replace("/", ".")).show()
    if not isinstance(shown, Shown):
        raise TypeError(f"snippets/{name}.py: show() must return a Shown, not {type(shown).__name__}")
    return shown, figure.drawings_of(" ".join([shown.markdown, *map(str, shown.values.values())]))


def in_prose(_page: str, name: str, key: str) -> str:
    """The text that a page script offers under `values[key]`."""
    values = show(name).values
    if key not in values:
        raise KeyError(f"snippets/{name}.py offers no value {key!r}; it has {sorted(values)}")
    return str(values[key])

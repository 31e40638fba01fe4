"""Page scripts: run once, their printed output and their `values` kept."""

import io
import runpy
from contextlib import redirect_stdout
from functools import cache
from pathlib import Path
from typing import Any

SNIPPETS = Path(__file__).resolve().parents[1]
PACKAGES = {"lpv", "render"}


def page_scripts() -> list[Path]:
    """Every page script, in name order: all scripts outside the two packages."""
    return sorted(
        path
        for path in SNIPPETS.rglob("*.py")
        if path.relative_to(SNIPPETS).parts[0] not in PACKAGES and path.parent != SNIPPETS
    )


@cache
def run(name: str) -> tuple[dict[str, Any], str]:
    """The globals and the printed text of the page script `verify/path` (without .py)."""
    path = SNIPPETS / f"{name}.py"
    if not path.is_file():
        raise FileNotFoundError(f"no page script snippets/{name}.py")
    printed = io.StringIO()
    with redirect_stdout(printed):
        names = runpy.run_path(str(path), run_name="page")
    return names, printed.getvalue()


def computed(name: str, key: str) -> str:
    """The text that a page script offers under `values[key]`, for use in prose."""
    values = run(name)[0].get("values", {})
    if key not in values:
        raise KeyError(f"snippets/{name}.py offers no values[{key!r}]; it has {sorted(values)}")
    return str(values[key])

"""A formula on a page: the source of its function as it stands, and the published values that it is checked against."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from textwrap import dedent

from lpv_site.checks.check_table import check_table
from lpv_site.checks.checks import load_cases, run
from lpv_site.figures.figure import set_aside
from lpv_site.text.convert import to_html
from lpv_site.text.links import relative
from lpv_site.text.text import escape, verbatim

SNIPPETS = Path(__file__).resolve().parents[2]
VALIDATION = "reference/validation.md"
MAX_CHECKS = 4


def in_prose(page: str, name: str) -> str:
    """HTML of a folded formula, for a line of its own on a page.

    page: the address of the page below docs/, for the link to all checks
    name: with its module, such as lpv.path.temperature.indicated_on_path_ft
    """
    path, function = place(name)
    title = f"<code>{verbatim(function)}</code> in {escape(path.relative_to(SNIPPETS).as_posix())}"
    listing = to_html(f"```python\n{source(path, function)}\n```")
    body = f'<details class="note"><summary>{title}</summary>{listing}{_checks(name, page)}</details>'
    return f'<div class="hb-formula">{set_aside(body)}</div>\n'


def _checks(name: str, page: str) -> str:
    """The check values that name the function, the first of them as a table."""
    results = [run(case) for case in load_cases() if case.function == name]
    if not results:
        return "<p>No value from outside is compared with this function by itself.</p>"
    link = f'<a href="{relative(VALIDATION, page)}">Validation</a>'
    more = len(results) - MAX_CHECKS
    more_words = f" The first {MAX_CHECKS} of {len(results)}; all of them: {link}." if more > 0 else f" Where: {link}."
    return f"<p>Checked against values from outside.{more_words}</p>{check_table(results[:MAX_CHECKS])}"


def place(name: str) -> tuple[Path, str]:
    """The file that defines a name, and the name in it (`Class.method` too); LookupError where no file does."""
    parts = name.split(".")
    for length in range(len(parts) - 1, 0, -1):
        path, inside = SNIPPETS.joinpath(*parts[:length]), ".".join(parts[length:])
        for file in (path.with_suffix(".py"), path / "__init__.py"):
            if file.is_file() and inside in definitions(file):
                return file, inside
    raise LookupError(f"no module of snippets/ defines {name}; name it with the module that does")


def source(path: Path, name: str) -> str:
    """The lines that define a function, a method, a class or a constant of a module, as they stand."""
    first, last = definitions(path)[name]
    return dedent("\n".join(path.read_text("utf-8").splitlines()[first - 1 : last]))


@cache
def definitions(path: Path) -> dict[str, tuple[int, int]]:
    """Name -> first and last line of what a module defines at its top level, and of methods; decorators included."""
    ranges: dict[str, tuple[int, int]] = {}
    for node in ast.parse(path.read_text("utf-8")).body:
        ranges |= dict(_named(node))
        if isinstance(node, ast.ClassDef):
            ranges |= {f"{node.name}.{name}": lines for part in node.body for name, lines in _named(part)}
    return ranges


def _named(node: ast.stmt) -> Iterator[tuple[str, tuple[int, int]]]:
    last = node.end_lineno or node.lineno
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        yield node.name, (min([node.lineno, *(decorator.lineno for decorator in node.decorator_list)]), last)
    elif isinstance(node, ast.Assign | ast.AnnAssign):
        targets = node.targets if isinstance(node, ast.Assign) else [node.target]
        for target in targets:
            if isinstance(target, ast.Name):
                yield target.id, (node.lineno, last)

"""Numbers are rounded and written in one module: `lpv.core.text`.  Where code rounds by other means, it writes no text.

What a code, a file's column, a step of a record or a drawing's coordinate asks for stands here, with what it is.
"""

import ast
from functools import cache

from support import ROOT

SNIPPETS = ROOT / "snippets"
# Module or package -> what it rounds or writes.
ROUNDS = {
    "demo": "figures of invented data files",
    "lpv/arinc": "figures of files, to the digits of their columns",
    "lpv/fas": "bits and columns of a code",
    "lpv/crosscheck/segment.py": "steps of a code",
    "lpv/decide/category.py": "noise of a product, so that a limit reached counts as reached",
    "lpv/drill": "altimeter settings to set, invented angles, the place of a choice",
    "lpv/forms/fields.py": "whether a number lies on a step",
    "lpv/geodesy/geoid.py": "points of a grid",
    "lpv/motion/energy.py": "noise of a distance",
    "lpv/sbas/almanac.py": "weeks",
    "lpv/setup/radio.py": "channels",
    "lpv/track/command.py": "figures of JSON",
    "lpv_site/checks/mismatches.py": "steps of a code",
    "lpv_site/figures": "coordinates of a drawing",
    "lpv_site/pages/numbers_page.py": "the place of a choice",
}
WRITES = {
    "demo": "invented data files",
    "lpv/fas": "columns of a code",
    "lpv/arinc/records.py": "keys", "lpv/arinc/marks.py": "keys",
    "lpv/fill/workbook.py": "cells of a spreadsheet",
    "lpv/sbas/almanac.py": "numbers of an almanac, in its own words",
    "lpv/track/plot.py": "coordinates of a drawing",
    "lpv_site/figures": "coordinates of a drawing",
    "lpv_site/forms/calculator_figures.py": "a record for a field",
}


@cache
def trees():
    return {path.relative_to(SNIPPETS).as_posix(): ast.parse(path.read_text("utf-8"))
            for path in sorted(SNIPPETS.rglob("*.py")) if path.relative_to(SNIPPETS).as_posix() != "lpv/core/text.py"}


def is_round(node):
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "round"


def is_float_format(node):
    """Whether it is a field such as {x:.1f} of an f-string."""
    spec = node.format_spec if isinstance(node, ast.FormattedValue) else None
    parts = spec.values if isinstance(spec, ast.JoinedStr) else []
    return any(isinstance(part, ast.Constant) and str(part.value).endswith(("f", "e", "g", "%")) for part in parts)


def modules(found):
    return {name for name, tree in trees().items() if any(found(node) for node in ast.walk(tree))}


def unlisted(found, listed):
    return {name for name in modules(found) if not any(name == key or name.startswith(key + "/") for key in listed)}


def test_rounding_in_one_place():
    assert unlisted(is_round, ROUNDS) == set()
    assert any(map(is_round, ast.walk(ast.parse("x = round(2.5)"))))


def test_float_formats_in_one_place():
    assert unlisted(is_float_format, WRITES) == set()
    assert any(map(is_float_format, ast.walk(ast.parse('x = f"{y:.1f}"'))))
    assert not any(map(is_float_format, ast.walk(ast.parse('x = f"{y:02d} {z}"'))))


def test_every_exception_needed():
    for found, listed in ((is_round, ROUNDS), (is_float_format, WRITES)):
        used = modules(found)
        assert [key for key in listed if not any(name == key or name.startswith(key + "/") for name in used)] == []

"""What lpv offers is used: each public function is reached from a page, a form, a command or a check value.

Reached means named, by a place that is itself reached: in the site layer and the page scripts, in a module's own
tables, as a formula on a page, or as the function of a check value, which the validation pages print.
"""

import ast
import re

from support import ROOT

SNIPPETS = ROOT / "snippets"
# Second methods: exact or flown another way, so that the tests can compare the one that is used with them.
SECOND_METHODS = {
    "relative_position", "rvr_by_formula_easa_m", "roll_in_lead_nm", "roll_in_cross_track_nm",
    "overshoot_captured_at_nm", "above_path_after_ft", "turn_anticipation_nm", "bars_in_sight",
    "lights_spacing_ft", "visibility_for_first_light_ft", "lnav_vnav_cap_distance_nm",
    "lnav_vnav_floor_distance_nm", "way_out", "is_way_out",
}


def names(*nodes):
    """Every name, attribute, imported name, and text that could be one, in these nodes."""
    reached = set()
    for node in (each for top in nodes for each in ast.walk(top)):
        match node:
            case ast.Name(id=name) | ast.Attribute(attr=name) | ast.alias(name=name):
                reached.add(name.split(".")[-1])
            case ast.Constant(value=str(text)) if re.fullmatch(r"[\w.]+", text):
                reached.add(text.split(".")[-1])
    return reached


def functions(tree):
    """The functions of a module, those of its classes too, each with all that it names."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield node.name, names(node)
        elif isinstance(node, ast.ClassDef):
            methods = [each for each in node.body if isinstance(each, ast.FunctionDef)]
            plain = [each for each in node.body if each not in methods]
            own = {each.name for each in methods if each.name.startswith("__")}
            yield node.name, names(*plain, *node.decorator_list, *node.bases) | own
            yield from ((each.name, names(each)) for each in methods)


def graph():
    """Name -> what the functions of that name name, in lpv; and what is named from outside."""
    calls, roots = {}, {"main", "faults", "derived_fields"}
    for path in sorted(SNIPPETS.rglob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        if path.relative_to(SNIPPETS).parts[0] != "lpv":
            roots |= names(tree)
            continue
        for name, named in functions(tree):
            calls.setdefault(name, set()).update(named)
        parts = (ast.FunctionDef, ast.ClassDef, ast.Import, ast.ImportFrom)
        roots |= names(*(node for node in tree.body if not isinstance(node, parts)))
    texts = [*(ROOT / "docs").rglob("*.md"), *(ROOT / "tests" / "reference").glob("*.toml")]
    for path in texts:
        listed = re.findall(r'(?:formula\(|function = )"([\w.]+)"', path.read_text("utf-8"))
        roots |= {name.split(".")[-1] for name in listed}
    return calls, roots


def reached(calls, roots):
    seen, waiting = set(), [name for name in roots if name in calls]
    while waiting:
        name = waiting.pop()
        if name not in seen:
            seen.add(name)
            waiting += calls[name] & calls.keys() - seen
    return seen


def test_every_public_function_reached():
    calls, roots = graph()
    left = {name for name in calls.keys() - reached(calls, roots | SECOND_METHODS) if not name.startswith("_")}
    assert not left, f"use or delete: {sorted(left)}"


def test_second_methods_used_by_tests_only():
    calls, roots = graph()
    assert calls.keys() >= SECOND_METHODS
    assert not SECOND_METHODS & reached(calls, roots)

"""Small wrong changes of a module, one at a time: operators, signs, constants, comparisons, conditions, returns.

A mutant is found again by its place in the walk of the syntax tree, so nothing is written into the sources.
"""

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass

ARITHMETIC: dict[type[ast.operator], ast.operator] = {
    ast.Add: ast.Sub(), ast.Sub: ast.Add(), ast.Mult: ast.Div(), ast.Div: ast.Mult(), ast.FloorDiv: ast.Mult(),
    ast.Mod: ast.Mult(), ast.Pow: ast.Mult(),
}
COMPARISONS: dict[type[ast.cmpop], ast.cmpop] = {
    ast.Lt: ast.LtE(), ast.LtE: ast.Lt(), ast.Gt: ast.GtE(), ast.GtE: ast.Gt(), ast.Eq: ast.NotEq(),
    ast.NotEq: ast.Eq(), ast.Is: ast.IsNot(), ast.IsNot: ast.Is(), ast.In: ast.NotIn(), ast.NotIn: ast.In(),
}
FUNCTIONS = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor",
             "sin": "cos", "cos": "sin", "asin": "acos", "acos": "asin"}
NO_ARITHMETIC = (ast.JoinedStr, ast.List, ast.Tuple, ast.Dict)


# Arguments that say how something looks: a label a point to the side or a line a little thicker is no wrong answer.
LOOKS = frozenset(
    {"xytext", "fontsize", "linewidth", "zorder", "alpha", "labelpad", "height_in", "width_in", "arrowprops"})

OF_A_LABEL = 5  # words, place, role and sides of a label in a panel; what follows is whether it is bold


@dataclass(frozen=True)
class Mutant:
    """One wrong change: its number in the module, where it is, and what becomes of what."""

    module: str
    number: int
    line: int
    function: str
    kind: str
    before: str
    after: str

    @property
    def name(self) -> str:
        """What the mutant is called in lists: stable while the function stands as it is."""
        return f"{self.module}.{self.function}: {self.before} -> {self.after}"


Change = tuple[ast.AST, str, Callable[[], None]]


def mutants(module: str, source: str) -> list[Mutant]:
    """All mutants of a module, in the order of its text."""
    result, names = [], _functions(ast.parse(source))
    tree = ast.parse(source)
    for number, (node, kind, change) in enumerate(_changes(tree)):
        part = "test" if kind == "condition" else ""
        before = ast.unparse(getattr(node, part, node))
        undo = _copy(node)
        change()
        after = ast.unparse(getattr(node, part, node))
        undo()
        line = getattr(node, "lineno", 0)
        result.append(Mutant(module, number, line, _inside(names, line), kind, before, after))
    return result


def mutated(source: str, number: int) -> ast.Module:
    """The syntax tree of the source with its mutant of this number."""
    tree = ast.parse(source)
    for index, (_, _, change) in enumerate(_changes(tree)):
        if index == number:
            change()
            return ast.fix_missing_locations(tree)
    raise IndexError(f"no mutant {number}")


def _copy(node: ast.AST) -> Callable[[], None]:
    fields = {name: list(value) if isinstance(value, list) else value for name, value in ast.iter_fields(node)}

    def undo() -> None:
        for name, value in fields.items():
            setattr(node, name, value)

    return undo


def _functions(tree: ast.Module) -> list[tuple[int, int, str]]:
    """First line, last line and name of every function and class with its outer ones, outermost first.

    The rows of a table at the top of a module, such as the facts, are named by their keys.
    """
    spans = []
    for node in tree.body:
        table = getattr(node, "value", None)
        if isinstance(table, ast.Dict):
            spans += [(key.lineno, row.end_lineno or key.lineno, str(key.value))
                      for key, row in zip(table.keys, table.values, strict=True) if isinstance(key, ast.Constant)]

    def walk(node: ast.AST, outer: str) -> None:
        for child in ast.iter_child_nodes(node):
            name = outer
            if isinstance(child, ast.FunctionDef | ast.ClassDef):
                name = f"{outer}.{child.name}" if outer else child.name
                spans.append((child.lineno, child.end_lineno or child.lineno, name))
            walk(child, name)

    walk(tree, "")
    return spans


def _inside(names: list[tuple[int, int, str]], line: int) -> str:
    return next((name for first, last, name in reversed(names) if first <= line <= last), "<module>")


def _changes(tree: ast.Module) -> Iterator[Change]:
    """Every change in the tree; one is made by calling it, before the next is asked for."""
    yield from _walk(tree)


def _walk(node: ast.AST) -> Iterator[Change]:
    if _left_out(node):
        return
    yield from _of_node(node)
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "format_spec", "decorator_list", "type_comment"):
            continue
        children = value if isinstance(value, list) else [value]
        if name == "args" and isinstance(node, ast.Call) and getattr(node.func, "attr", "") == "label":
            children = children[:OF_A_LABEL]
        for child in children:
            if isinstance(child, ast.AST):
                yield from _walk(child)


def _left_out(node: ast.AST) -> bool:
    """What only the type checker or the command line runs, and how a drawing looks."""
    if isinstance(node, ast.keyword):
        return node.arg in LOOKS
    if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Attribute):
        return node.targets[0].attr in LOOKS
    if isinstance(node, ast.If):
        return ast.unparse(node.test) in ("TYPE_CHECKING", "__name__ == '__main__'")
    return isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "TYPE_CHECKING"


def _of_node(node: ast.AST) -> Iterator[Change]:
    if isinstance(node, ast.BinOp | ast.AugAssign):
        yield from _arithmetic(node)
    elif isinstance(node, ast.Compare):
        for index, operator in enumerate(node.ops):
            yield node, "comparison", lambda i=index, op=operator: node.ops.__setitem__(i, COMPARISONS[type(op)])
    elif isinstance(node, ast.BoolOp):
        yield node, "logic", lambda: setattr(node, "op", ast.Or() if isinstance(node.op, ast.And) else ast.And())
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.Not):
        yield node, "sign", lambda: setattr(node, "op", ast.UAdd() if isinstance(node.op, ast.USub) else ast.Not()) or (
            isinstance(node.op, ast.Not) and setattr(node, "operand", ast.UnaryOp(ast.Not(), node.operand)))
    elif isinstance(node, ast.Constant):
        yield from _constant(node)
    elif isinstance(node, ast.If | ast.IfExp | ast.While):
        if not isinstance(node.test, ast.Compare | ast.BoolOp | ast.UnaryOp):
            yield node, "condition", lambda: setattr(node, "test", ast.UnaryOp(ast.Not(), node.test))
    elif isinstance(node, ast.Return) and node.value is not None and not isinstance(node.value, ast.Constant):
        yield node, "return", lambda: setattr(node, "value", ast.Constant(None))
    elif isinstance(node, ast.Call):
        yield from _call(node)


def _arithmetic(node: ast.BinOp | ast.AugAssign) -> Iterator[Change]:
    sides = [node.left, node.right] if isinstance(node, ast.BinOp) else [node.value]
    words = any(isinstance(side, NO_ARITHMETIC) or _is_text(side) for side in sides)
    if not words and type(node.op) in ARITHMETIC:
        yield node, "arithmetic", lambda: setattr(node, "op", ARITHMETIC[type(node.op)])


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def _constant(node: ast.Constant) -> Iterator[Change]:
    value = node.value
    if isinstance(value, bool):
        yield node, "constant", lambda: setattr(node, "value", not value)
    elif isinstance(value, int):
        yield node, "constant", lambda: setattr(node, "value", value + 1)
    elif isinstance(value, float):
        yield node, "constant", lambda: setattr(node, "value", float(f"{value * 1.1:.12g}") if value else 1.0)


def _call(node: ast.Call) -> Iterator[Change]:
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if name in FUNCTIONS:
        field = "attr" if isinstance(node.func, ast.Attribute) else "id"
        yield node, "function", lambda: setattr(node, "func", _renamed(node.func, field, FUNCTIONS[name]))
    pair = node.args[:2]
    plain = len(pair) == 2 and all(isinstance(argument, ast.Name | ast.Attribute) for argument in pair)
    if plain and name not in (*FUNCTIONS, "isinstance") and ast.unparse(pair[0]) != ast.unparse(pair[1]):
        yield node, "arguments", lambda: setattr(node, "args", [node.args[1], node.args[0], *node.args[2:]])


def _renamed(function: ast.expr, field: str, name: str) -> ast.expr:
    if field == "id":
        return ast.Name(name, ast.Load())
    assert isinstance(function, ast.Attribute)
    return ast.Attribute(function.value, name, ast.Load())

"""What a module of snippets/ defines, and the names that each definition uses: read from its text, nothing is run."""

import ast
import hashlib
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path

from lpv_site.build import store

SNIPPETS = Path(__file__).resolve().parents[2]
PURE = {"cache", "contextmanager", "dataclass", "lru_cache", "once"}  # decorators that note nothing elsewhere
Functions = (ast.FunctionDef, ast.AsyncFunctionDef, ast.Lambda)
Scopes = (*Functions, ast.ListComp, ast.SetComp, ast.DictComp, ast.GeneratorExp)


@dataclass(frozen=True)
class Definition:
    """A statement at the top of a module.

    names: what it defines; none for one that acts as the module is loaded
    uses:  the names in it, dotted as they stand, and those of the texts in it;  digest: of its source
    """

    names: list[str]
    uses: list[str]
    texts: list[str]
    digest: str


@dataclass(frozen=True)
class Module:
    """A module as its text shows it.  imported: name in it -> dotted name of what it stands for."""

    definitions: list[Definition]
    imported: dict[str, str]


@cache
def modules() -> dict[str, Path]:
    """Name of every module and package of snippets/ -> its file."""
    paths = {}
    for path in SNIPPETS.rglob("*.py"):
        parts = path.relative_to(SNIPPETS).with_suffix("").parts
        paths[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return paths


def text_of(path: Path) -> str:
    return path.read_text("utf-8")


@cache
def module(name: str) -> Module:
    """A module of snippets/, read, or kept since it was read last."""
    text = text_of(modules()[name])
    record = store.kept(store.key_of("", "module", text_of(Path(__file__)), text), lambda: asdict(read(text)))
    return Module([Definition(**entry) for entry in record["definitions"]], record["imported"])


def read(text: str) -> Module:
    """A module's text, read; SyntaxError for what is no Python."""
    lines = text.splitlines()
    definitions: list[Definition] = []
    imported: dict[str, str] = {}
    for statement in _statements(ast.parse(text).body):
        if isinstance(statement, ast.Import | ast.ImportFrom):
            imported |= _imported(statement)
            continue
        uses = _Uses()
        uses.visit(statement)
        first, last = _span(statement)
        source = "\n".join(lines[first - 1 : last])
        digest = hashlib.sha256(source.encode()).hexdigest()[:32]
        definitions.append(Definition(_defined(statement), sorted(uses.names), sorted(uses.texts), digest))
    return Module(definitions, imported)


def spans(text: str) -> list[tuple[int, int]]:
    """First and last line of each definition of a module's text, in their order."""
    return [_span(statement) for statement in _statements(ast.parse(text).body)
            if not isinstance(statement, ast.Import | ast.ImportFrom)]


def _span(statement: ast.stmt) -> tuple[int, int]:
    first = min([statement.lineno, *(item.lineno for item in getattr(statement, "decorator_list", []))])
    return first, statement.end_lineno or first


def _statements(body: list[ast.stmt]) -> Iterator[ast.stmt]:
    """The statements of a module; those for the type check and for running it by itself left out."""
    for statement in body:
        if isinstance(statement, ast.If) and ast.unparse(statement.test) in ("TYPE_CHECKING", "__name__ == '__main__'"):
            continue
        yield statement


def _imported(statement: ast.Import | ast.ImportFrom) -> dict[str, str]:
    if isinstance(statement, ast.ImportFrom):
        return {alias.asname or alias.name: f"{statement.module}.{alias.name}" for alias in statement.names}
    return {alias.asname or alias.name.partition(".")[0]: alias.name if alias.asname else alias.name.partition(".")[0]
            for alias in statement.names}


def _defined(statement: ast.stmt) -> list[str]:
    """The names that a statement defines and does nothing else."""
    if isinstance(statement, ast.FunctionDef | ast.ClassDef):
        decorators = {ast.unparse(item).partition("(")[0].rpartition(".")[2] for item in statement.decorator_list}
        return [statement.name] if decorators <= PURE else []
    if isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant):
        return ["__doc__"]
    if isinstance(statement, ast.Assign):
        targets = statement.targets
    else:
        targets = [statement.target] if isinstance(statement, ast.AnnAssign) else []
    if not all(isinstance(target, ast.Name | ast.Tuple) for target in targets):
        return []
    return [node.id for target in targets for node in ast.walk(target) if isinstance(node, ast.Name)]


class _Uses(ast.NodeVisitor):
    """The names of a module's own that a statement uses: dotted as they stand, "@" before those it imports itself."""

    def __init__(self) -> None:
        self.names: set[str] = set()
        self.texts: set[str] = set()
        self.scopes: list[dict[str, str]] = []

    def visit(self, node: ast.AST) -> None:
        if isinstance(node, Functions):
            self._function(node)
        elif isinstance(node, Scopes):
            self._within(node, dict.fromkeys(_bound(node), ""))
        else:
            super().visit(node)

    def _function(self, node: ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda) -> None:
        outside = [*getattr(node, "decorator_list", []), *node.args.defaults, *filter(None, node.args.kw_defaults)]
        for part in outside:
            self.visit(part)
        arguments = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs, node.args.vararg, node.args.kwarg]
        local = {argument.arg: "" for argument in arguments if argument}
        body = node.body if isinstance(node.body, list) else [node.body]
        for part in body:
            local |= dict.fromkeys(_bound(part), "")
        for part in body:
            for inner in ast.walk(part):
                if isinstance(inner, ast.Import | ast.ImportFrom):
                    local |= _imported(inner)
        self.scopes.append(local)
        for part in body:
            self.visit(part)
        self.scopes.pop()

    def _within(self, node: ast.AST, local: dict[str, str]) -> None:
        self.scopes.append(local)
        self.generic_visit(node)
        self.scopes.pop()

    def visit_Import(self, node: ast.Import) -> None:
        self.names |= {f"@{alias.name}" for alias in node.names}

    def visit_ImportFrom(self, node: ast.ImportFrom) -> None:
        self.names |= {f"@{node.module}.{alias.name}" for alias in node.names}

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if not self.scopes:  # fields of a record may be read from its annotations
            self.visit(node.annotation)
        if node.value:
            self.visit(node.value)

    def visit_Constant(self, node: ast.Constant) -> None:
        if isinstance(node.value, str) and len(node.value) < 60:
            self.texts.add(node.value)

    def visit_Attribute(self, node: ast.Attribute) -> None:
        parts, inner = [node.attr], node.value
        while isinstance(inner, ast.Attribute):
            parts.append(inner.attr)
            inner = inner.value
        if isinstance(inner, ast.Name):
            self._use(inner.id, "." + ".".join(reversed(parts)))
        else:
            self.visit(inner)

    def visit_Name(self, node: ast.Name) -> None:
        if not isinstance(node.ctx, ast.Store):
            self._use(node.id, "")

    def _use(self, name: str, rest: str) -> None:
        for scope in reversed(self.scopes):
            if name in scope:
                if scope[name]:
                    self.names.add(f"@{scope[name]}{rest}")
                return
        self.names.add(name + rest)


def _bound(node: ast.AST) -> set[str]:
    """The names that are given values in a function's statement or a comprehension, functions in it left out."""
    names, waiting = set(), [node]
    shared: set[str] = set()
    while waiting:
        part = waiting.pop()
        if isinstance(part, ast.Global | ast.Nonlocal):
            shared |= set(part.names)
        elif isinstance(part, ast.Name) and isinstance(part.ctx, ast.Store):
            names.add(part.id)
        elif isinstance(part, ast.ExceptHandler) and part.name:
            names.add(part.name)
        if part is not node and isinstance(part, Scopes):
            names |= {part.name} if isinstance(part, ast.FunctionDef) else set()
            continue
        if part is node and isinstance(part, ast.FunctionDef | ast.ClassDef):
            names.add(part.name)
            continue
        waiting += ast.iter_child_nodes(part)
    return names - shared

"""The text of a module in the Python that the phone has: the same code, said without what MicroPython lacks.

Most modules that a phone runs are written for it.  Those that read and check a data file are not: their records
are dataclasses, regular expressions match their texts, their dicts have an order.  `plain` says such a module anew,
construct by construct, and takes the rest from the room `phone`, which has the few functions of the standard library
that it needs.  What cannot be said is refused here, in the build.

    annotations, types of types   left out
    @dataclass                    phone.dataclasses.dataclass with the names of the fields, in their order
    NamedTuple                    collections.namedtuple
    {key: value}, dict(...)       phone.builtin.ordered, since the phone's own dict has no order
    f"{value:.1f}"                "{:.1f}".format(value)
    f"{value}", str(value)        phone.builtin.said(value), since MicroPython writes 9.13 as 9.130000000000001
    [*rows, row]                  list(rows) + [row]
    text.isprintable()            phone.builtin.isprintable(text), as all METHODS; MATHS and FUNCTIONS likewise
"""

import ast

TYPES = {"typing", "collections.abc", "__future__"}
DROPPED = {"argparse", "pathlib", "types", "lpv.files.outside"}  # for commands and files, which the phone has not
INSTEAD = {"dataclasses", "re", "functools", "difflib", "itertools", "sys", "tomllib", "collections"}
METHODS = {
    "isprintable", "isidentifier", "casefold", "removeprefix", "removesuffix", "ljust", "rjust", "zfill", "title",
    "isalnum", "fromkeys", "capitalize",
}
MATHS = {"hypot", "remainder"}
ERRORS = {"RecursionError"}
FUNCTIONS = {"dict": "ordered", "vars": "vars", "zip": "zip", "float": "float", "str": "str", "repr": "repr"}
GENERIC = {"dict", "list", "tuple", "set", "frozenset", "type"}
HELPERS = "import phone.builtin as _b\n"


def plain(text: str) -> str:
    """The code of a module for the phone; ValueError for a construct that cannot be said there."""
    tree = ast.parse(text)
    rewritten = ast.fix_missing_locations(_Plain(_type_names(tree)).visit(tree))
    return HELPERS + ast.unparse(rewritten) + "\n"


def _type_names(tree: ast.Module) -> set[str]:
    return {alias.asname or alias.name for node in tree.body
            if isinstance(node, ast.ImportFrom) and node.module in TYPES for alias in node.names}


def _call(name: str, *arguments: ast.expr) -> ast.expr:
    return ast.Call(ast.Attribute(ast.Name("_b", ast.Load()), name, ast.Load()), list(arguments), [])


class _Plain(ast.NodeTransformer):
    """Says each construct anew; see the head of the module."""

    def __init__(self, types: set[str]) -> None:
        self.types = types

    def generic_visit(self, node: ast.AST) -> ast.AST:
        super().generic_visit(node)
        if getattr(node, "body", None) == [] and not isinstance(node, ast.Module):
            node.body = [ast.Pass()]  # type: ignore[attr-defined]
        return node

    # --- modules and statements

    def visit_Import(self, node: ast.Import) -> ast.AST | None:
        kept = [alias for alias in node.names if alias.name not in DROPPED | TYPES]
        for alias in kept:
            if alias.name in INSTEAD:
                alias.asname, alias.name = alias.asname or alias.name, f"phone.{alias.name}"
        return ast.Import(kept) if kept else None

    def visit_ImportFrom(self, node: ast.ImportFrom) -> ast.AST | None:
        if node.module == "typing":  # a type that is handed on as a value
            names = [ast.Name(alias.asname or alias.name, ast.Store()) for alias in node.names if alias.name == "Any"]
            return ast.Assign(list(names), ast.Constant(None), lineno=node.lineno) if names else None
        if node.module in DROPPED | TYPES:
            return None
        if node.module in INSTEAD:
            node.module = f"phone.{node.module}"
        return node

    def visit_If(self, node: ast.If) -> ast.AST | None:
        if isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            return None
        return self.generic_visit(node)

    def visit_Expr(self, node: ast.Expr) -> ast.AST | None:
        if isinstance(node.value, ast.Constant):
            return None
        return self.generic_visit(node)

    def visit_Assign(self, node: ast.Assign) -> ast.AST:
        if self._is_type(node.value):
            node.value = ast.Constant(None)
            return node
        return self.generic_visit(node)

    def _is_type(self, value: ast.expr) -> bool:
        """Whether a value is an alias of a type: Callable[[str], str], dict[str, int], TypeVar("T")."""
        if isinstance(value, ast.Call):
            return isinstance(value.func, ast.Name) and value.func.id == "TypeVar"
        named = value.value if isinstance(value, ast.Subscript) else None
        return isinstance(named, ast.Name) and (named.id in GENERIC or named.id in self.types)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST | None:
        if node.value is None:
            return None
        assignment: ast.AST = self.visit(ast.Assign([node.target], node.value, lineno=node.lineno))
        return assignment

    def visit_Raise(self, node: ast.Raise) -> ast.AST:
        node.cause = None
        return self.generic_visit(node)

    def visit_Match(self, node: ast.AST) -> ast.AST:
        raise ValueError("the phone has no match")

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        node.returns = None
        for argument in [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs, node.args.vararg,
                         node.args.kwarg]:
            if argument is not None:
                argument.annotation = None
        node.args.args, node.args.posonlyargs = node.args.posonlyargs + node.args.args, []
        self.generic_visit(node)
        return node

    # --- classes

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        fields = [part for part in node.body if isinstance(part, ast.AnnAssign) and not _is_class_variable(part)]
        names = [part.target.id for part in fields if isinstance(part.target, ast.Name)]
        if any(isinstance(base, ast.Name) and base.id == "NamedTuple" for base in node.bases):
            return self._named_tuple(node, names)
        node.decorator_list = [self._with_names(decorator, names) for decorator in node.decorator_list]
        self.generic_visit(node)
        return node

    @staticmethod
    def _with_names(decorator: ast.expr, names: list[str]) -> ast.expr:
        """@dataclass(frozen=True) as @dataclass("first", "second"): a class of the phone does not keep its fields."""
        named = decorator.func if isinstance(decorator, ast.Call) else decorator
        if not (isinstance(named, ast.Name) and named.id == "dataclass"):
            return decorator
        return ast.Call(named, [ast.Constant(name) for name in names], [])

    @staticmethod
    def _named_tuple(node: ast.ClassDef, names: list[str]) -> ast.AST:
        others = [part for part in node.body
                  if not ((isinstance(part, ast.AnnAssign) and part.value is None) or isinstance(part, ast.Expr))]
        if others:
            raise ValueError(f"{node.name}: a NamedTuple with more than fields without defaults")
        fields = ast.Tuple([ast.Constant(name) for name in names], ast.Load())
        return ast.Assign([ast.Name(node.name, ast.Store())], _call("namedtuple", ast.Constant(node.name), fields),
                          lineno=node.lineno)

    # --- expressions

    def visit_Name(self, node: ast.Name) -> ast.expr:
        return ast.Attribute(ast.Name("_b", ast.Load()), node.id, ast.Load()) if node.id in ERRORS else node

    def visit_JoinedStr(self, node: ast.JoinedStr) -> ast.expr:
        pattern, values = "", []
        for part in node.values:
            if isinstance(part, ast.Constant):
                pattern += str(part.value).replace("{", "{{").replace("}", "}}")
                continue
            assert isinstance(part, ast.FormattedValue)
            conversion = f"!{chr(part.conversion)}" if part.conversion > 0 else ""
            if part.format_spec is None:
                pattern += "{}"
                values.append(_call("repr" if conversion == "!r" else "said", self.visit(part.value)))
                continue
            if conversion:
                raise ValueError("an f-string that converts and formats")
            if all(isinstance(piece, ast.Constant) for piece in part.format_spec.values):  # type: ignore[attr-defined]
                words = ":" + "".join(piece.value for piece in part.format_spec.values)  # type: ignore[attr-defined]
            else:
                pattern += "{}"
                values.append(self._formatted(part))
                continue
            pattern += "{" + words + "}"
            values.append(self.visit(part.value))
        if not values:
            return ast.Constant(pattern.replace("{{", "{").replace("}}", "}"))
        return ast.Call(ast.Attribute(ast.Constant(pattern), "format", ast.Load()), values, [])

    def _formatted(self, part: ast.FormattedValue) -> ast.expr:
        """A value whose format is computed: ("{:" + format + "}").format(value)."""
        made = ast.BinOp(ast.BinOp(ast.Constant("{:"), ast.Add(), self.visit(part.format_spec)), ast.Add(),  # type: ignore[arg-type]
                         ast.Constant("}"))
        return ast.Call(ast.Attribute(made, "format", ast.Load()), [self.visit(part.value)], [])

    def visit_List(self, node: ast.List) -> ast.expr:
        return self._joined(node, "list")

    def visit_Tuple(self, node: ast.Tuple) -> ast.expr:
        return self._joined(node, "tuple")

    def _joined(self, node: ast.List | ast.Tuple, kind: str) -> ast.expr:
        """[*a, b] as list(a) + [b]."""
        self.generic_visit(node)
        if isinstance(node.ctx, ast.Store) or not any(isinstance(part, ast.Starred) for part in node.elts):
            return node
        joined: ast.expr | None = None
        for part in node.elts:
            term: ast.expr = (ast.Call(ast.Name(kind, ast.Load()), [part.value], []) if isinstance(part, ast.Starred)
                              else type(node)([part], ast.Load()))
            joined = term if joined is None else ast.BinOp(joined, ast.Add(), term)
        assert joined is not None
        return joined

    def visit_Set(self, node: ast.Set) -> ast.expr:
        self.generic_visit(node)
        if any(isinstance(part, ast.Starred) for part in node.elts):
            return ast.Call(ast.Name("set", ast.Load()), [self._joined(ast.List(node.elts, ast.Load()), "list")], [])
        return node

    def visit_Dict(self, node: ast.Dict) -> ast.expr:
        self.generic_visit(node)
        parts = [value if key is None else ast.Tuple([ast.Tuple([key, value], ast.Load())], ast.Load())
                 for key, value in zip(node.keys, node.values, strict=True)]
        if any(key is None for key in node.keys):
            return _call("merged", *parts)
        pairs: list[ast.expr] = [ast.Tuple([key, value], ast.Load())
                                 for key, value in zip(node.keys, node.values, strict=True) if key is not None]
        return _call("ordered", ast.Tuple(pairs, ast.Load()))

    def visit_DictComp(self, node: ast.DictComp) -> ast.expr:
        self.generic_visit(node)
        pair = ast.Tuple([node.key, node.value], ast.Load())
        return _call("ordered", ast.ListComp(pair, node.generators))

    def visit_Subscript(self, node: ast.Subscript) -> ast.expr:
        self.generic_visit(node)
        if isinstance(node.slice, ast.Slice) and node.slice.step is not None:
            if not isinstance(node.ctx, ast.Load):
                raise ValueError("a slice with a step that is assigned to")
            ends = [part or ast.Constant(None) for part in (node.slice.lower, node.slice.upper, node.slice.step)]
            return _call("stepped", node.value, *ends)
        return node

    def visit_Call(self, node: ast.Call) -> ast.expr:
        self.generic_visit(node)
        node.keywords.sort(key=lambda word: word.arg is None)  # what is named behind **texts, MicroPython mistakes
        if isinstance(node.func, ast.Name):
            if node.func.id == "hasattr" and isinstance(node.args[1], ast.Constant) and node.args[1].value in METHODS:
                return ast.Constant(True)
            if node.func.id == "isinstance":
                node.args[1] = _several(node.args[1])
            if node.func.id in FUNCTIONS:
                node.func = ast.Attribute(ast.Name("_b", ast.Load()), FUNCTIONS[node.func.id], ast.Load())
        elif isinstance(node.func, ast.Attribute):
            if node.func.attr in MATHS and isinstance(node.func.value, ast.Name) and node.func.value.id == "math":
                node.func.value = ast.Name("_b", ast.Load())
            elif node.func.attr in METHODS or (node.func.attr == "strip" and not node.args):
                owner = node.func.value
                node.args = node.args if node.func.attr == "fromkeys" else [owner, *node.args]
                node.func = ast.Attribute(ast.Name("_b", ast.Load()), node.func.attr, ast.Load())
            elif node.func.attr == "dumps":
                node.keywords = []  # the phone writes what is no ASCII as it is, and knows no other way
        return node


def _several(kinds: ast.expr) -> ast.expr:
    """int | float as (int, float)."""
    if isinstance(kinds, ast.BinOp) and isinstance(kinds.op, ast.BitOr):
        left = _several(kinds.left)
        return ast.Tuple([*(left.elts if isinstance(left, ast.Tuple) else [left]), kinds.right], ast.Load())
    return kinds


def _is_class_variable(part: ast.AnnAssign) -> bool:
    return "ClassVar" in ast.unparse(part.annotation)

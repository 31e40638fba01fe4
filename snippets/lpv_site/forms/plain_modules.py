"""The files that a phone runs where they were not written for it: each said anew by `lpv_site.forms.plain`.

With the modules of `lpv` come those of the room `phone`, which stand for the standard library, and of two libraries
the modules that compute, geodesics and the magnetic model.
"""

import ast
from functools import cache
from importlib.metadata import files
from importlib.util import find_spec
from pathlib import Path

from lpv_site.forms.plain import plain

SNIPPETS = Path(__file__).resolve().parents[2]
LIBRARIES = ("geographiclib", "pygeomag")  # their licences come along
OF_THE_PHONE = {"collections", "datetime", "hashlib", "json", "math", "builtins"}
# Too much for a phone: the geoid's table, and what a library brings beside what is asked of it.
INSTEAD = {"lpv.geodesy.geoid": "phone.geoid"}
WITHOUT = {"geographiclib.polygonarea"}


def plain_modules(entry: str) -> dict[str, str]:
    """Every file that an entry runs, by address: said for the phone; ValueError for what cannot be said."""
    texts: dict[str, str] = {}
    waiting = [entry, "phone.builtin"]
    while waiting:
        name = waiting.pop()
        path = source(name)
        address = "/".join(name.split(".")) + ("/__init__.py" if path.name == "__init__.py" else ".py")
        if address not in texts:
            texts[address] = _said(name, path)
            waiting += [*imported(name, texts[address]), *([name.rpartition(".")[0]] if "." in name else [])]
    return dict(sorted((texts | licences()).items()))


def licences() -> dict[str, str]:
    """The licences of the libraries, which ask to be handed on with the code."""
    licence_texts = {}
    for library in LIBRARIES:
        texts = [file.read_text("utf-8") for file in files(library) or () if file.name == "LICENSE"]
        if len(texts) != 1:
            raise ValueError(f"{library}: {len(texts)} licences; there must be one")
        licence_texts[f"{library}/LICENSE"] = texts[0]
    return licence_texts


def _said(name: str, path: Path) -> str:
    if path.name == "__init__.py" and name.partition(".")[0] in LIBRARIES:
        return ""  # it would import all of the library
    text = path.read_text("utf-8")
    try:
        return text if name.startswith("phone") else plain(text)
    except ValueError as error:
        raise ValueError(f"{name} runs on the phone: {error}") from error


def source(name: str) -> Path:
    """The file of a module, ours or a library's."""
    name = INSTEAD.get(name, name)
    if name.partition(".")[0] in LIBRARIES:
        return _of_library(name)
    path = SNIPPETS.joinpath(*name.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


@cache
def _of_library(name: str) -> Path:
    spec = find_spec(name)
    if spec is None:
        raise ValueError(f"{name} is not installed")
    return Path(spec.origin) if spec.origin else Path(name) / "__init__.py"  # a folder of modules and no more


def imported(name: str, text: str) -> list[str]:
    """The modules that the text of a module imports, anywhere; ValueError for one that the phone does not have."""
    names: list[str] = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.append(node.module)
            within = [f"{node.module}.{alias.name}" for alias in node.names]
            names += [module for module in within if module.startswith(("lpv.", "phone.")) and source(module).is_file()]
    foreign = [module for module in names if module.partition(".")[0] not in ("lpv", "phone", *LIBRARIES)
               and module not in OF_THE_PHONE]
    if foreign:
        raise ValueError(f"{name} runs on the phone, which has no {', '.join(foreign)}")
    return [module for module in names if module not in OF_THE_PHONE | WITHOUT]

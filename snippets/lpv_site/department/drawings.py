"""Drawings of a department: taken only where they draw, and neither run anything nor fetch it from elsewhere.

Read as a browser reads them, by an XML parser: in whatever encoding, with prefixes, and with signs written as numbers.
"""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple
from xml.parsers import expat

from lpv.core.errors import Fault, shown

ACTION = "Export it without scripts, handlers and links to other files."
SEPARATOR = " "  # between namespace and name
ELEMENTS = frozenset((
    "svg", "g", "defs", "symbol", "use", "title", "desc", "metadata", "path", "rect", "circle", "ellipse", "line",
    "polyline", "polygon", "text", "tspan", "textPath", "linearGradient", "radialGradient", "stop", "clipPath",
    "mask", "pattern", "marker", "image", "style", "switch", "filter", "feBlend", "feColorMatrix",
    "feComponentTransfer", "feComposite", "feConvolveMatrix", "feDiffuseLighting", "feDisplacementMap",
    "feDropShadow", "feFlood", "feFuncA", "feFuncB", "feFuncG", "feFuncR", "feGaussianBlur", "feMerge",
    "feMergeNode", "feMorphology", "feOffset", "fePointLight", "feSpotLight", "feDistantLight", "feSpecularLighting",
    "feTile", "feTurbulence",
))
XHTML = "http://www.w3.org/1999/xhtml"
SVG, XLINK = "http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"
PICTURE = re.compile(r"\s*(#|data:image/(png|jpeg|gif|webp);)", re.I)
ELSEWHERE = re.compile(r"url\s*\(\s*[\"']?\s*(?!#|[\"'\s])|@import|javascript:|expression\s*\(|\\", re.I)


class Found(NamedTuple):
    """What a drawing must not hold: the line, and the thing in words."""

    line: int
    what: str


def faults(path: Path, place: str) -> Iterator[Fault]:
    """The first thing in a drawing that is none, with its line."""
    data = path.read_bytes()
    element = active(data)
    if element:
        lines = data.decode("utf-8", "replace").splitlines()
        text = lines[element.line - 1] if element.line <= len(lines) else ""
        yield Fault(place, "", element.what, "a drawing alone", ACTION, element.line, shown(text.strip(), 120))


def active(data: bytes) -> Found | None:
    """The first thing in an SVG that runs, fetches or is no drawing; None for a drawing alone."""
    parser = expat.ParserCreate(namespace_separator=SEPARATOR)
    elements: list[Found] = []
    names: list[str] = []
    styles: list[str] = []

    def note(description: str) -> None:
        elements.append(Found(parser.CurrentLineNumber, description))

    def begin(name: str, attributes: dict[str, str]) -> None:
        space, _, local = name.rpartition(SEPARATOR)
        if not names and name != f"{SVG}{SEPARATOR}svg":
            note(f"<{local}> in place of <svg>")
        names.append(local)
        styles.clear()
        if space == XHTML or (space == SVG and local not in ELEMENTS):
            note(f"<{local}>")
        for key, value in attributes.items():
            namespace, _, plain = key.rpartition(SEPARATOR)
            if namespace in ("", XLINK) and (attribute := _attribute(plain.lower(), value)):
                note(attribute)

    def end(_: str) -> None:
        if names.pop() == "style" and ELSEWHERE.search("".join(styles)):
            note(shown("".join(styles).strip(), 60))

    parser.StartElementHandler, parser.EndElementHandler, parser.CharacterDataHandler = begin, end, styles.append
    parser.StartDoctypeDeclHandler = lambda *declared: note("entities") if declared[3] else None
    parser.ProcessingInstructionHandler = lambda target, _: note(f"<?{target}")
    try:
        parser.Parse(data, True)
    except expat.ExpatError as error:
        note(f"no SVG: {expat.ErrorString(error.code)}")
    return elements[0] if elements else None


def _attribute(key: str, value: str) -> str:
    """Why an attribute may not stand there, "" where it may."""
    if key.startswith("on"):
        return f"{key}="
    if key in ("href", "src") and not PICTURE.match(value):
        return f"{key}={shown(value.strip(), 60)}"
    return f"{key}={shown(value.strip(), 60)}" if ELSEWHERE.search(value) else ""

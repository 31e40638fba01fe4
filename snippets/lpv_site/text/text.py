"""Numbers, names and links as text: one way to print each kind of thing."""

import math
import re

from lpv.facts import Fact

NARROW_SPACE = "\u202f"
MINUS = "\u2212"


def number(value: float, places: int = 0) -> str:
    """A number with fixed decimals and a true minus sign; never nan, inf or -0.

    Raises ValueError for nan and infinities: a page must not print them.
    """
    if not math.isfinite(value):
        raise ValueError(f"a page cannot print {value}")
    text = f"{value:.{places}f}"
    if float(text) == 0.0:
        text = text.lstrip("-")
    return text.replace("-", MINUS)


UNIT_SIGNS = {"deg": "°", "deg C": "°C"}


def quantity(value: float, unit: str, places: int = 0) -> str:
    """A number and its unit, kept together on one line."""
    unit = UNIT_SIGNS.get(unit, unit)
    if not unit:
        return number(value, places)
    gap = "" if unit in {"°", "%"} else NARROW_SPACE
    return number(value, places) + gap + unit.replace(" ", NARROW_SPACE)


def signed(value: float, unit: str, places: int = 0) -> str:
    """Like quantity, with a plus sign where the value is positive."""
    text = quantity(value, unit, places)
    return "+" + text if float(f"{value:.{places}f}") > 0 else text


def course(angle_deg: float, places: int = 0) -> str:
    """A course in three digits, north as 360."""
    rounded = round(angle_deg, places) % 360.0 or 360.0
    return f"{rounded:0{3 if not places else 4 + places}.{places}f}°"


def plain(value: float) -> str:
    """A number as short as it goes (a fact's value as its source prints it)."""
    return number(value, 0) if float(value).is_integer() else f"{value:.10g}".replace("-", MINUS)


def fact_text(fact: Fact) -> str:
    """A fact's value with its unit."""
    if isinstance(fact.value, str):
        return fact.value
    return quantity(0, fact.unit).replace("0", plain(fact.value), 1)


def percent(share: float) -> str:
    """A share of one in percent; all and nothing as whole numbers, and only where it is all or nothing."""
    if share in (0.0, 1.0):
        return quantity(100.0 * share, "%")
    return quantity(min(99.9, max(0.1, 100.0 * share)), "%", 1)


_SPACES = re.compile(r"[ \t\r\n\v\f]+")


def quoted(text: str) -> str:
    """A text as a value of the front matter, whatever stands in it."""
    return '"' + " ".join(text.split()).replace("\\", " ").replace('"', "'") + '"'


def front_matter(title: str, description: str, *, heading: str = "", search: float = 1.0) -> str:
    """The head of a generated page, with its first heading.

    heading: if other than the title;  search: weight in the site's search, 0 for a page that it does not find
    """
    weight = f"search:\n  boost: {search}\n" if search else "search:\n  exclude: true\n"
    return (
        f"---\ntitle: {quoted(title)}\ndescription: {quoted(description)}\n{'' if search == 1.0 else weight}---\n\n"
        f"# {escape(heading or title)} {{ #top }}\n\n"
    )


def fact_id(key: str) -> str:
    """The permanent id of a fact on the facts page."""
    return "fact-" + key.replace("_", "-")


# Characters with a meaning in HTML or Markdown, as character references.
_INERT = {ord(sign): f"&#{ord(sign)};" for sign in "&<>\"'\\`*_{}[]()#!|~^"}
# What begins a list, a definition or a line where a paragraph begins with it.
_MARKER = re.compile(r"\A(\d*)([-+:=.])(?=[\s=-]|\Z)")


def escape(text: object) -> str:
    """Any text from data, safe inside HTML and inert in Markdown, on one line; narrow spaces stay."""
    safe = _SPACES.sub(" ", str(text)).strip(" ").translate(_INERT)
    return _MARKER.sub(lambda match: f"{match[1]}&#{ord(match[2])};", safe)


_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:ft|m|dots?|kt|NM|hPa|s|°C)\b)")


def kept(text: str) -> str:
    """Text of our own with figures, escaped, each figure kept together with its unit on one line."""
    return _BEFORE_UNIT.sub(NARROW_SPACE, escape(text))

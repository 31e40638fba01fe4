"""Text for pages: escaping for HTML and Markdown, the head of a generated page, ids."""

import re

from lpv.core.text import MINUS, with_unit

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


# Typed figures: a number and its unit, or a percent sign; a hyphen that begins a number.
_UNITS = ("ft/min", "ft/NM", "ft", "NM", "kt/s", "kt", "SM", "hPa", "inHg", "MHz", "kHz", "lb", "km", "m", "s", "min",
          "h", "dots", "dot", "K", "°C", "deg C", "deg/s", "deg")
_WITH_UNIT = re.compile(rf"(?<=\d) ({'|'.join(_UNITS)})(?![\w/])")
_PERCENT = re.compile(r"(?<=\d) %")
_HYPHEN = re.compile(r"(?<![^\s(,;])-(?=\d)")


def typeset(text: str) -> str:
    """Typed words with their figures as `lpv.core.text` writes them: narrow spaces, degree signs, true minus signs."""
    text = _WITH_UNIT.sub(lambda match: with_unit("", match[1]), text)
    return _HYPHEN.sub(MINUS, _PERCENT.sub("%", text))


def escape(text: object) -> str:
    """Any text from data to be read, its figures typeset; safe and inert as `verbatim`."""
    return verbatim(typeset(str(text)))


def verbatim(text: object) -> str:
    """Any text from data as it stands, for attributes and code: safe inside HTML and inert in Markdown, on one line."""
    safe = _SPACES.sub(" ", str(text)).strip(" ").translate(_INERT)
    return _MARKER.sub(lambda match: f"{match[1]}&#{ord(match[2])};", safe)

"""Text for pages: escaping for HTML and Markdown, the head of a generated page, ids."""

import re

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

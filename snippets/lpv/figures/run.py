"""How the page asks: a figure's name and the texts of its fields in, the figure out, both as JSON.

In:  an object with the text of each field by key.
Out: {"values": {key: text with unit}, "refused": {key: words} for texts that cannot be used, "finding": words, "brief":
     words, "svg": the drawing, "headers": [cell, ...], "rows": [[cell, ...], ...], "jumps": [the text of the dial that
     plays at the event before, at the one after], "" where there is none, [] for a figure that does not play}.

`settled` is asked first about the texts of a link: {"texts": {key: what the field is to hold}, "refused": as above}.
"""

import json

from lpv.core.errors import DomainError
from lpv.figures import TASKS
from lpv.figures.figure import Figure, drawn


def names() -> "list[str]":
    """The names of all figures, in the order of the tasks."""
    return [name for _, members in TASKS for name in members]


def figure(name: str) -> Figure:
    """The figure with this name; KeyError if there is none.  Only its module is imported."""
    for module_name, members in TASKS:
        if name in members:
            module = __import__("lpv.figures." + module_name, None, None, ("FIGURES",))
            figures = module.FIGURES  # type: tuple[Figure, ...]
            return {item.name: item for item in figures}[name]
    raise KeyError(f"no figure {name!r}; there are {', '.join(names())}")


def run(name: str, entries: str) -> str:
    """The figure for the texts in its fields, as JSON (see above)."""
    answer = drawn(figure(name), json.loads(entries))
    return json.dumps({
        "values": dict(answer.values), "refused": dict(answer.refused), "finding": answer.finding,
        "brief": answer.brief, "svg": answer.svg, "headers": list(answer.headers),
        "rows": [list(row) for row in answer.rows], "jumps": answer.jumps,
    })


def settled(name: str, entries: str) -> str:
    """What the fields hold for the texts of a link, as JSON (see above): those that can be used, on their steps."""
    answers, texts, refused = json.loads(entries), {}, {}
    for field in figure(name).inputs:
        if field.key in answers:
            try:
                texts[field.key] = field.fill(field.read(answers[field.key]))
            except DomainError as error:
                refused[field.key] = str(error)
    return json.dumps({"texts": texts, "refused": refused})

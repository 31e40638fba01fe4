"""How the page asks: a calculator's name and the texts of its fields in, lines of text out.

In:  "key TAB text" for each field.
Out: "error TAB key TAB words" for each field that cannot be used; else "problem TAB words", or
     "output TAB key TAB text TAB words", "sentence TAB words" and "row TAB mark TAB cell TAB cell ...", the mark
     "own" for the row of the reader's own case.
"""

from lpv.calculators import TASKS
from lpv.forms.form import Answer, Calculator, answer


def names() -> "list[str]":
    """The names of all calculators, in the order of the tasks."""
    return [name for _, members in TASKS for name in members]


def calculator(name: str) -> Calculator:
    """The calculator with this name; KeyError if there is none.  Only its task's module is imported."""
    for task, members in TASKS:
        if name in members:
            module = __import__("lpv.calculators." + task, None, None, ("CALCULATORS",))
            calculators = module.CALCULATORS  # type: tuple[Calculator, ...]
            return {found.name: found for found in calculators}[name]
    raise KeyError(f"no calculator {name!r}; there are {', '.join(names())}")


def run(name: str, lines: str) -> str:
    """The answer to the texts in the fields of a calculator, as lines (see above)."""
    found = calculator(name)
    texts = {}
    for line in lines.split("\n"):
        key, _, text = line.partition("\t")
        texts[key] = text
    return "\n".join(["\t".join([_plain(part) for part in parts]) for parts in _lines(answer(found, texts))])


def _lines(found: Answer) -> "list[list[str]]":
    if found.errors:
        return [["error", key, words] for key, words in found.errors]
    if found.problem:
        return [["problem", found.problem]]
    lines = [["output", key, text, words] for key, text, words in found.outputs]
    lines.append(["sentence", found.sentence])
    for place in range(len(found.rows)):
        line = ["row", "own" if place == found.own else ""]
        line.extend(found.rows[place])
        lines.append(line)
    return lines


def _plain(text: str) -> str:
    return " ".join(" ".join(text.split("\n")).split("\t"))

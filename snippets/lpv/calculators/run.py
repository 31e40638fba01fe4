"""How the page asks: a calculator's name and the texts of its fields in, its answer out, both as JSON.

In:  an object with the text of each field by key.
Out: {"errors": {key: words}} for fields that cannot be used; else {"problem": words}, or {"outputs": {key: [text,
     words]}, "sentence": words, "rows": [[cell, ...], ...], "own": the number of the row of the reader's own case}.
"""

import json

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
            return {form.name: form for form in calculators}[name]
    raise KeyError(f"no calculator {name!r}; there are {TASKS}")


def run(name: str, entries: str) -> str:
    """The answer to the texts in the fields of a calculator, as JSON (see above)."""
    return json.dumps(_as_json(answer(calculator(name), json.loads(entries))))


def _as_json(result: Answer) -> "dict[str, object]":
    if result.errors:
        return {"errors": dict(result.errors)}
    if result.problem:
        return {"problem": result.problem}
    return {
        "outputs": {key: [text, words] for key, text, words in result.outputs}, "sentence": result.sentence,
        "rows": result.rows, "own": result.own,
    }

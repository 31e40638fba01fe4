"""Inline expressions in prose: {{ fact("hal_lpv_m") }}, {{ computed("verify/path", "excess") }}.

On a line of its own, {{ calculator("descent-rate") }} is the form of a calculator,
{{ live("live-altimeter") }} a live figure, and
{{ formula("lpv.path.temperature.indicated_on_path_ft") }} the source of a function with its check values.

They are evaluated by Jinja's sandbox, outside code only.  A wrong one stops the build.
"""

import re
from collections.abc import Callable
from functools import cache

from jinja2.sandbox import SandboxedEnvironment

from lpv.facts import FACTS
from lpv_site.build.scripts import computed
from lpv_site.checks.formula import formula
from lpv_site.department.department import overridden
from lpv_site.forms.calculators import build_form
from lpv_site.forms.live import build_live
from lpv_site.text.text import escape, fact_id, fact_text

EXPRESSION = re.compile(r"(?<!\\)\{\{(.+?)\}\}")
# Fenced blocks and inline code are left alone.
CODE = re.compile(r"^(?P<fence>[ ]*(?:```+|~~~+)).*?^(?P=fence)[ ]*$|(?<!`)`[^`\n]+`(?!`)", re.M | re.S)

CALL = re.compile(r"""(\w+)\(((?:"[^"'\\]*"|'[^"'\\]*')(?:, *(?:"[^"'\\]*"|'[^"'\\]*'))*)\)""")
TEXT = re.compile(r"""["']([^"']*)["']""")

_environment = SandboxedEnvironment()


def expand(markdown: str, link_to_facts: str, where: str) -> str:
    """The page's Markdown with every inline expression replaced by its value.

    link_to_facts: relative address of the facts page; where: the page, for errors.
    """
    names = {
        "fact": lambda key: _fact(key, link_to_facts),
        "computed": computed,
        "calculator": lambda name: build_form(name, link_to_facts),
        "formula": lambda name: formula(name, where),
        "live": lambda name: build_live(name, link_to_facts),
    }
    pieces = []
    position = 0
    for code in CODE.finditer(markdown):
        pieces.append(_expand_prose(markdown[position : code.start()], names, where))
        pieces.append(code[0])
        position = code.end()
    pieces.append(_expand_prose(markdown[position:], names, where))
    return "".join(pieces)


def _expand_prose(text: str, names: dict[str, Callable[..., str]], where: str) -> str:
    def value(match: re.Match[str]) -> str:
        try:
            return str(_value(match[1].strip(), names))
        except Exception as error:
            raise ValueError(f"{where}: {{{{{match[1]}}}}} cannot be printed: {error}") from error

    return EXPRESSION.sub(value, text)


def _value(expression: str, names: dict[str, Callable[..., str]]) -> object:
    """What an expression gives; most are a call with plain texts, for which Jinja need not compile anything."""
    call = CALL.fullmatch(expression)
    if call is not None and call[1] in names:
        return names[call[1]](*TEXT.findall(call[2]))
    return _compiled(expression)(**names)


@cache
def _compiled(expression: str) -> Callable[..., object]:
    return _environment.compile_expression(expression, undefined_to_none=False)


def _fact(key: str, link_to_facts: str) -> str:
    if key not in FACTS:
        raise KeyError(f"no fact {key!r} in the registry")
    fact = FACTS[key]
    text = f"[{fact_text(fact)}]({link_to_facts}#{fact_id(key)})"
    said = [fact.status] if not fact.status.startswith("published") else []
    said += [escape(whose)] if (whose := overridden(fact)) else []
    return f"{text} ({', '.join(said)})" if said else text

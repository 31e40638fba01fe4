"""Inline expressions in prose: {{ fact("hal_lpv_m") }}, {{ computed("verify/path", "excess") }}.

On a line of its own, {{ calculator("descent-rate") }} is the form of a calculator,
{{ live("live-altimeter") }} a live figure, and
{{ formula("lpv.path.temperature.indicated_on_path_ft") }} the source of a function with its check values.

An expression is a name and texts; outside code only.  A wrong one stops the build.
"""

import re
from collections.abc import Iterator
from importlib import import_module

from lpv.core.errors import DataError

EXPRESSION = re.compile(r"(?<!\\)\{\{(.+?)\}\}")
# Fenced blocks and inline code are left alone.
CODE = re.compile(r"^(?P<fence>[ ]*(?:```+|~~~+)).*?^(?P=fence)[ ]*$|(?<!`)`[^`\n]+`(?!`)", re.M | re.S)
CALL = re.compile(r"""(\w+)\(((?:"[^"'\\]*"|'[^"'\\]*')(?:, *(?:"[^"'\\]*"|'[^"'\\]*'))*)\)""")
TEXT = re.compile(r"""["']([^"']*)["']""")
# Name of an expression -> module with a function `in_prose(page, *texts)`, loaded where a page has such an expression.
MODULES = {
    "fact": "lpv_site.text.facts",
    "computed": "lpv_site.build.scripts",
    "calculator": "lpv_site.forms.calculators",
    "formula": "lpv_site.checks.formula",
    "live": "lpv_site.forms.live",
}


def expand(markdown: str, page: str) -> str:
    """The page's Markdown with every inline expression replaced by its value; page: its address below docs/."""
    def value(match: re.Match[str]) -> str:
        try:
            return _value(match[1].strip(), page)
        except DataError:
            raise  # it names file and key
        except Exception as error:
            raise ValueError(f"{page}: {{{{{match[1]}}}}} cannot be printed: {error}") from error

    return "".join(text if is_code else EXPRESSION.sub(value, text) for text, is_code in _pieces(markdown))


def expressions(markdown: str) -> Iterator[tuple[str, list[str]]]:
    """Name and texts of every expression of a page that is written as one should be."""
    for text, is_code in _pieces(markdown):
        for source in EXPRESSION.findall(text) if not is_code else ():
            if call := CALL.fullmatch(source.strip()):
                yield call[1], TEXT.findall(call[2])


def _pieces(markdown: str) -> Iterator[tuple[str, bool]]:
    """The Markdown in pieces, each with whether it is code."""
    position = 0
    for code in CODE.finditer(markdown):
        yield markdown[position : code.start()], False
        yield code[0], True
        position = code.end()
    yield markdown[position:], False


def _value(expression: str, page: str) -> str:
    call = CALL.fullmatch(expression)
    if call is None or call[1] not in MODULES:
        raise ValueError(f'found {expression}; allowed: {", ".join(MODULES)} with texts, such as fact("key")')
    return str(import_module(MODULES[call[1]]).in_prose(page, *TEXT.findall(call[2])))

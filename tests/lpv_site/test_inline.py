"""Inline expressions: facts and computed values in prose, nothing else."""

import re

import pytest

from lpv_site.text.inline import expand, expressions


def expanded(text):
    return expand(text, "reference/page.md")


def test_fact_links_to_source():
    assert expanded('{{ fact("hal_lpv_m") }}') == "[40\u202fm](facts.md#fact-hal-lpv-m)"


def test_either_quotes_and_spaces():
    for written in ('fact("hal_lpv_m")', "fact('hal_lpv_m')", ' fact("hal_lpv_m") '):
        assert expanded("{{" + written + "}}") == "[40\u202fm](facts.md#fact-hal-lpv-m)"


def test_page_expressions_found_outside_code():
    text = '{{ fact("a") }} `{{ fact("b") }}` {{ computed("c/d", "e") }} {{ nope }}'
    assert list(expressions(text)) == [("fact", ["a"]), ("computed", ["c/d", "e"])]


def test_status_printed_without_document():
    assert expanded('{{ fact("garp_beyond_fpap_m") }}').endswith("(from memory)")


def test_code_unchanged():
    for text in (
        '`{{ fact("x") }}`',
        '```\n{{ fact("x") }}\n```',
        "    ```text\n    {{ nope }}\n    ```",
        r"\{{ x }}",
    ):
        assert expanded(text) == text


@pytest.mark.parametrize(
    "expression",
    ['fact("nope")', "1 +", "nope()", "().__class__.__bases__", 'computed("verify/nope", "x")', 'fact("a" ~ "b")',
     'nope("x")', 'formula("lpv.nope")', 'calculator("nope")', 'fact("hal_lpv_m", "x")'],
)
def test_wrong_expression_names_page(expression):
    with pytest.raises(ValueError, match=r"reference/page\.md"):
        expanded("{{ " + expression + " }}")


@pytest.mark.parametrize("expression", ["1 +", "nope()", 'nope("x")', 'fact("a" ~ "b")'])
def test_wrong_expression_names_allowed(expression):
    with pytest.raises(ValueError, match=re.escape(f"found {expression}; allowed: fact")):
        expanded("{{ " + expression + " }}")

"""Inline expressions: facts and computed values in prose, nothing else."""

import pytest

from lpv_site.text.inline import expand


def expanded(text):
    return expand(text, "facts.md", "page.md")


def test_a_fact_links_to_its_source():
    assert expanded('{{ fact("hal_lpv_m") }}') == "[40\u202fm](facts.md#fact-hal-lpv-m)"


def test_a_call_with_plain_texts_is_what_jinja_makes_of_it():
    by_jinja = expanded('{{ fact("hal_" ~ "lpv_m") }}')
    for written in ('fact("hal_lpv_m")', "fact('hal_lpv_m')", ' fact("hal_lpv_m") ', 'fact("hal_lpv_m" | trim)'):
        assert expanded("{{" + written + "}}") == by_jinja


def test_the_status_is_printed_when_no_document_stands_behind():
    assert expanded('{{ fact("garp_beyond_fpap_m") }}').endswith("(from memory)")


def test_code_is_left_alone():
    for text in (
        '`{{ fact("x") }}`',
        '```\n{{ fact("x") }}\n```',
        "    ```text\n    {{ nope }}\n    ```",
        r"\{{ x }}",
    ):
        assert expanded(text) == text


@pytest.mark.parametrize(
    "expression",
    ['fact("nope")', "1 +", "nope()", "().__class__.__bases__", 'computed("verify/nope", "x")'],
)
def test_a_wrong_expression_stops_with_the_page_named(expression):
    with pytest.raises(ValueError, match=r"page\.md"):
        expanded("{{ " + expression + " }}")

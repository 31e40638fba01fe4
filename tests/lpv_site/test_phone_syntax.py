"""What the Python of the phone does not parse: a star inside a list, a tuple or a set that is made."""

import ast

import pytest

from lpv_site.forms import phone


def stars(source):
    """The lines with a list, tuple or set that is made with a star in it."""
    return [node.lineno for node in ast.walk(ast.parse(source))
            if isinstance(node, ast.List | ast.Tuple | ast.Set)
            and isinstance(getattr(node, "ctx", ast.Load()), ast.Load)
            and any(isinstance(elt, ast.Starred) for elt in node.elts)]


@pytest.mark.parametrize("form", sorted(phone.ENTRIES))
def test_phone_modules_use_no_starred_lists(form):
    starred = {address: lines for address, text in phone.modules(form).items() if (lines := stars(text))}
    assert starred == {}, "write a sum of lists"


def test_starred_lists_detected():
    assert stars("a = [*b]\nc = (*d, 1)\ne, *f = g\nh(*i)\n") == [1, 2]

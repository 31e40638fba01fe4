"""The keys of facts as types: the file beside the facts is what they give, and a wrong key fails the type check."""

import pytest
from mypy import api
from write_keys import STUB, stub

from lpv.facts import FACTS, value, value_of


def test_key_types_match_facts():
    assert STUB.read_text("utf-8") == stub(), "run python tests/site/write_keys.py"
    assert stub().count('\n    "') == len(FACTS)


def test_wrong_key_fails_type_check(tmp_path):
    code = tmp_path / "code.py"
    code.write_text('from lpv.facts import value\n\nvalue("hal_lpv_m")\nvalue("hal_lpv_ft")\n', "utf-8")
    output, _, code_of_exit = api.run([str(code), "--no-error-summary", "--cache-dir", str(tmp_path / "cache")])
    assert code_of_exit == 1
    assert [line.partition(": error")[0].rpartition(":")[2] for line in output.splitlines()] == ["4"]


def test_wrong_key_raises_error():
    assert value_of("hal_lpv_m") == value("hal_lpv_m") == 40.0
    with pytest.raises(KeyError, match="hal_lpv_ft"):
        value_of("hal_lpv_ft")

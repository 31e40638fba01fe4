"""Faults of data files name their line, and show it."""

import pytest

from demo import approaches as make_demo
from lpv.approach.record import read_text
from lpv.core.errors import DataError
from lpv.files.toml_lines import LONGEST, line_of, lines_of, named_line

TEXT = """# head
a = 1

[chart]
course_deg = 92
"odd key" = 2
[[chart.fix]]
name = "AAAAA"
[[ chart . fix ]]
name = "BBBBB"
altitude_ft = 99
[chart.fix.more]
x = 1
"""


def test_key_lines():
    lines = lines_of(TEXT)
    assert (lines["a"], lines["chart"], lines["chart.course_deg"], lines["chart.odd key"]) == (2, 4, 5, 6)
    assert (lines["chart.fix[1]"], lines["chart.fix[1].name"], lines["chart.fix[2].altitude_ft"]) == (7, 8, 11)
    assert lines["chart.fix[2].more.x"] == 13


@pytest.mark.parametrize(("key", "expected"), [
    ("chart.course_deg", (5, "course_deg = 92")), ("chart.fix[1].altitude_ft", (7, "[[chart.fix]]")),
    ("chart.tch_ft", (4, "[chart]")), ("line 2", (2, "a = 1")), ("identity.airport", (0, "")), ("", (0, "")),
    ("line 99", (0, ""))])
def test_fault_at_key_or_heading_above(key, expected):
    assert line_of(TEXT, key, lines_of(TEXT)) == expected


def test_long_line_cut():
    text = "a = " + "x" * 500
    assert len(line_of(text, "a", lines_of(text))[1]) == LONGEST


def test_faulty_approach_file_shows_line():
    good = (make_demo.FOLDER / "zzak-rnav-09.toml").read_text("utf-8")
    lines = good.splitlines()
    number = next(index for index, line in enumerate(lines, 1) if line.startswith("tch_ft"))
    lines[number - 1] = "tch_ft = 9999"
    with pytest.raises(DataError) as stopped:
        read_text("\n".join(lines), "zzak-rnav-09.toml")
    [fault] = stopped.value.faults
    assert (fault.key, fault.line, fault.text) == ("chart.tch_ft", number, "tch_ft = 9999")
    assert str(fault).endswith(f" Line {number}: tch_ft = 9999")


def test_invalid_toml_shows_line():
    with pytest.raises(DataError) as stopped:
        read_text("[identity]\nairport = ZZAK\n", "zzak-rnav-09.toml")
    assert (stopped.value.faults[0].line, stopped.value.faults[0].text) == (2, "airport = ZZAK")
    assert (named_line("Invalid value (at line 7, column 2)"), named_line("an empty file")) == ("line 7", "")

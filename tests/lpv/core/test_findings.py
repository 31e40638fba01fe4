"""Findings: graded, ordered, counted, and never ok by absence."""

import pytest

from lpv.core.findings import (
    GRADES,
    LEADS,
    MEANING,
    REASON_MEANING,
    REASONS,
    SEVERITY,
    Finding,
    by_severity,
    counts,
    not_compared,
    tally,
    uncompared,
    verdict,
    worst,
    worst_grade,
)
from lpv.core.text import plural


def finding(grade, key="course", about=""):
    reason = "no rule" if grade == "not compared" else ""
    return Finding(key, grade, "what was compared", about=about, reason=reason)


def test_worst():
    assert worst([finding("ok"), finding("resolve"), finding("note")]) == "resolve"
    assert worst([finding("ok"), finding("stop")]) == "stop"
    assert worst([finding("ok")]) == "ok"
    assert worst_grade(["ok", "note", "resolve"]) == "resolve"


def test_not_compared_never_ok():
    assert worst([]) == worst_grade([]) == "not compared"
    for grade in ("ok", "note"):
        rows = [finding(grade), finding("not compared")]
        assert worst(rows) == "not compared"
        assert verdict(rows).startswith("Not everything was compared: ")
    assert verdict([]).startswith("Not everything was compared: 0 stop")


def test_by_severity_stable_within_grade():
    rows = [finding("ok", "a"), finding("stop", "b"), finding("note", "c"), finding("stop", "d"),
            finding("not compared", "e")]
    assert [row.key for row in by_severity(rows)] == ["b", "d", "e", "c", "a"]


def test_counts_name_every_grade():
    rows = [finding("ok"), finding("ok"), finding("note"), finding("not compared")]
    assert counts(rows) == {"stop": 0, "resolve": 0, "note": 1, "ok": 2, "not compared": 1}
    assert tally(rows) == "0 stop, 0 resolve, 1 note, 2 ok, 1 not compared"


@pytest.mark.parametrize(("grade", "lead"), LEADS.items())
def test_verdict_counts_all_grades(grade, lead):
    assert verdict([finding(grade)]) == f"{lead}: {tally([finding(grade)])}."
    assert all(word in verdict([finding(grade)]) for word in GRADES)


def test_verdict_accepts_other_words():
    leads = LEADS | {"ok": "May be planned"}
    assert verdict([finding("ok")], leads).startswith("May be planned: ")


def test_not_compared_names_reason():
    row = not_compared("fix-altitude", "altitude at the fix", "missing in the database part", about="SANDY")
    assert (row.grade, row.reason) == ("not compared", "missing in the database part")
    assert row.why == "The database part of the file has no value for it."
    assert uncompared([finding("ok"), row]) == ["altitude at the fix SANDY (missing in the database part)"]


@pytest.mark.parametrize(("grade", "reason"), [("not compared", ""), ("ok", "no rule"), ("not compared", "forgot")])
def test_reason_only_for_not_compared(grade, reason):
    with pytest.raises(ValueError, match="reason"):
        Finding("course", grade, "course", reason=reason)


def test_name_includes_fix():
    assert finding("ok", "fix-altitude", "SANDY").name() == "fix-altitude SANDY"
    assert finding("ok").name() == "course"


def test_unknown_grade_refused():
    with pytest.raises(ValueError, match="worst"):
        finding("worst")


def test_plural():
    assert [plural(1, "note"), plural(2, "note"), plural(0, "note")] == ["1 note", "2 notes", "0 notes"]


def test_every_grade_has_words():
    for table in (MEANING, LEADS, SEVERITY):
        assert set(table) == set(GRADES)
    assert set(REASON_MEANING) == set(REASONS)

"""The drills of docs/practice: exactly what was planted is found, and a drill never changes."""

import hashlib
import os
import subprocess
import sys
from dataclasses import replace
from itertools import product
from pathlib import Path
from types import SimpleNamespace

import pytest

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DataError, DomainError, LpvError
from lpv.drill import drills as drill
from lpv.drill.base import announced_levels, base_case
from lpv.drill.case import Pick, all_findings, beyond, but, graded, with_sides
from lpv.drill.drills import make, read_all
from lpv.drill.rows import DIFFICULTIES, MISTAKES, Listed, Row
from lpv.files import toml_reader as tomlfile
from lpv.setup.expected import Expected
from lpv_site.pages.drill_page import build_drill_page

ROOT = Path(__file__).resolve().parents[3]
DOCS = ROOT / "docs"
DRILLS = read_all(DOCS)
PUBLISHED = Path(__file__).with_name("drills.txt").read_text("utf-8").splitlines()
APPROACHES = approach.read_all(DOCS / "approaches")
TYPES = aircraft.read_all(DOCS / "aircraft")
BY_SLUG = {record.slug: record for record in [*APPROACHES, *TYPES]}


def line_of(drill):
    """A drill as one line: what it is made from, and what has to be found."""
    setup = drill.case.setup
    wrong = ", ".join(f"{name} {grade}" for name, grade in sorted(drill.expected)) or "nothing"
    return (f"{drill.row.name} {drill.row.approach} {drill.row.aircraft} day {setup.day} {setup.flying} flies, "
            f"{setup.reported:g}, {setup.temperature_c:g}, {setup.across_nm:g}, {setup.track_deg:g}, "
            f"{setup.left.tuned_mhz} {setup.right.tuned_mhz}: {wrong}")


def test_enough_drills_of_each_difficulty():
    counts = {level: sum(drill.row.difficulty == level for drill in DRILLS) for level in DIFFICULTIES}
    assert sum(counts.values()) >= 24
    assert min(counts.values()) >= 8
    planted = [len(drill.planted) for drill in DRILLS if drill.row.difficulty == "mixed"]
    assert planted.count(0) >= 3
    assert planted.count(2) >= 3


@pytest.mark.parametrize("drill", DRILLS, ids=lambda drill: drill.row.name)
def test_checks_find_exactly_planted_mistakes(drill):
    assert graded(drill.findings()) == drill.expected
    assert bool(drill.expected) == bool(drill.row.mistakes)
    assert all(planted.expected for planted in drill.planted)


@pytest.mark.parametrize("drill", DRILLS, ids=lambda drill: drill.row.name)
def test_drill_base_is_correct(drill):
    assert {row.grade for row in all_findings(drill.base)} <= {"ok", "note", "not compared"}


@pytest.mark.parametrize("drill", DRILLS, ids=lambda drill: drill.row.name)
def test_published_drill_unchanged(drill):
    same = [line for line in PUBLISHED if line.startswith(drill.row.name + " ")]
    assert same == [line_of(drill)], "a new drill: add this line to tests/lpv/drills.txt; an old one must not change"


def test_published_drills_all_present():
    assert [line.split()[0] for line in PUBLISHED] == sorted(drill.row.name for drill in DRILLS)


def test_same_seed_gives_same_pages_in_other_process():
    code = "from lpv_site.pages.drill_page import build_drill_page as b; import sys\n" \
           "sys.stdout.write(''.join(b(g) for g in ('plain', 'subtle', 'mixed')))"
    there = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True,
        env={**os.environ, "PYTHONHASHSEED": "7", "PYTHONPATH": str(ROOT / "snippets"), "TZ": "Pacific/Kiritimati"},
    ).stdout
    assert there == "".join(build_drill_page(level) for level in DIFFICULTIES)
    assert "Drill 07" in there


def test_seed_changes_only_unlisted_choices():
    row = DRILLS[0].row
    of, flown = BY_SLUG[row.approach], BY_SLUG[row.aircraft]
    assert line_of(make(replace(row, seed=row.number), of, flown)) == line_of(DRILLS[0])
    others = [make(replace(row, seed=seed), of, flown) for seed in range(100, 112)]
    assert len({line_of(other) for other in others}) > 6
    assert {tuple(sorted(other.expected)) for other in others} == {
        (("set-course-left left", "stop"), ("set-sides course", "resolve")),
        (("set-course-left right", "stop"), ("set-sides course", "resolve")),
    }


def test_order_of_approaches_by_hash_of_seed_and_name():
    names = ["zzak-rnav-09", "zzak-rnav-16", "zzak-rnav-27", "zzeg-rnp-24", "zzhc-rnav-33"]
    expected = sorted(names, key=lambda name: hashlib.sha256(f"seed 7 {name}".encode()).digest()[4:8])
    row = SimpleNamespace(approach=None, aircraft="jet")
    choices = drill._choices(row, {name: name for name in names}, {"jet": "jet"}, Pick("7"))
    assert list(choices) == [(name, "jet") for name in expected]
    assert expected != names


def bases():
    """A right set-up of every approach in every type, mild, cold, and with the lowest level announced."""
    ways = ((None, None), (-22.0, None), (None, "lowest"))
    for number, (of, flown, (cold_c, level)) in enumerate(product(APPROACHES, TYPES, ways)):
        other = next((approach for approach in APPROACHES if approach.slug != of.slug
                      and approach.identity.airport == of.identity.airport), None)
        if cold_c is None or of.chart.cold_temperature_airport_c is not None:  # else cold is an open question
            announced = announced_levels(Expected(of, flown))[-1] if level else None
            yield base_case(of, flown, Pick(f"base {number}"), cold_c, announced, other)


BASES = [(base, graded(all_findings(base))) for base in bases()]


def test_every_correct_set_up_passes():
    for base, known in BASES:
        assert {grade for _, grade in known} <= {"note"}, base.approach.slug


@pytest.mark.parametrize("key", MISTAKES)
def test_every_mistake_kind_found_wherever_planted(key):
    planted = 0
    for number, (base, known) in enumerate(BASES):
        try:
            made = MISTAKES[key].plant(base, Pick(f"{key} {number}"))
        except DomainError:
            continue
        assert graded(all_findings(made.case)) - known == made.expected, (base.approach.slug, base.aircraft.slug)
        planted += 1
    assert planted >= 2


def test_type_showing_tuned_localizer_at_once():
    sbas, *others = TYPES[0].sources
    flown = replace(
        TYPES[0], sources=(replace(sbas, removed_by=(*sbas.removed_by, "tuning a localizer on this side")), *others))
    base = base_case(APPROACHES[0], flown, Pick("x"))
    made = MISTAKES["localizer-left"].plant(base, Pick("x"))
    assert graded(beyond(made.case, base)) == made.expected
    assert {grade for name, grade in made.expected if name.startswith("set-wrong-source")} == {"stop"}


def row_text(**changes):
    row = {"number": "1", "difficulty": '"plain"', "approach": '"zzak-rnav-09"', "aircraft": '"large-jet"',
           "mistakes": '["course-before"]', **changes}
    return "[[drill]]\n" + "".join(f"{key} = {value}\n" for key, value in row.items())


@pytest.mark.parametrize(("changes", "named"), [
    ({"mistakes": '["no-such"]'}, "no-such"),
    ({"mistakes": "[]"}, "one of"),
    ({"mistakes": '["course-before", "armed-away"]'}, "course-before, armed-away"),
    ({"mistakes": '["course-before-both"]'}, "course-before-both"),
    ({"difficulty": '"mixed"'}, "two or none"),
    ({"difficulty": '"easy"'}, "allowed: \"plain\""),
    ({"number": "0"}, "number"),
    ({"colour": '"blue"'}, "colour"),
])
def test_faulty_row_names_fault(changes, named):
    with pytest.raises(DataError) as raised:
        tomlfile.read_text(row_text(**changes), "drills.toml", Listed)
    assert named in str(raised.value)


def test_drill_number_unique():
    with pytest.raises(DataError, match="a second time"):
        tomlfile.read_text(row_text() + row_text(), "drills.toml", Listed)


def folder(tmp_path, text):
    for name in ("approaches", "aircraft"):
        (tmp_path / name).symlink_to(DOCS / name)
    (tmp_path / "practice").mkdir()
    (tmp_path / "practice" / drill.FILE).write_text(text, "utf-8")
    return tmp_path


def test_missing_files_named(tmp_path):
    docs = folder(tmp_path, row_text(approach='"zzzz-gone"'))
    with pytest.raises(DataError, match=r"zzzz-gone.*a file in approaches/"):
        read_all(docs)


def test_impossible_mistakes_all_named_together(tmp_path):
    rows = row_text(mistakes='["minimum-cold-one"]') + row_text(number="2", mistakes='["other-runway"]')
    docs = folder(tmp_path, rows)
    with pytest.raises(DataError) as raised:
        read_all(docs)
    assert [fault.key for fault in raised.value.faults] == ["drill-01", "drill-02"]
    assert "nothing is corrected for cold" in str(raised.value)


def test_base_needs_minima_and_missed_approach():
    lp = BY_SLUG["zzak-rnav-27"]
    with pytest.raises(LpvError, match="found LPV; allowed: LP, LNAV"):
        base_case(lp, BY_SLUG["large-jet"], Pick("x"), level="LPV")
    with pytest.raises(LpvError, match="missed approach"):
        base_case(replace(lp, chart=replace(lp.chart, missed=None)), TYPES[0], Pick("x"))


def test_picks_are_independent():
    pick = Pick("7")
    first = pick.choose("a", range(1000))
    pick.choose("b", range(1000))
    assert pick.choose("a", range(1000)) == first
    assert Pick("8").choose("a", range(1000)) != first
    assert {Pick(str(seed)).choose("side", ("left", "right")) for seed in range(20)} == {"left", "right"}
    with pytest.raises(DomainError):
        pick.choose("nothing", [])


def test_change_leaves_original_case_unchanged():
    base = DRILLS[0].base
    changed = with_sides(base, ("left",), course_deg=1.0)
    assert changed.setup.left.course_deg == 1.0
    assert base.setup.left.course_deg != 1.0
    assert but(base.setup, day=1).day != base.setup.day
    assert Row(number=7, difficulty="plain", approach="a", aircraft="b", mistakes=()).name == "drill-07"

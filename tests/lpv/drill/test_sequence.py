"""Sequences: the first sign is the first moment in which it can be seen, in every type that lets it happen."""

from functools import cache
from itertools import product
from pathlib import Path

import pytest

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DomainError
from lpv.decide.final_path import altimeter_ft, pfaf_distance_nm
from lpv.decide.remedy import REMEDIES, SIGNS, remedy
from lpv.drill.case import Pick
from lpv.drill.drills import read_sequences
from lpv.drill.sequence import AFTER_SIGN_S, EACH_S, KINDS, SEEN, make

DOCS = Path(__file__).resolve().parents[3] / "docs"
APPROACHES = {record.slug: record for record in approach.read_all(DOCS / "approaches")}
TYPES = {type_.slug: type_ for type_ in aircraft.read_all(DOCS / "aircraft")}
PUBLISHED = Path(__file__).with_name("sequences.txt").read_text("utf-8").splitlines()
# Kind -> the sign it leads to, and words that stand in the announcement from there on, or that are gone; by hand.
EXPECTED = {
    "as-it-should-be": "", "path-lost-inside": "path lost", "course-lost-inside": "course lost",
    "level-at-activation": "level", "wrong-source": "source", "path-not-armed": "path not armed",
    "from-above": "not captured", "go-around-mode": "not followed", "wrong-setting": "altimeter",
    "interference": "position", "level-falls-inside": "level", "missed-left": "not followed",
    "fms-flies-on": "not captured", "level-in-the-hold": "level",
}
PLACES = [("zzak-rnav-09", slug) for slug in TYPES] + [("zzeg-rnp-24", "light-jet")]


@cache
def flown():
    """(kind, approach, type) -> the sequence; and why those that are missing were refused."""
    made, reasons = {}, set()
    for kind, (of, type_) in product(KINDS, PLACES):
        try:
            made[kind, of, type_] = make(kind, APPROACHES[of], TYPES[type_], Pick("5"))
        except DomainError as error:
            reasons.add(str(error).partition(": ")[0])
    return made, reasons


def line_of(drill):
    run = drill.run
    at = "never" if run.at is None else f"{run.timeline[run.at].time_s:.0f} s, {run.timeline[run.at].along_nm:.2f} NM"
    what = f"{run.sign or 'nothing'} {at}; {run.remedy}"
    return f"{drill.row.name} {drill.row.kind} {drill.approach.slug} {drill.aircraft.slug}: {what}"


def test_published_sequence_unchanged_and_every_kind_practised():
    drills = read_sequences(DOCS)
    assert [line_of(drill) for drill in drills] == PUBLISHED, (
        "a new one: add its line to sequences.txt; an old one must not change or disappear")
    assert {drill.row.kind for drill in drills} == set(KINDS) == set(EXPECTED)


def test_every_sign_occurs_in_every_capable_type():
    """In one test, since all the flights take seconds to fly in each process that needs them."""
    made, reasons = flown()
    assert set(EXPECTED.values()) == {"", *SIGNS} == {"", *SEEN}
    assert {kind for kind, _, _ in made} == set(KINDS)
    assert {"it makes no sense here"} == reasons
    assert {type_ for kind, _, type_ in made if kind == "as-it-should-be"} == set(TYPES), "each type flies it right"
    for key, run in made.items():
        print(*key)
        sign_is_of_its_kind_and_the_timeline_goes_on_after_it(key, run)
        what_is_shown_says_it_and_did_not_before(key, run)
    rows_come_every_few_seconds(made["as-it-should-be", "zzak-rnav-09", "large-jet"])


def sign_is_of_its_kind_and_the_timeline_goes_on_after_it(key, run):
    assert run.sign == EXPECTED[key[0]]
    times = [entry.time_s for entry in run.timeline]
    assert times == sorted(set(times))
    if run.at is None:
        assert run.remedy == "nothing"
        return
    assert 0 < run.at < len(times) - 1
    assert times[-1] <= times[run.at] + AFTER_SIGN_S
    assert times[-1] - times[run.at] >= 15.0 or key[0] == "go-around-mode", "time to say it"
    assert run.remedy == remedy(run.sign, run.timeline[run.at].inside)


def announced(run, at):
    return dict(line.split(": ", 1) for line in run.timeline[at].words)


def what_is_shown_says_it_and_did_not_before(key, run):
    """By the announcement alone, without the predicates."""
    of = key[1]
    if run.at is None:
        assert all("lost" not in line for entry in run.timeline for line in entry.words)
        return
    now, before = announced(run, run.at), announced(run, run.at - 1)
    says = {
        "path lost": lambda words: words["vertical"] != "captured",
        "course lost": lambda words: words["lateral"] != "captured",
        "level": lambda words: words["level"] not in ("LPV", "none"),
        "source": lambda words: "ILS" in words["source"] and words["lateral"] == "captured",
        "not followed": lambda words: "go-around" in words and words["lateral"] in (
            "heading held", "wings level", "basic mode"),
        "position": lambda words: "position" in words,
    }
    if run.sign in says:
        assert says[run.sign](now)
        assert not says[run.sign](before)
    elif run.sign == "altimeter":
        off_ft = [entry.shown_ft - altimeter_ft(APPROACHES[of], entry.along_nm, 15.0)
                  for entry in run.timeline[run.at:]]
        assert all(abs(each) > 100.0 for each in off_ft)
        assert now["vertical"] == "captured"
        assert run.timeline[run.at].along_nm <= pfaf_distance_nm(APPROACHES[of]) + 0.05
    elif run.sign == "path not armed":
        assert (now["lateral"], now["vertical"]) == ("captured", "basic mode")
    else:
        assert run.timeline[run.at].inside
        assert not run.timeline[run.at - 1].inside
        assert now["vertical"] != "captured"


def rows_come_every_few_seconds(run):
    gaps = [after.time_s - before.time_s for before, after in zip(run.timeline, run.timeline[1:], strict=False)]
    assert max(gaps) == EACH_S
    assert min(gaps) >= 1.0
    assert run.timeline[0].along_nm > pfaf_distance_nm(APPROACHES["zzak-rnav-09"]) + 5.0


def test_incapable_type_refused_with_reason():
    with pytest.raises(DomainError, match="captures the path from above"):
        make("from-above", APPROACHES["zzak-rnav-09"], TYPES["large-jet"], Pick("1"))
    with pytest.raises(DomainError, match="does not happen in this type"):
        make("go-around-mode", APPROACHES["zzak-rnav-09"], TYPES["large-jet"], Pick("1"))
    with pytest.raises(DomainError, match="no LPV"):
        make("interference", APPROACHES["zzak-rnav-27"], TYPES["large-jet"], Pick("1"))


@pytest.mark.parametrize(("sign", "outside", "inside"), [
    ("path lost", "hold", "go around"), ("course lost", "hold", "go around"), ("source", "source", "go around"),
    ("level", "brief", "go around"), ("path not armed", "arm path", "go around"), ("altimeter", "setting", "setting"),
    ("not followed", "lateral mode", "lateral mode"), ("", "nothing", "nothing"), ("position", "hold", "go around"),
    ("not captured", "hold", "go around"),
])
def test_remedy_matches_losses_page(sign, outside, inside):
    assert (remedy(sign, False), remedy(sign, True)) == (outside, inside)
    assert {outside, inside} <= set(REMEDIES)


def test_unknown_sign_refused():
    with pytest.raises(DomainError, match="sign"):
        remedy("smoke", True)

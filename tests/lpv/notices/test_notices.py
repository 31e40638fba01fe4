"""Notices in real shapes, and what no text may do: nothing known is lost, and nothing unknown makes a line good."""

import tomllib
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.facts.sources import SOURCES
from lpv.notices import kinds, words
from lpv.notices.airport import Place, effect_at
from lpv.notices.kinds import STATES
from lpv.notices.notam import Times
from lpv.notices.reading import kind_name, read_notice

CASES = tomllib.loads(Path(__file__).with_name("cases.toml").read_text("utf-8"))["case"]
HOUR = timedelta(hours=1)
ETA = datetime(2026, 12, 8, 14, tzinfo=UTC)
DESTINATION = Place(
    "ZZAK", "09", "RNAV (GPS) RWY 09", (34.02, -148.04), 3000.0, ("GULLY", "W09A", "99901"), "B", ("ZZHC",))
ALTERNATE = Place("ZZHC", others=("ZZAK",))
AT = {"destination": (DESTINATION, ETA), "alternate": (ALTERNATE, ETA + HOUR)}
GROUPS = {
    "SBAS": ("LPV", "LP", "LNAV/VNAV by SBAS"),
    "satellite": ("LPV", "LP", "LNAV/VNAV by SBAS", "LNAV/VNAV by altimeter", "LNAV", "circling"),
    "straight-in": ("LPV", "LP", "LNAV/VNAV by SBAS", "LNAV/VNAV by altimeter", "LNAV"),
    "every": ("LPV", "LP", "LNAV/VNAV by SBAS", "LNAV/VNAV by altimeter", "LNAV", "circling", "ILS", "LOC", "VOR",
              "NDB", "PAR", "GLS"),
}


def reading(text, where="destination"):
    place, eta = AT[where]
    return effect_at(read_notice(text), place, eta - HOUR, eta + HOUR)


def wanted(states):
    return {line: state for state, names in states.items() for name in names for line in GROUPS.get(name, (name,))}


@pytest.mark.parametrize("case", CASES, ids=[f"{n}-{case['kind']}" for n, case in enumerate(CASES, 1)])
def test_real_notice_format(case):
    assert kind_name(case["text"]) == case["kind"]
    for where in AT:
        notice = reading(case["text"], where)
        assert notice.states == wanted(case.get(where, {})), where
        assert bool(notice.outside) == (f"{where}_outside" in case), notice.outside
        assert case.get(f"{where}_outside", "") in notice.outside
        if not notice.outside:
            assert notice.in_doubt == case.get("in_doubt", False)
            assert bool(notice.without_sbas) == case.get("without_sbas", False)


def test_cases_of_every_kind_present():
    assert len(CASES) >= 160
    of_the_chart = {kinds.CHART_WITHOUT_NOTICES.name}
    assert {case["kind"] for case in CASES} == {kind.name for kind in kinds.KINDS} - of_the_chart


TEXTS = st.sampled_from([case["text"] for case in CASES])


def severity(text, where, line):
    return STATES.index(reading(text, where).states.get(line, "unaffected"))


@settings(max_examples=60, deadline=None)
@given(TEXTS, st.sampled_from(["lower", "title", "\n", "\r\n   ", "\t", "  "]))
def test_case_and_line_breaks_ignored(text, how):
    other = getattr(text, how)() if how.isalpha() else how.join(text.split())
    for where in AT:
        assert reading(other, where).states == reading(text, where).states
        assert reading(other, where).outside == reading(text, where).outside


@settings(max_examples=120, deadline=None)
@given(TEXTS, st.data(), st.from_regex("[A-Z]{2,9}", fullmatch=True))
def test_unknown_word_never_improves_line(text, data, word):
    known = word in words.SILENT or read_notice(word).relevant or not read_notice(word).unread
    notice = read_notice(text)
    if known or not notice.relevant:
        return
    parts = notice.notam.body.split()
    at = data.draw(st.integers(0, len(parts)))
    disturbed = " ".join([*parts[:at], word, *parts[at:]])
    bare = " ".join(parts)
    for where in AT:
        if reading(bare, where).outside:
            continue
        for line in GROUPS["satellite"]:
            before, after = severity(bare, where, line), severity(disturbed, where, line)
            assert after >= min(before, STATES.index("doubted")), (disturbed, line)


@settings(max_examples=150)
@given(st.text(max_size=200), st.sampled_from(["GPS", "gnss", "Sbas", "WAAS", "EGNOS", "RNAV", "LPV", "approach"]))
def test_gps_or_approach_text_leaves_no_line_unaffected(text, name):
    notice = reading(f"{text} {name} {text}".replace(")", " "))
    if not notice.outside and not read_notice(f"{text} {name}").effects:
        assert set(notice.states) >= set(GROUPS["satellite"])


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_truncated_notice_never_better_than_whole(case):
    body = read_notice(case["text"]).notam.body
    for end in range(len(body)):
        cut = read_notice(body[:end])
        if cut.relevant:
            notice = reading(body[:end])
            assert notice.states or notice.outside or notice.without_sbas, body[:end]


@pytest.mark.parametrize("text", ["!FDC FDC NAV WAAS", "!FDC FDC NAV WAAS NOT", "!FDC FDC NAV WAAS NOT AVB",
                                  "!FDC FDC NAV WAAS VNAV/LPV/LP MINIMA MAY NOT BE", "!FDC FDC NAV WAAS VNAV/LPV/"])
def test_truncated_published_form_doubts_every_line(text):
    assert set(reading(text).states) == set(GROUPS["satellite"])
    assert reading(text).in_doubt


@pytest.mark.parametrize("text", ["", "!FDC", "TWY A CLSD", "GRASS CUTTING IN PROGRESS"])
def test_unrelated_text_not_compared(text):
    assert kind_name(text) == "other-subject"
    assert reading(text).states == {}


def test_chart_fix_makes_text_relevant():
    assert set(reading("GULLY 2400").states) == set(GROUPS["satellite"])
    assert reading("SANDY 2400").states == {}


def test_named_lines_and_radius():
    assert read_notice("WAAS LNAV/VNAV/LPV MINIMA MAY NOT BE AVBL").minima == ("LPV", "LNAV/VNAV")
    assert read_notice("WAAS NOT AVBL").minima == ()
    assert read_notice("GPS UNREL WI A 468NM RADIUS").radius_nm == 468.0
    assert read_notice("GPS UNREL WI 463KM RADIUS").radius_nm == pytest.approx(250.0, abs=0.01)  # 1852 m to the mile
    assert read_notice("GPS UNREL").radius_nm is None


def test_new_minimum_read():
    assert reading("RNAV (GPS) RWY 09 LPV DA 350/HAT 326").altitudes == (("LPV", 350.0),)
    assert reading("RNAV (GPS) RWY 09 LPV AND LNAV/VNAV DA 350").altitudes == ()


def test_unterminated_text_refused():
    with pytest.raises(DomainError):
        read_notice("A" * 5001)


def test_every_kind_states_meaning_and_plan():
    assert len({kind.name for kind in kinds.KINDS}) == len(kinds.KINDS)
    for kind in kinds.KINDS:
        assert kind.means
        assert kind.plan
        assert (kind.place == "") == (kind.status != "published")
    assert kinds.SOURCE in SOURCES


def test_notice_holds_at_first_and_last_moment():
    times = Times(start=ETA, end=ETA + HOUR)
    for first, last, holds in ((ETA - HOUR, ETA, True), (ETA + HOUR, ETA + 2 * HOUR, True),
                               (ETA - HOUR, ETA - HOUR / 60, False), (ETA + 1.01 * HOUR, ETA + 2 * HOUR, False)):
        assert times.in_force(first, last) is holds

"""Small words of generated pages: rows of a file's keys, and what an event of a flight changes."""

from types import SimpleNamespace as Stub

import pytest

from lpv.files.schema import Entry
from lpv_site.pages import aircraft_file_page, flight_page, mode_tables

KINDS = aircraft_file_page.KINDS


@pytest.mark.parametrize(("entry", "holds"), [
    (Entry("number", "a", "kt", 60.0, 250.0), f"{KINDS['number']}, 60 to 250\u202fkt"),
    (Entry("whole", "a", "", 1.0, 9.0), f"{KINDS['whole']}, 1 to 9"),
    (Entry("choice", "a", allowed=("x", "y<")), f'{KINDS["choice"]}<br>"x",<br>"y&#60;"'),
    (Entry("choices", "a", allowed=("x",)), f'{KINDS["choices"]}<br>"x"'),
    (Entry("flag", "a"), KINDS.get("flag", "flag")), (Entry("text", "a"), KINDS.get("text", "text")),
    (Entry("none of these", "a"), "none of these"),
])
def test_contents_of_key_in_words(entry, holds):
    assert aircraft_file_page._holds(entry) == holds


def test_row_of_key():
    assert aircraft_file_page._row("speed_kt", Entry("text", "a < b")) == (
        "`speed_kt`", KINDS.get("text", "text"), "a &#60; b")
    assert aircraft_file_page._row("speed_kt", Entry("text", "a", required=False))[0] == "`speed_kt`<br>optional"


def test_event_of_flight_with_changes():
    at = Stub(along_nm=5.04, indicated_ft=2000.4)
    changes = "lateral: from armed to captured", "level: from LPV to LPV, vertical lost"
    moment = Stub(sample=at, what="a < b", changes=changes)
    assert flight_page._row(moment) == (
        "5.0", "2000\u202fft", "a &#60; b<br>→ lateral **captured**, level **LPV, no vertical**")
    assert flight_page._row(Stub(sample=None, what="words", changes=())) == ("", "", "words")
    assert flight_page._new("level: from LPV to LPV, lost") == "LPV lost"


def observed(source, guides, verdict, remedy=(), approach="SBAS"):
    return Stub(sources=(source, "other"), guides=(guides, ""), verdict=verdict, remedy=remedy, approach=approach)


@pytest.mark.parametrize(("observation", "words"), [
    (observed("SBAS", "SBAS", "right"), "✓ SBAS"), (observed("ILS", "", "right"), "✓ ILS, no guidance"),
    (observed(mode_tables.FMS, "", "right"), f"✓ {mode_tables.FMS}"),
    (observed("ILS", "ILS", "selected at capture"), "✓ ILS, then SBAS at capture"),
    (observed("ILS", "ILS", "another source"), "✕ **ILS**"),
    (observed("ILS", "", "no guidance", ("select SBAS", "arm")), "? **ILS, no guidance**<br>→ select SBAS, then arm"),
])
def test_sight_of_next_crew_in_words(observation, words):
    assert mode_tables.seen_words(observation) == words


def test_sources_left_set_in_words():
    assert mode_tables._left_words("ILS", True) == "ILS, tuned"
    assert mode_tables._left_words(mode_tables.FMS, False) == "FMS lateral, none"
    assert [mode_tables._source_left(name) for name in ("SBAS", "ILS", mode_tables.FMS)] == [
        "**SBAS**", "ILS", "FMS lateral"]
    assert mode_tables._answer(()) == "nothing"
    assert mode_tables._answer(("one", "two")) == "one, two"


def change(level=("LPV", "LNAV"), announced=True, changed=True, by_itself=False, sign="", remedy="go around"):
    return Stub(level=level, announced=announced, changed=changed, by_itself=by_itself, sign=sign, remedy=remedy,
                course="stays", path="is lost")


@pytest.mark.parametrize(("case", "words"), [
    (change(), "LPV → **LNAV**<br>annunciated; course stays, glidepath is lost"),
    (change(announced=False), "LPV → **LNAV**<br>✕ not annunciated; course stays, glidepath is lost"),
    (change(("LPV", "LPV"), announced=False, changed=False),
     "stays LPV<br>no new annunciation; course stays, glidepath is lost"),
    (change(by_itself=True, sign="✕"), "LPV → **LNAV**<br>annunciated; course stays, glidepath is lost"
     "<br>✕ not as the FAA describes<br>**go around**"),
])
def test_change_of_level_in_words(case, words):
    assert mode_tables._level_words(case) == words


def test_changes_of_axis_by_end_state():
    follows = [("arm", ("inactive", "lost"), ("armed", "lost")), ("arm", ("lost", "inactive"), ("armed", "armed")),
               ("arm", ("captured", "armed"), ("lost", "armed")), ("other", ("armed", "armed"), ("lost", "lost"))]
    explored = Stub(follows=follows)
    assert mode_tables._changes(explored, "arm", 0) == "inactive, lost → **armed**<br>captured → **lost**"
    assert mode_tables._changes(explored, "arm", 1) == "inactive → **armed**"
    assert mode_tables._changes(explored, "none", 0) == ""


def test_sources_and_traps_listed():
    rows = [Stub(name="SBAS", offered=("approach loaded",), selected_by=("a", "b"), removed_by=(),
                 guides_while=("x", "y")),
            Stub(name="ILS", offered=(), selected_by=("c",), removed_by=("d",), guides_while=())]
    text = mode_tables.sources_table(Stub(sources=rows))
    assert "| **SBAS** | approach loaded | a,<br>b | only another |" in text
    assert "| **ILS** | always | c | d |" in text
    assert text.endswith("\nSBAS guides only while: x, y.\n")
    assert mode_tables.traps_list(Stub(never=(), traps=())) == "None of the traps this handbook knows.\n"
    trap = Stub(statement="It turns.", remedy="Look."), Stub(events=("arm", "go around"))
    assert mode_tables.traps_list(Stub(never=(), traps=(trap,))) == (
        "- **It turns.** Look.<br><small>Shown by: arm, then go around.</small>\n")

"""Small words of generated pages: rows of a file's keys, and what an event of a flight changes."""

from types import SimpleNamespace as Stub

import pytest

from lpv.files.schema import Entry
from lpv_site.pages import aircraft_file_page, flight_page

KINDS = aircraft_file_page.KINDS


@pytest.mark.parametrize(("entry", "holds"), [
    (Entry("number", "a", "kt", 60.0, 250.0), f"{KINDS['number']}, 60 to 250\u202fkt"),
    (Entry("whole", "a", "", 1.0, 9.0), f"{KINDS['whole']}, 1 to 9"),
    (Entry("choice", "a", allowed=("x", "y<")), f'{KINDS["choice"]}<br>"x",<br>"y&#60;"'),
    (Entry("choices", "a", allowed=("x",)), f'{KINDS["choices"]}<br>"x"'),
    (Entry("flag", "a"), KINDS.get("flag", "flag")), (Entry("text", "a"), KINDS.get("text", "text")),
    (Entry("none of these", "a"), "none of these"),
])
def test_what_a_key_holds(entry, holds):
    assert aircraft_file_page._holds(entry) == holds


def test_row_of_a_key():
    assert aircraft_file_page._row("speed_kt", Entry("text", "a < b")) == (
        "`speed_kt`", KINDS.get("text", "text"), "a &#60; b")
    assert aircraft_file_page._row("speed_kt", Entry("text", "a", required=False))[0] == "`speed_kt`<br>optional"


def test_event_of_a_flight_with_what_it_changes():
    at = Stub(along_nm=5.04, indicated_ft=2000.4)
    changes = "lateral: from armed to captured", "level: from LPV to LPV, vertical lost"
    moment = Stub(sample=at, what="a < b", changes=changes)
    assert flight_page._row(moment) == (
        "5.0", "2000\u202fft", "a &#60; b<br>→ lateral **captured**, level **LPV, no vertical**")
    assert flight_page._row(Stub(sample=None, what="words", changes=())) == ("", "", "words")
    assert flight_page._new("level: from LPV to LPV, lost") == "LPV lost"

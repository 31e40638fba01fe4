"""What a build says at its end of its approaches, and what keeps it back."""

import pytest

from lpv.approach import record
from lpv.core import airac
from lpv_site.briefing.briefing import IndexEntry, build_briefing_page, index_entry
from lpv_site.build import gate
from lpv_site.department.department import GATE, REFUSED, Department
from lpv_site.figures.figure import fill
from lpv_site.pages.approach_index import index_pages, list_file
from support import ROOT

TODAY = airac.effective_ordinal("2612")
GOOD = IndexEntry("ZZAA", "Name", "RNAV (GPS) RWY 09", "LPV", 99901, "W09A", "2612")


def entry(**changes):
    return IndexEntry(**{**vars(GOOD), **changes})


def open_items(entries, demo=(), today=TODAY):
    return {kind: slugs for kind, slugs in gate.gate(entries, demo, today).by_kind.items() if slugs}


def test_every_kind_has_text_and_home():
    assert set(gate.WORDS) == set(GATE)
    assert set(REFUSED) < set(GATE)


@pytest.mark.parametrize(("changes", "kind"), [
    ({"stops": 1}, "stop"), ({"unresolved": 2}, "unresolved"), ({"not_compared": 3}, "not compared"),
    ({"to_be_filled": 1}, "to be filled"), ({"unverified": 1}, "not verified"), ({"cycle": "2611"}, "expired"),
    ({"cycle": "2613"}, "not yet in force"), ({"cycle": "9999"}, "expired"),
])
def test_approach_reports_one_thing(changes, kind):
    others = {"channel": 99902, "path_id": "W27A"}
    assert open_items({"zz-a": GOOD, "zz-b": entry(**others, **changes)}) == {kind: ["zz-b"]}


def test_nothing_open_reported_with_zeros():
    lines = list(gate.gate({"zz-a": GOOD}, (), TODAY).lines())
    assert lines[0] == "1 approach:"
    assert len(lines) == 1 + len(gate.WORDS)
    assert all(line.split()[0] == "0" for line in lines[1:])


@pytest.mark.parametrize("other", [
    {"airport": "ZZBB", "path_id": "W01A"}, {"channel": 99902},
])
def test_duplicate_channel_or_identifier_at_airport(other):
    assert open_items({"zz-a": GOOD, "zz-b": entry(**other)}) == {"duplicate": ["zz-a", "zz-b"]}


def test_identifier_at_two_airports_is_no_duplicate():
    assert open_items({"zz-a": GOOD, "zz-b": entry(airport="ZZBB", channel=99902)}) == {}


def test_demo_beside_department_not_counted():
    assert open_items({"zz-a": GOOD, "zz-b": entry(stops=1)}, demo={"zz-b"}) == {}


def test_cycle_holds_through_last_day():
    assert open_items({"zz-a": GOOD}, today=TODAY + 27) == {}
    assert open_items({"zz-a": GOOD}, today=TODAY + 28) == {"expired": ["zz-a"]}
    assert open_items({"zz-a": GOOD}, today=TODAY - 1) == {"not yet in force": ["zz-a"]}


@pytest.mark.parametrize(("refuse", "refused"), [
    ((), ()), (REFUSED, ("stop",)), (("unresolved", "stop", "expired"), ("stop", "unresolved")),
])
def test_only_department_refusals_block_edition(monkeypatch, refuse, refused):
    monkeypatch.setattr(gate, "department", lambda: Department(name="Example", refuse=refuse))
    made = gate.gate({"zz-a": entry(stops=1, unresolved=2)}, (), TODAY)
    assert made.refused == refused
    assert any(line.startswith("Kept back, not published: ") for line in made.lines()) is bool(refused)


def test_demo_alone_refused_nothing(monkeypatch):
    monkeypatch.setattr(gate, "department", lambda: None)
    assert gate.gate({"zz-a": entry(stops=1)}, (), TODAY).refused == ()


def test_many_counted_and_some_named():
    many = {f"zz-{at}": entry(stops=1, channel=at, path_id=str(at)) for at in range(7)}
    [line] = [line for line in gate.gate(many, (), TODAY).lines() if "with a stop" in line]
    assert line.startswith("      7 with a stop")
    assert line.endswith(": zz-0, zz-1, zz-2, zz-3, zz-4 and 2 more")


DRAFT = record.read(ROOT / "docs" / "approaches" / "drafts" / "zzak-rnav-09-draft.toml")
DEMO = record.read(ROOT / "docs" / "approaches" / "zzak-rnav-09.toml")


def test_entry_counts_briefing_findings():
    stopped, good = index_entry(DRAFT), index_entry(DEMO)
    assert stopped.stops > 0
    assert good.stops == good.unresolved == good.to_be_filled == 0
    assert good.not_compared > 0
    assert good.cycle == "2612"
    assert good.unverified == 1, "the file does not say who read it"


def test_list_marks_unflyable_approaches():
    entries = {"zz-a": GOOD, "zz-b": entry(stops=2, title="RNAV (GPS) RWY 27")}
    page = fill(index_pages(entries)["approaches/index.md"])
    assert page.count("Do not fly it") == 1
    assert "Do not fly it: 2 stops. LPV 99901 W09A" in page
    assert "Do not fly it: 2 stops." in list_file(entries)[1]


def test_stopped_approach_card_begins_with_stop():
    card = fill(build_briefing_page(DRAFT)).partition('id="card"')[2].partition("</section>")[0]
    assert card.partition(">")[2].startswith('<p class="hb-card-row hb-stop"><b>✕ Do not fly it.</b> ')
    assert "Do not fly it." not in fill(build_briefing_page(DEMO)).partition('id="card"')[2].partition("</section>")[0]

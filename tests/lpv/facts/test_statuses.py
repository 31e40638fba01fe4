"""What a status says of a fact or a check value, and that nothing from memory hides."""

from collections import Counter

import pytest

from lpv import facts
from lpv.facts import FACTS, STATUSES, Fact, remembered
from lpv_site.checks.checks import load_cases
from lpv_site.pages.memory_page import FORMS, GROUPS, SNIPPETS, build_memory_page, groups


def test_every_status_listed():
    assert {fact.status for fact in FACTS.values()} <= set(STATUSES)


@pytest.mark.parametrize("of", [
    [(fact.key, fact.place, fact.status) for fact in FACTS.values()],
    [(case.id, case.place, case.status) for case in load_cases()],
], ids=["facts", "cases"])
def test_only_derived_facts_name_their_basis(of):
    derived = [key for key, _, status in of if status == "derived"]
    assert len(derived) >= 10
    assert derived == [key for key, place, _ in of if place.startswith("from ")]


# Documents of which only what others print of them was read here.
READ_AS_QUOTED = {
    "ac-120-71", "ac-120-108", "aim-quoted", "faa-waas-slides", "fsf-alar-7-1", "gda-manual", "icao-7488",
    "icao-8168-1", "icao-8168-2-7", "icao-9613", "is-gps-200", "jo-6850-2b", "order-8260-3", "order-8260-58d",
    "planning-airports", "tpp-descent", "wmm2025-report",
}


def test_secondhand_print_is_quoted_not_published():
    cited = [(fact.key, fact.source, fact.status) for fact in FACTS.values()]
    cited += [(case.id, case.source, case.status) for case in load_cases()]
    assert [row for row in cited if row[1] in READ_AS_QUOTED and row[2] == "published"] == []
    assert {source for _, source, status in cited if status == "published, quoted"} >= READ_AS_QUOTED - {"aim-quoted"}


def test_half_or_difference_of_print_is_derived():
    statuses = [(fact.key, f"{fact.what} {fact.remark}", fact.status) for fact in FACTS.values()]
    statuses += [(case.id, case.what, case.status) for case in load_cases()]
    words = ("printed as ", "half of the thickness", "by the two ")
    cited = [row for row in statuses if any(word in row[1] for word in words)]
    assert {"derived"} <= {status for _, _, status in cited}
    assert [row for row in cited if row[2].startswith("published")] == []


def test_handbook_choices_cite_no_document():
    chosen = [fact for fact in FACTS.values() if "by this handbook" in fact.place]
    assert len(chosen) > 80
    assert {fact.source for fact in chosen} <= {"own-choice", "trade"}
    assert {fact.status for fact in chosen} == {"common practice"}
    assert all(fact in chosen for fact in FACTS.values() if fact.key.startswith("limit_"))


def test_facts_from_memory_listed_once_on_page():
    listed = Counter(fact.key for _, _, group in groups() for fact in group)
    assert dict(listed) == {fact.key: 1 for fact in FACTS.values() if fact.status == "from memory"}
    page = build_memory_page()
    assert all(f"facts.md#fact-{key.replace('_', '-')}" in page for key in listed)
    assert f"{len(listed)} figures and {len(FORMS)} forms" in page
    order = [page.index(f"#fact-{key}") for key in ("lpv-vertical-share", "lnav-vnav-lowest-hat-ft", "als-mals-ft")]
    assert order == sorted(order)


def test_memory_page_groups_keep_figures():
    for _, _, keys in GROUPS:
        for key in keys:
            assert any(fact.key.startswith(key) for fact in FACTS.values() if fact.status == "from memory"), key


def test_memory_page_forms_marked_in_modules():
    for module, _ in FORMS:
        path = (SNIPPETS / "lpv").joinpath(*module.split(".")).with_suffix(".py")
        assert "from memory" in path.read_text("utf-8"), module


def test_remembered_only_for_undocumented_facts(monkeypatch):
    assert remembered("lnav_vnav_lowest_hat_ft") == ", from memory"
    assert remembered("lpv_lowest_hat_ft") == remembered() == ""
    assert remembered("lpv_lowest_hat_ft", "lnav_vnav_lowest_hat_ft") == ", from memory"
    read = (250.0, "ft", "lowest height", "order-8260-58d", "par 1", "published", "")
    monkeypatch.setitem(facts.FACTS, "lnav_vnav_lowest_hat_ft", Fact("lnav_vnav_lowest_hat_ft", read))
    assert remembered("lnav_vnav_lowest_hat_ft") == ""
    with pytest.raises(KeyError):
        remembered("none")

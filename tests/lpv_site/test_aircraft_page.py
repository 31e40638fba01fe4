"""The pages of the aircraft files, their tables, and their faults beside those of other files."""

import dataclasses
import re

import pytest

from lpv.aircraft.record import Labels, read_all
from lpv.core.spoken import spoken
from lpv.modes.exploration import explore
from lpv.modes.levels import level_changes
from lpv.modes.rules import RULES
from lpv.modes.ways import left_states
from lpv_site.department.data import DOCS
from lpv_site.pages.aircraft_page import build_aircraft_index_page, build_aircraft_page
from lpv_site.pages.flow_card import BOX, Step, flow_card
from lpv_site.pages.mode_tables import follows_table, next_crew_table, power_told, shown_table

TYPES = read_all(DOCS / "aircraft")


@pytest.mark.parametrize("jet", TYPES, ids=lambda jet: jet.slug)
def test_page_lists_every_rule_and_proven_property(jet):
    page = build_aircraft_page(jet)
    for key, (what, _) in RULES.items():
        assert f"| {what} | **{spoken(getattr(jet.rules, key))}** |" in page
    assert f"{jet.exploration.states} states" in page
    for trap, example in jet.exploration.traps:
        assert f"**{trap.statement}** {trap.remedy}" in page
        assert ", then ".join(map(spoken, example.events)) in page
    assert len(re.findall(r"^- ", page, re.M)) == len(jet.exploration.proven) + len(jet.exploration.traps)
    assert page.count("14 CFR Part 25") >= 4


def test_heading_ids_unique_on_every_page():
    ids = re.findall(r"^#+ .*\{ #([a-z-]+) \}$", build_aircraft_page(TYPES[0]), re.M)
    assert len(ids) == len(re.findall(r"^#+ ", build_aircraft_page(TYPES[0]), re.M)) == len(set(ids))


def test_persistent_selector_warned_of():
    def staying(jet):
        sbas = dataclasses.replace(jet.sources[0], removed_by=("its control",))
        return dataclasses.replace(jet, sources=(sbas, *jet.sources[1:]))

    page = build_aircraft_page(staying(TYPES[0]))
    assert '!!! warning "The selected source survives power-down"' in page
    assert "✕ SBAS stays" in page
    assert "survives" not in build_aircraft_page(TYPES[0])
    named = [(name, staying(jet).rules) for name, jet in zip("AB", TYPES, strict=False)]
    assert power_told([("A", TYPES[0].rules)]).startswith("As each type's own file states")
    assert power_told([named[0], ("B", TYPES[1].rules)]).startswith("**In A the selection survives")
    assert "power-down deselects SBAS" in power_told([named[0], ("B", TYPES[1].rules)])
    assert "every other type" not in power_told(named)


def test_page_states_whether_lp_allowed():
    large, light = (next(jet for jet in TYPES if jet.slug == slug) for slug in ("large-jet", "light-jet"))
    printed = [re.search(r"LP minima</dt> <dd>([^<]*)<", build_aircraft_page(jet))[1] for jet in (large, light)]
    assert printed == ["approved", "not approved"]


def test_file_labels_and_names_inert():
    bad = "<b>|x**{{ fact('a') }}"
    jet = dataclasses.replace(TYPES[0], labels=Labels(arm=bad), type=dataclasses.replace(TYPES[0].type, name=bad))
    body = build_aircraft_page(jet).split("---", 2)[2]
    assert bad not in body
    assert "<b>|" not in body
    assert "{{" not in body
    assert "&#60;b&#62;" in body


def test_single_type_compared_with_nothing():
    assert "{ #differences }" in build_aircraft_index_page(TYPES)
    assert "{ #differences }" not in build_aircraft_index_page(TYPES[:1])


@pytest.mark.parametrize("jet", TYPES, ids=lambda jet: jet.slug)
def test_tables_omit_no_event_or_case(jet):
    follows = follows_table(explore(jet.rules))
    for event, *_ in jet.exploration.follows:
        assert re.search(rf"(\| |<br>|, ){re.escape(spoken(event))}( \||,)", follows), event
    rows = [f"{name}, {tuned}" for name in ("SBAS", "ILS", "FMS lateral") for tuned in ("none", "tuned")]
    assert re.findall(r"^\| (\w[\w ]+, (?:none|tuned)) \|", shown_table([("x", jet.rules)]), re.M) == rows
    left = re.findall(r"^\| (\w[\w ]+, (?:none|tuned)) \|", next_crew_table(jet.rules), re.M)
    assert set(left) <= set(rows)
    assert len(left) == len(left_states(jet.rules))


@pytest.mark.parametrize("jet", TYPES, ids=lambda jet: jet.slug)
def test_sources_and_level_changes_listed_in_full(jet):
    page = build_aircraft_page(jet)
    for source in jet.rules.sources:
        for word in (*source.offered, *source.guides_while, *source.selected_by, *source.removed_by):
            assert spoken(word) in page
    for change in level_changes(jet.rules):
        assert f"| {change.what} |" in page


def test_flow_has_box_per_side_and_shared_box():
    card = flow_card("Name", "When", [Step("together"), Step("apart", per_side=True)])
    assert card.count(BOX) == 3
    assert 'id="card"' in card
    assert "never primary navigation" in card


def test_page_states_crew_roles_and_limits():
    large, light = (build_aircraft_page(next(jet for jet in TYPES if jet.slug == slug))
                    for slug in ("large-jet", "light-jet"))
    assert "Who flies, who monitors { #duties }" in large
    assert "reads both go-around modes" in large
    assert "160\u202fft above the runway" in large
    assert "5\u202fkt for a gust of 10\u202fkt over the steady wind; 10\u202fkt for a gust of 30\u202fkt" in large
    assert "{ #duties }" not in light
    assert "for a gust" not in light

"""Live figures as HTML: whole without scripts, dials for every field, nothing that the policy forbids."""

import re

import pytest

from lpv.figures.figure import drawn
from lpv.figures.run import figure, names
from lpv.forms.fields import Number
from lpv_site.build.policy import CHARSET, secured
from lpv_site.department.data import DOCS
from lpv_site.figures.figure import fill
from lpv_site.forms.calculators import begin_with
from lpv_site.forms.live import PLAYER, build_live, live_link
from lpv_site.text.inline import expand

PLACED = re.compile(r'\{\{ live\("([^"]+)"\) \}\}')


def markup(name):
    return fill(build_live(name, "../reference/facts.md"))


@pytest.mark.parametrize("name", names())
def test_figure_complete_with_dial_for_every_field(name):
    html, declared = markup(name), figure(name)
    result = drawn(declared, begin_with(declared))
    assert result.svg in html
    assert html.count("<svg") == 1
    assert html.count("<tr>") == len(result.rows) + 1
    for field in declared.inputs:
        assert re.search(rf'<(input|select) id="own-{name}-{field.key}" name="{field.key}"', html)
        assert html.count(f'data-value="{field.key}"') == (not field.of_page) + isinstance(field, Number)
    assert html.count('class="hb-step"') == 2 * sum(isinstance(field, Number) for field in declared.inputs)
    assert "<fieldset disabled>" in html


@pytest.mark.parametrize("name", names())
def test_figure_fits_policy_with_unique_ids(name):
    html = markup(name)
    assert "Content-Security-Policy" in secured(f"<html><head>{CHARSET}</head>{html}", name)
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len({*ids})
    assert {*re.findall(r' for="([^"]+)"', html)} <= {*ids}
    assert {each for ids_ in re.findall(r'describedby="([^"]+)"', html) for each in ids_.split()} <= {*ids}


def test_expression_places_figure_and_wrong_name_stops_build():
    assert 'data-live="live-altimeter"' in fill(expand('x\n\n{{ live("live-altimeter") }}\n', "page.md"))
    with pytest.raises(ValueError, match=r"page\.md.*no figure 'nope'"):
        expand('{{ live("nope") }}', "page.md")


def test_each_figure_on_one_page():
    placed = [name for page in DOCS.rglob("*.md") for name in PLACED.findall(page.read_text("utf-8"))]
    assert sorted([*placed, PLAYER]) == sorted(names())


def test_link_sets_approach_values():
    link = live_link("live-altimeter", "final/altimeter/", {"approach.glidepath_deg": 3.5, "approach.channel": 1})
    assert link == "final/altimeter/?own=live-altimeter&gpa_deg=3.50#own-live-altimeter"


def test_initial_numbers_match_example():
    first = begin_with(figure("live-altimeter"), {"approach.pfaf_distance_nm": 5.64})
    assert first["distance_nm"] == "5.6~5.64"
    assert first["temperature_c"] == "0"

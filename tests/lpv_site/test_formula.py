"""A formula on a page: source as it stands, check values, and a link to all of them."""

import pytest

from lpv_site.checks.formula import SNIPPETS, in_prose, place, source
from lpv_site.figures import figure


def html(name, page="final/altimeter.md"):
    return figure.fill(in_prose(page, name))


def test_source_printed_unchanged():
    path, name = place("lpv.motion.kinematics.turn_radius_ft")
    assert source(path, name) in path.read_text("utf-8")
    assert source(path, name).startswith("def turn_radius_ft(")
    assert "turn_radius_ft" in html("lpv.motion.kinematics.turn_radius_ft")


def test_method_dedented():
    assert source(*place("lpv.track.levels.Levels.true_ft")).startswith("def true_ft(self")


def test_constant_and_decorated_function():
    assert source(*place("lpv.crosscheck.changes.MEANING")).startswith("MEANING = {")
    assert source(*place("lpv_site.checks.checks.results")).startswith("@cache\ndef results")


def test_check_values_shown_with_source():
    text = html("lpv.motion.kinematics.turn_rate_deg_per_s")
    assert '<table class="hb-checks"' in text
    assert "5.25" in text
    assert 'href="../reference/validation.md"' in text


def test_absence_of_checks_named():
    assert "No value from outside" in html("lpv.crosscheck.changes.MEANING")


@pytest.mark.parametrize("name", ["lpv.motion.kinematics.nothing", "nothing", "lpv.core.nothing.at_all"])
def test_unknown_name_refused(name):
    with pytest.raises(LookupError, match="defines"):
        place(name)


def test_all_sources_below_snippets():
    assert place("lpv.facts.value")[0] == SNIPPETS / "lpv" / "facts" / "__init__.py"

"""What the scripts of the mode pages show, against the FAA's description and against the demo's files read by hand."""

import re
from pathlib import Path

import pytest

from modes.became_ils import show as became_ils
from modes.comes_back import show as comes_back
from modes.course_lost import show as course_lost
from modes.follows import show as follows
from modes.hand_over import show as hand_over
from modes.left_out import show as left_out
from modes.level_changes import show as level_changes
from modes.levels import show as levels
from modes.losses import show as losses
from modes.normal import show as normal
from modes.one_side import show as one_side
from modes.other_order import show as other_order
from modes.path_lost_before import show as path_lost_before
from modes.path_lost_inside import show as path_lost_inside
from modes.scenarios import show as scenarios
from modes.selector_off_on import show as selector_off_on
from modes.sources import show as sources
from modes.teach import show as teach
from modes.ways import show as ways
from shown import cell, printed, row, rows

DOCS = Path(__file__).resolve().parents[2] / "docs"


def last_row(shown):
    """The cells of the last row of a figure's data table."""
    return re.findall(r"<td>(.*?)</td>", shown.markdown.split("</tbody>")[0].rsplit("<tr>", 1)[1])


@pytest.mark.parametrize(("show", "last"), [
    (normal, ["go around", "FMS lateral", "none", "FMS lateral", "pitch"]),
    (became_ils, ["course reached", "ILS", "LPV", "captured", "armed"]),
    (course_lost, ["go around", "FMS lateral", "none", "FMS lateral", "pitch"]),
    (other_order, ["glidepath met from below", "SBAS", "LPV", "captured", "captured"]),
    (path_lost_before, ["glidepath met from below", "SBAS", "LPV", "captured", "captured"]),
    (path_lost_inside, ["go around", "FMS lateral", "none", "FMS lateral", "pitch"]),
    (selector_off_on, ["glidepath met from below", "SBAS", "LPV", "captured", "captured"]),
    (hand_over, ["FAF passed", "SBAS", "LPV", "captured", "captured"]),
    (one_side, ["select SBAS, monitoring side", "SBAS", "SBAS", "captured", "armed"]),
])
def test_end_of_each_sequence(show, last):
    assert last_row(show()) == last


def test_activation_levels_follow_signal_and_equipment():
    shown = levels()
    assert row(shown, "LPV")[1:] == ["LPV", "LPV", "LPV"]
    # Baro-VNAV is approved in the first and the third type, not in the second (docs/aircraft).
    assert row(shown, "LNAV")[1:] == ["LNAV/VNAV", "LNAV", "LNAV/VNAV"]
    assert row(shown, "none")[1:] == ["none"] * 3


def test_level_changes_count_types_deviating_from_faa_description():
    """AIM 1-1-18.d.2: no lower level by itself, no return before the next activation."""
    texts = [(DOCS / "aircraft" / f"{name}.toml").read_text("utf-8") for name in ("large-jet", "light-jet", "mid-jet")]
    otherwise = [text for text in texts if re.search(r'level_\w+ = "(falls|with the signal)', text)]
    assert level_changes().number("by_itself") == len(otherwise) == 1
    text = level_changes().markdown
    assert "LPV, vertical lost" in text
    assert text.count("the same in every row") == len(texts) - len(otherwise)
    assert "✕ not as the FAA describes" not in text.partition("Large demo jet")[0]
    assert "✕ not as the FAA describes" in text.partition("Middle demo jet")[2]


def test_loss_decides_before_and_inside_faf():
    """Written out by hand: inside the FAF every loss is a go-around; before it, there is time."""
    assert [row[1:] for row in rows(losses())] == [
        ["hold heading and altitude; with room, activate again and read the level, else another approach",
         "go around now"]] * 2 + [
        ["hold heading and altitude, set the source right on both sides, then arm again", "go around now"],
        ["brief and set the minimum of the level annunciated, or take another approach", "go around now"]]


def test_recovery_after_signal_loss():
    """By the AIM only an activation brings a lost level back; inside the PFAF there is none."""
    text = comes_back().markdown.split("Light demo jet")[0]
    lost = [line for line in text.splitlines() if line.startswith("| course lost")]
    assert lost == ["| course lost, signal back | ✕ nothing | ✓ both | ✕ nothing |"]


def test_way_back_inside_after_signal_loss_is_missed_approach():
    shown = ways()
    assert row(shown, "lateral guidance lost")[1:] == ["go around", "go around", "go around"]
    assert cell(shown, "tune localizer", 1) == "nothing lost"
    assert cell(shown, "tune localizer", 2) == "go around"


def test_sources_shown_by_type():
    shown = sources()
    assert row(shown, "SBAS, none")[1:3] == ["✓ SBAS", "✓ SBAS"]
    assert row(shown, "SBAS, tuned")[1:3] == ["✓ SBAS", "✕ SBAS, no guidance"]
    assert row(shown, "FMS lateral, tuned")[1:] == ["✕ ILS", "✕ ILS", "FMS lateral"]


def test_followers_name_type_and_state_count():
    shown = follows()
    assert shown.text("name") == "Large demo jet"
    assert 500 < shown.number("states") < 10_000
    assert "armed → captured" in row(shown, "course reached")[1]


def test_scenarios_and_lessons_match_folder():
    names = [path.stem for path in (DOCS / "modes" / "scenarios").glob("*.toml")]
    shown = scenarios()
    assert shown.number("count") == len(names) >= 18
    linked = set(re.findall(r"\(scenario-([a-z-]+)\.md\)", shown.markdown))
    assert linked == set(names)
    assert set(re.findall(r"\(scenario-([a-z-]+)\.md\)", teach().markdown)) <= linked
    assert len(rows(levels())) == 4


def test_left_out_is_list_of_sentences():
    lines = left_out().markdown.splitlines()
    assert len(lines) > 5
    assert all(line.startswith("- ") and line.endswith(".") for line in lines)


def test_recovery_in_first_three_types():
    """Of the large jet the source comes back by itself; the light jet re-arms nothing inside; the middle jet's lateral
    and vertical modes fall to basic ones, so that arming brings them back before the FAF."""
    heads = ["what happened", "before the FAF: arm", "before: activate, arm", "inside: arm"]
    names = ("source away and back", "localizer in and out", "glidepath lost, signal back", "course lost, signal back")
    both, nothing = "✓ both", "✕ nothing"
    path_again, course_again = ("course only", both, "course only"), (nothing, both, nothing)
    expected = {
        "Large": ((both,) * 3, ("never lost",) * 3, path_again, course_again),
        "Light": ((both, both, nothing), (both, both, nothing), path_again, course_again),
        "Middle": ((both,) * 3, ("never lost",) * 3, (both, both, "course, barometric path"), (both, both, nothing)),
    }
    assert printed(comes_back()) == [block for size, lines in expected.items() for block in (
        f"{size} demo jet:", [heads, *([name, *cells] for name, cells in zip(names, lines, strict=True))])]

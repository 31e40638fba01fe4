"""What the scripts of docs/set-up/ and docs/after-landing/ show, against data files and the channel plan."""

import re
import tomllib

from after_landing import flow as reset_flow
from after_landing import left, next_crew, next_leg
from debrief import own as own_recording
from lpv.drill.base import base_case
from lpv.drill.case import Pick
from lpv_site.department.data import example, example_aircraft
from set_up import by_hand, channels, check, compare, examples, flow, mistakes, tuned
from shown import cell, row, rows
from support import ROOT

GOOD = tomllib.loads((ROOT / "docs" / "set-up" / "zzak-09-good.toml").read_text("utf-8"))


def test_localizer_channels():
    """Annex 10: 108.10 to 111.95 MHz, odd tenths and the same plus 50 kHz: 4 MHz, five odd tenths, two each."""
    assert channels.show().number("count") == 4 * 5 * 2
    assert cell(channels.show(), "110", 1) == ".10 .15 .30 .35 .50 .55 .70 .75 .90 .95"


def test_compare_shows_both_sides_of_the_file():
    shown, left_side, right_side = compare.show(), GOOD["left"], GOOD["right"]
    assert row(shown, "channel")[1:] == ["99901", str(left_side["channel"]), str(right_side["channel"])]
    assert row(shown, "minimum")[1:] == ["224 ft", *(f"{side['minimum_ft']} ft" for side in (left_side, right_side))]
    assert row(shown, "missed to")[1] == "3000 ft"
    assert row(shown, "course")[1:] == ["092°"] * 3
    assert shown.number("checks") == 1 + 1 + 11 * 2 + 1, "alike, cycle, eleven items on each side, arming"
    assert shown.text("procedure") == f"{left_side['title']} at ZZAK".replace("(", "&#40;").replace(")", "&#41;")


def test_by_hand_has_a_grade_for_every_item():
    grades = {cells[0]: cells[2].split()[-1] for cells in rows(by_hand.show())}
    assert grades["channel"] == grades["source"] == grades["level none"] == "stop"
    assert grades["frequencies"] == grades["arming"] == "resolve"
    assert grades["level lower"] == grades["minimum higher"] == "note"
    assert grades["minimum too low"] == "stop", "100 ft"


def test_mistakes_of_the_demo():
    assert "Do not fly it" in mistakes.show().markdown
    assert "Nothing stops it" in mistakes.show().markdown


def test_the_rest_is_there():
    for shown in (check.show(), flow.show(), reset_flow.show(), next_leg.show(), tuned.show()):
        assert len(shown.markdown) > 40
    assert examples.show().markdown.count("<a href=") == 2
    assert "localizer tuned" in left.show().markdown
    assert rows(next_crew.show())


def boxes(shown):
    """For each step of a card how many boxes it has: two where each side has its own."""
    return [row.count("☐") for row in re.findall(r"<tr><th scope=\"row\">.*?</tr>", shown.markdown)]


def test_each_side_has_its_own_box_where_each_side_has_its_own_control():
    """Selector, receivers, minimum, course; then what a side loads, sets, selects and reads."""
    assert boxes(reset_flow.show()) == [2, 1, 2, 2, 2, 1, 1]
    assert boxes(flow.show()) == [1, 2, 1, 2, 2, 2, 2, 2, 2, 1, 1, 1, 1]


def test_the_first_type_stands_open_and_two_more_folded():
    text = next_crew.show().markdown
    names = [f"{size} demo jet" for size in ("Large", "Light", "Middle")]
    assert text.startswith(f"{names[0]}:\n\n|")
    assert re.findall(r'\?\?\? note "(.*)"', text) == names[1:]


def test_the_form_of_a_recording_is_on_the_page_of_the_debrief():
    assert own_recording.show().markdown.strip()


def test_what_a_mistake_is_told_by():
    """The stops stand open, everything else but what agrees is counted and folded."""
    text = mistakes.show().markdown
    folded = [int(count) for count in re.findall(r'\?\?\? note "(\d+) more"', text)]
    parts = re.split(r'\?\?\? note "\d+ more"', text)
    assert folded
    assert "hb-stop" in parts[0]
    assert all(part.count("hb-row hb-") - part.count("hb-row hb-stop") >= count
               for part, count in zip(parts[1:], folded, strict=True))


def test_what_differs_by_hand_differs_by_as_much_as_it_says():
    case = base_case(example(), example_aircraft(), Pick("1"))
    items = by_hand.differing(case)
    left = case.setup.left
    lower = {key: changed.setup.left for key, (_, changed) in items.items()}
    assert left.minimum_ft - lower["minimum too low"].minimum_ft == 100.0
    assert lower["minimum higher"].minimum_ft - left.minimum_ft == 1.0
    assert left.missed_altitude_ft - lower["missed approach"].missed_altitude_ft == 400.0
    assert lower["channel"].channel == 40000
    assert items["arming"][1].setup.across_nm == 10.0
    assert all(changed.setup.right == case.setup.right for _, changed in items.values())

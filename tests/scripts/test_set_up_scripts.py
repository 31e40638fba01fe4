"""What the scripts of docs/set-up/ and docs/after-landing/ show, against data files and the channel plan."""

import tomllib

from after_landing import flow as reset_flow
from after_landing import left, next_crew, next_leg
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

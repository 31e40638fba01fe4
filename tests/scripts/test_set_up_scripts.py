"""What the scripts of docs/set-up/ and docs/after-landing/ show, against data files and the channel plan."""

import math
import re
import tomllib
from types import SimpleNamespace

import pytest

from after_landing import flow as reset_flow
from after_landing import left, next_crew, next_leg
from debrief import own as own_recording
from lpv.core.findings import Finding
from lpv.drill.base import base_case
from lpv.drill.case import Pick
from lpv.setup.expected import Expected
from lpv_site.department.data import example, example_aircraft
from set_up import by_hand, channels, check, compare, examples, flow, mistakes, tuned
from shown import cell, printed, row, rows
from support import ROOT

GOOD = tomllib.loads((ROOT / "docs" / "set-up" / "zzak-09-good.toml").read_text("utf-8"))


def test_localizer_channels():
    """Annex 10: 108.10 to 111.95 MHz, odd tenths and the same plus 50 kHz: 4 MHz, five odd tenths, two each."""
    assert channels.show().number("count") == 4 * 5 * 2
    assert cell(channels.show(), "110", 1) == ".10 .15 .30 .35 .50 .55 .70 .75 .90 .95"


def test_compare_shows_both_sides_of_file():
    shown, left_side, right_side = compare.show(), GOOD["left"], GOOD["right"]
    assert row(shown, "channel")[1:] == ["99901", str(left_side["channel"]), str(right_side["channel"])]
    assert row(shown, "minimum")[1:] == ["224 ft", *(f"{side['minimum_ft']} ft" for side in (left_side, right_side))]
    assert row(shown, "missed to")[1] == "3000 ft"
    assert row(shown, "course")[1:] == ["092°"] * 3
    assert shown.number("checks") == 1 + 1 + 11 * 2 + 1, "alike, cycle, eleven items on each side, arming"
    assert shown.text("procedure") == f"{left_side['title']} at ZZAK".replace("(", "&#40;").replace(")", "&#41;")


def test_every_hand_item_has_grade():
    grades = {cells[0]: cells[2].split()[-1] for cells in rows(by_hand.show())}
    assert grades["channel"] == grades["source"] == grades["level none"] == "stop"
    assert grades["frequencies"] == grades["arming"] == "resolve"
    assert grades["level lower"] == grades["minimum higher"] == "note"
    assert grades["minimum too low"] == "stop", "100 ft"


def test_demo_mistakes():
    assert "Do not fly it" in mistakes.show().markdown
    assert "Nothing stops it" in mistakes.show().markdown


def test_other_outputs_not_empty():
    for shown in (check.show(), flow.show(), reset_flow.show(), next_leg.show(), tuned.show()):
        assert len(shown.markdown) > 40
    assert examples.show().markdown.count("<a href=") == 2
    assert "localizer tuned" in left.show().markdown
    assert rows(next_crew.show())


def boxes(shown):
    """For each step of a card how many boxes it has: two where each side has its own."""
    return [row.count("☐") for row in re.findall(r"<tr><th scope=\"row\">.*?</tr>", shown.markdown)]


def test_own_box_per_side_with_own_control():
    """Selector, receivers, minimum, course; then what a side loads, sets, selects and reads."""
    assert boxes(reset_flow.show()) == [2, 1, 2, 2, 2, 1, 1]
    assert boxes(flow.show()) == [1, 2, 1, 2, 2, 2, 2, 2, 2, 1, 1, 1, 1]


def test_first_type_open_two_more_folded():
    text = next_crew.show().markdown
    names = [f"{size} demo jet" for size in ("Large", "Light", "Middle")]
    assert text.startswith(f"{names[0]}:\n\n|")
    assert re.findall(r'\?\?\? note "(.*)"', text) == names[1:]


def test_recording_form_on_debrief_page():
    assert own_recording.show().markdown.strip()


def test_mistake_signs():
    """The stops stand open, everything else but what agrees is counted and folded."""
    text = mistakes.show().markdown
    folded = [int(count) for count in re.findall(r'\?\?\? note "(\d+) more"', text)]
    parts = re.split(r'\?\?\? note "\d+ more"', text)
    assert folded
    assert "hb-stop" in parts[0]
    assert all(part.count("hb-row hb-") - part.count("hb-row hb-stop") >= count
               for part, count in zip(parts[1:], folded, strict=True))


def test_hand_differences_match_stated_amount():
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


# Whole tables


def test_every_set_up_item():
    """What zzak-09-good.toml has on each side, beside the chart of zzak-rnav-09 and the report of 29.87 inHg."""
    sides = [GOOD["left"], GOOD["right"]]
    common = GOOD["setup"]
    tuned_mhz = [" / ".join(f"{mhz:.2f}" for mhz in side["tuned_mhz"]) for side in sides]

    assert printed(compare.show()) == [
        f"{common['name']}; ZZAK, cycle {common['cycle']}, Large demo jet:",
        [["item", "> must be", "> left", "> right"],
         ["channel", "99901", *(str(side["channel"]) for side in sides)],
         ["identifier", "W09A", *(side["path_id"] for side in sides)],
         ["source", "SBAS", *(side["source"] for side in sides)], ["tuned, MHz", "no localizer", *tuned_mhz],
         ["course", "092°", *(f"{side['course_deg']:03.0f}°" for side in sides)],
         ["altimeter, inHg", f"{common['reported_altimeter']:.2f}", *(f"{side['altimeter']:.2f}" for side in sides)],
         ["level", "LPV", *(side["level"] for side in sides)],
         ["kind", "DA", *(side["minimum_kind"] for side in sides)],
         ["minimum", "224 ft", *(f"{side['minimum_ft']} ft" for side in sides)],
         ["missed to", "3000 ft", *(f"{side['missed_altitude_ft']} ft" for side in sides)]]]
    assert compare.setting(1013.4, "hPa") == "1013"


def test_items_without_chart_minimum_or_missed_approach(monkeypatch):
    monkeypatch.setattr(Expected, "minimum", lambda *_: None)
    monkeypatch.setattr(Expected, "missed_altitude", lambda *_: None)
    items = {cells[0]: cells[1] for cells in printed(compare.show())[1]}
    assert (items["kind"], items["minimum"], items["missed to"]) == ("", "", "")


def test_every_hand_item_with_grade():
    """A stop wherever another approach, another path or a lower minimum may follow; else settled before it is flown."""
    stop, resolve, note = "✕ stop", "? resolve", "i note"
    assert printed(by_hand.show()) == [[
        ["item", "compare with", "if it differs"],
        ["data cycle", "today; the chart", stop], ["procedure", "the chart's title", stop],
        ["channel", "the chart", stop], ["identifier", "the chart", stop], ["source", "SBAS", stop],
        ["frequencies", "no localizer", resolve], ["course", "the chart", stop],
        ["altimeter, a tenth off", "the report", stop], ["level lower", "the best line", note],
        ["level none", "the best line", stop], ["MDA for a DA", "the line's kind", resolve],
        ["minimum too low", "line, floor, cold", stop], ["minimum higher", "line, floor, cold", note],
        ["missed approach", "the chart, cold", stop], ["arming", "close, toward it", resolve],
        ["left and right", "each other", resolve], ["selector without power", "the flight manual", note]]]


def test_altimeter_and_radio_differences():
    """A tenth of an inch, 3.4 hPa rounded down; the first localizer channel; the LNAV minimum as an MDA."""
    case = base_case(example(), example_aircraft(), Pick("1"))
    items = {key: changed.setup.left for key, (_, changed) in by_hand.differing(case).items()}
    assert items["altimeter, a tenth off"].altimeter == pytest.approx(case.setup.reported + 0.1)
    metric = SimpleNamespace(setup=SimpleNamespace(altimeter_unit="hPa", reported=1013.0))
    assert by_hand._tenth_off(metric) == 1016.0
    assert items["frequencies"].tuned_mhz == [108.1]
    assert (items["level lower"].minimum_kind, items["level lower"].minimum_ft) == ("MDA", 480.0 + 50.0)
    assert math.isnan(by_hand.required(None))


def test_localizer_channels_by_megahertz():
    """Annex 10: odd tenths and the same plus 50 kHz from 108.10 to 111.95; VORs have the rest, to 117.95."""
    channels_of = " ".join(f".{tenth}{half}" for tenth in (1, 3, 5, 7, 9) for half in "05")
    assert printed(channels.show()) == [[
        ["MHz", "localizer channels"], *([f"**{mhz}**", channels_of] for mhz in (108, 109, 110, 111)),
        ["**112 to 118**", "none: all of these are VOR"]]]


def test_tuned_localizer_in_first_three_types():
    """By the sources of their files: only the light jet's SBAS gives way to one; the middle jet's ILS is selected."""
    heads = ("source control", "tuned, SBAS selected", "tuned, SBAS not selected", "after power removal")
    expected = {"Large demo jet": ("shared", "**no effect**", "**ILS** is shown", "frequencies kept"),
            "Light demo jet": ("per side", "**inhibits SBAS on both sides**", "**ILS** is shown",
                               "frequencies cleared"),
            "Middle demo jet": ("shared", "**no effect**", "**FMS lateral navigation** is shown", "frequencies kept")}
    assert printed(tuned.show()) == [
        [[name], *([head, words] for head, words in zip(heads, lines, strict=True))]
        for name, lines in expected.items()]


def test_set_up_without_details_folds_nothing():
    """Three findings that are not stops are folded and counted; none, and there is no fold."""
    case = mistakes.setups()[0]

    def folded(*grades):
        findings = [Finding(grade, grade, grade, reason="unknown" if grade == "not compared" else "")
                    for grade in grades]
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(mistakes, "findings", lambda *_: findings)
            return mistakes._told(case)

    assert "???" not in folded("ok", "stop")
    assert '??? note "2 more"' in folded("stop", "note", "resolve", "ok")
    assert "hb-stop" not in folded("note")


def test_leftovers_stated_for_three_types():
    text = left.show().markdown
    assert text.count(", an SBAS approach flown with a localizer tuned:") == 3

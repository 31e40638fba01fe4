"""Each function that plants a mistake is in the list of mistakes, which other tests try one by one."""

import pytest

from demo.approaches import FOLDER
from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.drill import side_mistakes
from lpv.drill.base import base_case
from lpv.drill.case import Pick, with_setup
from lpv.drill.drills import MISTAKES
from lpv.drill.planted import both_sides, on_sides, one_side

PLANTERS = [
    "cycle_before", "course_shown", "fix_altitude", "fix_missing", "wrong_kind", "hundred_low",
    "under_floor", "cold_missed", "missed_at_minimum", "missed_at_pfaf", "level_lower", "day_of_change",
    "armed_away", "channel_digits", "path_id_letter", "ils_shown", "localizer_left", "localizer_second",
    "course_before", "swapped_digits", "course_true", "course_two_off", "leg_course", "armed_far", "source_off",
]
REGISTERED = {mistake.plant.__qualname__.split(".")[0] for mistake in MISTAKES.values()}


@pytest.fixture(scope="module")
def case():
    jet = aircraft.read(FOLDER.parent / "aircraft" / "large-jet.toml")
    return base_case(approach.read(FOLDER / "zzak-rnav-09.toml"), jet, Pick("1"))


@pytest.mark.parametrize("name", PLANTERS)
def test_function_registered(name):
    assert name in REGISTERED


def test_mistake_side_is_either_side():
    assert {one_side(Pick(str(seed))) for seed in range(20)} == {("left",), ("right",)}
    assert {both_sides(Pick(str(seed))) for seed in range(20)} == {("left", "right")}


def test_changed_set_up_leaves_case_unchanged(case):
    warmer = with_setup(case, temperature_c=33.0)
    assert warmer.setup.temperature_c == 33.0
    assert case.setup.temperature_c != 33.0
    assert warmer.setup.left == case.setup.left


def test_one_sided_change_differs_from_other_side(case):
    planted = on_sides(case, ["left"], "it is off.", [("set-course", "stop")], ["course"], course_deg=1.0)
    both = on_sides(case, ["left", "right"], "it is off.", [("set-course", "stop")], ["course"], course_deg=1.0)
    assert planted.expected == {("set-course left", "stop"), ("set-sides course", "resolve")}
    assert both.expected == {("set-course left", "stop"), ("set-course right", "stop")}
    assert planted.case.setup.left.course_deg == 1.0
    assert planted.case.setup.right.course_deg == case.setup.right.course_deg


def test_last_two_differing_digits_swapped():
    for digits, swapped in (("99901", "99910"), ("40330", "40303"), ("12333", "13233"), ("21111", "12111"),
                            ("99999", "99999")):
        assert side_mistakes._swapped(digits) == swapped

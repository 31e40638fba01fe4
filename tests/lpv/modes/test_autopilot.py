"""When an engaged autopilot lets go: captured guidance lost, the level changed, a go-around; by the rules of a type."""

from lpv.modes.autopilot import lets_go
from lpv.modes.machine import step
from lpv.modes.rules import usual_rules
from lpv.modes.ways import on_path

FALLS = {"level_falls_inside": "falls to LNAV"}


def after(event, **other):
    rules = usual_rules(**other)
    before = on_path(rules, True)
    return lets_go(before, event, step(before, event, rules), rules)


def test_each_rule_lets_go_at_its_own_event():
    for rule, event, why in (
        ("autopilot_after_loss", "lateral guidance lost", "course and glidepath lost"),
        ("autopilot_at_level_change", "vertical guidance lost", "the level of service changed"),
        ("autopilot_at_go_around", "go around", "a go-around was selected"),
    ):
        assert after(event, **FALLS) == ""
        assert after(event, **FALLS, **{rule: "disconnects"}) == why
    assert after("go around", autopilot_after_loss="disconnects", autopilot_at_level_change="disconnects") == ""
    assert after("lateral guidance lost", autopilot_at_go_around="disconnects") == ""


def test_level_return_is_change_and_course_kept():
    rules = usual_rules(
        autopilot_at_level_change="disconnects", level_returns_inside="with the signal", **FALLS)
    fallen = step(on_path(rules, True), "vertical guidance lost", rules)
    back = step(fallen, "signal returns", rules)
    assert (fallen.level, back.level, back.lateral) == ("LNAV", "LPV", "captured")
    assert lets_go(fallen, "signal returns", back, rules) == "the level of service changed"


def test_guidance_given_up_by_crew_is_no_loss():
    for event in ("disarm approach", "heading mode", "land"):
        assert after(event, autopilot_after_loss="disconnects", autopilot_at_level_change="disconnects") == ""

"""The alternate of a flight by each set of rules, with everything that may be unknown."""

from dataclasses import replace

import pytest

from lpv.plan import alternate as plan_alternate
from lpv.plan.operator import AlternateMinimums
from lpv.plan.sheet import plan
from plan_cases import NOT_AVAILABLE, alternate, by_name, by_rules, case, with_equipment


def graded(flown):
    return by_name(plan_alternate.findings(flown))


LOW = (1999.0, 3.0)


# Whose rules.

def test_faa_chart_planned_by_rule_for_everybody():
    rules = graded(case())["rules"]
    assert (rules.grade, rules.computed) == ("note", "FAA part 91")


def test_operator_rules_compared_with_chart():
    rules = graded(by_rules(case(), "FAA part 91"))["rules"]
    assert (rules.grade, rules.chart, rules.computed) == ("ok", "rules of FAA", "FAA part 91, Example")


@pytest.mark.parametrize(("chart", "rules"), [
    ("EASA", "FAA part 91"), ("EASA", "FAA part 135"), ("FAA", "EASA commercial"), ("FAA", "EASA non-commercial"),
    ("ICAO", "FAA part 91"), ("ICAO", "EASA commercial"),
])
def test_chart_never_graded_by_other_authority(chart, rules):
    flown = by_rules(case(identity={"rule": chart}, weather=LOW, alternate=alternate()), rules)
    assert [finding.grade for finding in graded(flown).values()] == ["not compared"]
    texts = " ".join(f"{finding.why} {finding.computed}" for finding in plan(flown) if finding.key != "rules")
    assert ("14 CFR 91.169" in texts, "CAT.OP" in texts) == (False, False)


@pytest.mark.parametrize("chart", ["EASA", "ICAO"])
def test_without_operator_only_faa_chart_graded(chart):
    (rules,) = graded(case(identity={"rule": chart})).values()
    assert (rules.grade, rules.reason) == ("not compared", "no rule")


# FAA, 14 CFR 91.

def test_required_missing_alternate_stops():
    missing = graded(case(weather=LOW))["alternate-missing"]
    assert missing.grade == "stop"
    assert "91.169(b)" in missing.why


@pytest.mark.parametrize(
    ("listed", "key", "grade"),
    [
        (alternate(), "alternate", "ok"),
        (alternate(weather=(799.0, 3.0)), "alternate-weather", "stop"),
        (alternate(lines=("ILS", "LNAV"), weather=(600.0, 2.0)), "alternate", "ok"),
        (alternate(printed=(1000.0, 3.0)), "alternate-weather", "stop"),
        (alternate(lines=("LPV",)), "alternate-lines", "stop"),
    ],
)
def test_listed_alternate(listed, key, grade):
    findings = list(plan_alternate.findings(case(weather=LOW, alternate=listed)))
    assert (findings[-1].key, findings[-1].grade) == (key, grade)
    easy = list(plan_alternate.findings(case(alternate=listed)))
    assert easy[-1].grade == ("ok" if grade == "ok" else "note")


def test_alternate_need_stated_beside_listed_one():
    needed = graded(case(weather=LOW, alternate=alternate()))["alternate-needed"]
    assert (needed.grade, needed.computed) == ("note", "needed")
    easy = graded(case(alternate=alternate()))["alternate-needed"]
    assert (easy.grade, easy.computed) == ("ok", "not needed")


# The mark, the night, the altimeter.

def test_unknown_mark_not_compared_and_mark_stops():
    unknown = graded(case(alternate=alternate(minimums=None)))["alternate-mark ZZHC"]
    assert (unknown.grade, unknown.reason) == ("not compared", "not stated")
    assert graded(case(alternate=alternate(minimums="not authorized")))["alternate-mark ZZHC"].grade == "stop"
    assert "alternate-mark ZZHC" not in graded(case(alternate=alternate()))


@pytest.mark.parametrize(("condition", "known", "grade"), [
    ("night", {}, "not compared"), ("night", {"night": "yes"}, "stop"), ("night", {"night": "no"}, "ok"),
    ("no local altimeter setting", {}, "not compared"),
    ("no local altimeter setting", {"local_altimeter": "no"}, "stop"),
    ("no local altimeter setting", {"local_altimeter": "yes"}, "ok"),
])
def test_alternate_condition(condition, known, grade):
    listed = alternate(not_authorized_when=(condition,), **known)
    assert graded(case(alternate=listed))["alternate-condition ZZHC"].grade == grade


# Notices at the alternate.

def test_line_removed_by_notice_not_planned():
    notice = "!ZZHC 12/001 ZZHC IAP HIGH CAY. LNAV MDA NA. PERM"
    findings = graded(case(weather=LOW, alternate=alternate(), notices=(notice,)))
    assert findings["alternate ZZHC" if "alternate ZZHC" in findings else "alternate-lines ZZHC"].grade == "stop"
    assert "LNAV is not available by notice 1" in findings["alternate-line ZZHC"].why


@pytest.mark.parametrize("notice", ["GPS JAMMING", "WAAS TROUBLE", "!ZZHC 12/001 ZZHC RWY 33 ALS U/S"])
def test_doubtful_line_never_ok(notice):
    findings = graded(case(weather=LOW, alternate=alternate(), notices=(notice,)))
    assert findings["alternate-doubt ZZHC"].grade == "resolve"
    assert "notice 1" in findings["alternate-doubt ZZHC"].computed
    assert "alternate ZZHC" not in findings


def test_ground_aid_stands_when_gps_doubtful():
    listed = alternate(lines=("ILS", "LNAV"))
    assert graded(case(alternate=listed, notices=("GPS JAMMING",)))["alternate ZZHC"].grade == "ok"
    out = ("GPS JAMMING", "!ZZHC 12/001 ZZHC NAV ILS U/S")
    assert "alternate-doubt ZZHC" in graded(case(alternate=listed, notices=out))


def test_sbas_loss_keeps_lnav_at_alternate():
    assert graded(case(alternate=alternate(), notices=(NOT_AVAILABLE,)))["alternate ZZHC"].grade == "ok"


# Receivers without SBAS.

def gps(**equipment):
    return with_equipment(case(alternate=alternate()), sbas_class=None, best_level="LNAV", **equipment)


def test_without_sbas_only_one_airport_planned_on_gps():
    assert graded(gps(fde="yes"))["alternate-gps-only ZZHC"].grade == "resolve"
    aided = gps(fde="yes")
    aided = replace(aided, scenario=replace(aided.scenario, alternate=alternate(lines=("VOR", "LNAV"))))
    assert "alternate-gps-only ZZHC" not in graded(aided)


def test_failed_ground_aid_is_no_way_in():
    flown = gps(fde="yes")
    listed = alternate(lines=("VOR", "LNAV"))
    out = case(alternate=listed, notices=("!ZZHC 12/001 ZZHC NAV VOR U/S",))
    assert "alternate-gps-only ZZHC" in graded(replace(flown, scenario=out.scenario))


@pytest.mark.parametrize(("fde", "grade"), [(None, "not compared"), ("no", "resolve")])
def test_fault_detection_and_exclusion(fde, grade):
    assert graded(gps(fde=fde))["receiver-fde"].grade == grade
    assert "receiver-fde" not in graded(gps(fde="yes"))
    assert "receiver-fde" not in graded(case(alternate=alternate()))


# FAA, operations specifications.

MINIMA = (("LNAV", 500.0, 1.0, "33"), ("LPV", 250.0, 0.75, "33"))


@pytest.mark.parametrize("rules", ["FAA part 91K", "FAA part 135"])
def test_derived_minima_need_landing_minima(rules):
    flown = by_rules(case(alternate=alternate()), rules)
    unknown = graded(flown)["alternate-weather ZZHC"]
    assert (unknown.grade, unknown.reason) == ("not compared", "not stated")


@pytest.mark.parametrize(("weather", "key", "remembered", "own"), [
    ((900.0, 2.0), "alternate ZZHC", "note", "ok"), ((899.0, 2.0), "alternate-weather ZZHC", "resolve", "stop"),
    ((900.0, 1.9), "alternate-weather ZZHC", "resolve", "stop"),
])
def test_derived_minima_edges(weather, key, remembered, own):
    """LNAV 500 ft and 1 SM: 900 ft and 2 SM by the usual additions."""
    listed = alternate(lines=("LNAV", "LPV"), minima=MINIMA, weather=weather)
    flown = case(weather=LOW, alternate=listed)
    assert graded(by_rules(flown, "FAA part 91K"))[key].grade == remembered
    additions = AlternateMinimums(one_ft=400.0, one_sm=1.0, two_ft=200.0, two_sm=0.5)
    assert graded(by_rules(flown, "FAA part 91K", additions=additions))[key].grade == own


def test_derived_pair_fails_with_either_aid():
    minima = (("ILS", 200.0, 0.5, "33"), ("VOR", 600.0, 1.5, "15"))
    listed = alternate(lines=("ILS", "VOR"), minima=minima, weather=(800.0, 2.0))
    flown = by_rules(case(alternate=listed), "FAA part 91K")
    assert "ILS" in graded(flown)["alternate ZZHC"].why
    out = by_rules(case(alternate=listed, notices=("!ZZHC 12/001 ZZHC NAV ILS U/S",)), "FAA part 91K")
    assert "alternate ZZHC" not in graded(out)


def test_charter_rule_uses_chart_minima():
    # Circling 540 ft at an airport of 31 ft: 509 and 1500 ft.
    needed = graded(by_rules(case(weather=(2008.0, 10.0), alternate=alternate()), "FAA part 135"))["alternate-needed"]
    assert needed.computed == "needed"
    easy = graded(by_rules(case(weather=(2009.0, 10.0), alternate=alternate()), "FAA part 135"))["alternate-needed"]
    assert (easy.computed, easy.grade) == ("not needed", "note")


# EASA.

def airline(listed, weather=(5000.0, 10.0), **flight):
    return by_rules(case(identity={"rule": "EASA"}, weather=weather, alternate=listed, **flight), "EASA commercial")


def test_airline_without_alternate():
    assert graded(airline(None))["alternate"].grade == "not compared"
    assert graded(airline(None, flight_h=2.0, separate_runways=2))["alternate"].grade == "note"
    assert graded(airline(None, flight_h=7.0))["alternate-missing"].grade == "stop"


@pytest.mark.parametrize(("lines", "at_destination", "grade"), [
    (("LNAV",), (), "not compared"), (("LNAV",), ("none",), "stop"), (("LNAV",), ("ILS",), "ok"),
    (("LNAV", "VOR"), (), "ok"), (("GLS",), ("none",), "stop"),
])
def test_airline_keeps_one_way_in_without_gnss(lines, at_destination, grade):
    findings = graded(airline(alternate(lines=lines), other_approaches=at_destination))
    assert findings["alternate-gnss ZZHC"].grade == grade


def test_airline_planning_minima_are_remembered():
    minima = (("ILS", 200.0, 0.5, "33"),)
    # 200 and 200 ft; 805 and 800 m are 1605 m, just under 1 SM.
    good = graded(
        airline(alternate(lines=("ILS",), minima=minima, weather=(400.0, 1.0)), weather=LOW))["alternate ZZHC"]
    assert good.grade == "note"
    assert "from memory" in good.why
    low = graded(airline(alternate(lines=("ILS",), minima=minima, weather=(399.0, 1.0)), weather=LOW))
    assert low["alternate-weather ZZHC"].grade == "resolve"


def test_non_commercial_rules_never_guessed():
    flown = by_rules(case(identity={"rule": "EASA"}, alternate=alternate()), "EASA non-commercial")
    grades = {name: finding.grade for name, finding in graded(flown).items() if name != "rules"}
    assert set(grades.values()) == {"not compared"}
    assert {"alternate-needed", "alternate-gnss ZZHC", "alternate-weather ZZHC"} <= set(grades)

"""Whose rules: every set at its edges, by hand, and that no answer of one authority grades a chart of the other."""

from datetime import UTC, datetime, timedelta

import pytest

from lpv.core.errors import DataError, DomainError
from lpv.facts.sources import SOURCES
from lpv.plan import operator, rules
from lpv.plan.forecast import Forecast, Period
from lpv.plan.rules import Destination, LineMinimum, Ruling
from shown import plain

ETA = datetime(2026, 11, 26, 12, tzinfo=UTC)
DAY = timedelta(hours=12)
PART_91, PART_91K, PART_135, COMMERCIAL, PRIVATE = (rules.rule_set(name) for name in rules.NAMES)
METRES = 1609.344


def steady(ceiling_ft, visibility_sm):
    return Forecast("ZZAA", (Period(ETA - DAY, ETA + DAY, ceiling_ft, visibility_sm),))


def needed(which, ceiling_ft, visibility_sm, **known):
    return rules.alternate_needed(which, Destination(steady(ceiling_ft, visibility_sm), ETA, **known))


def planned(line):
    rows, _ = rules.plannable_lines([line], baro_vnav_approved=True)
    return rows[0]


def allowed(which, ceiling_ft, visibility_sm, row):
    return rules.alternate_allowed(which, steady(ceiling_ft, visibility_sm), ETA, row)


# The sets.

def test_each_set_known_by_name():
    assert [rules.rule_set(name).name for name in rules.NAMES] == list(rules.NAMES)
    assert {rules.rule_set(name).authority for name in rules.NAMES} == {"FAA", "EASA"}
    with pytest.raises(DomainError, match="FAA part 91"):
        rules.rule_set("FAA part 121")


@pytest.mark.parametrize(("answer", "status", "good", "bad"), [
    (True, "published", "ok", "ok"), (False, "published", "stop", "stop"),
    (True, "from memory", "note", "note"), (False, "from memory", "resolve", "resolve"),
    (None, "published", "not compared", "not compared"), (None, "from memory", "not compared", "not compared"),
])
def test_remembered_rule_never_ok_never_stop(answer, status, good, bad):
    ruling = Ruling(answer, "so", "FAA part 91", "1", "iph", status)
    assert ruling.grade(True, "stop") == good == bad
    assert ("from memory" in ruling.why) == (status == "from memory")


# Is an alternate needed?

def test_answer_names_reason_rule_and_paragraph():
    ruling = needed(PART_91, 1999.0, 3.0)
    assert ruling.answer
    assert plain(ruling.reason) == "ceiling 1999 ft, visibility 3 SM within 1 h of the ETA; required 2000 ft and 3 SM"
    assert (ruling.rule, ruling.paragraph, ruling.status) == ("FAA part 91", "14 CFR 91.169(b)", "published")
    assert ruling.source in SOURCES


def test_fine_weather_no_help_without_instrument_approach():
    assert needed(PART_91, None, 10.0).answer is False
    assert needed(PART_91, None, 10.0, has_instrument_approach=False).answer is True


def test_forecast_with_gap_gives_no_answer():
    rows = (
        Period(ETA - DAY, ETA - timedelta(minutes=30), 5000.0, 10.0),
        Period(ETA, ETA + DAY, 5000.0, 10.0),
    )
    with pytest.raises(DataError, match="nothing from"):
        rules.alternate_needed(PART_91, Destination(Forecast("ZZAA", rows), ETA))
    with pytest.raises(DataError):
        rules.alternate_needed(PART_91, Destination(steady(5000.0, 10.0), ETA + DAY))


@pytest.mark.parametrize(("ceiling_ft", "visibility_sm", "known", "answer"), [
    # Lowest circling minimum 509 ft above the airport: 2009 ft.
    (2009.0, 3.0, {"circling_height_ft": 509.0, "lowest_height_ft": 439.0, "lowest_visibility_sm": 1.0}, False),
    (2008.0, 3.0, {"circling_height_ft": 509.0, "lowest_height_ft": 439.0, "lowest_visibility_sm": 1.0}, True),
    # No circling: 1500 ft above the lowest minimum, at least 2000 ft above the airport.
    (2000.0, 3.0, {"lowest_height_ft": 200.0, "lowest_visibility_sm": 0.5}, False),
    (2199.0, 3.0, {"lowest_height_ft": 700.0, "lowest_visibility_sm": 0.5}, True),
    # 2 SM above the lowest visibility, if that is more than 3 SM.
    (5000.0, 3.4, {"lowest_height_ft": 200.0, "lowest_visibility_sm": 1.5}, True),
    (5000.0, 3.5, {"lowest_height_ft": 200.0, "lowest_visibility_sm": 1.5}, False),
    (5000.0, 10.0, {}, None),
])
def test_charter_rule_edges(ceiling_ft, visibility_sm, known, answer):
    ruling = needed(PART_135, ceiling_ft, visibility_sm, **known)
    assert (ruling.answer, ruling.status) == (answer, "from memory")
    assert "135.223" in ruling.paragraph


@pytest.mark.parametrize(("ceiling", "visibility_m", "circling", "runways", "flight_h", "answer", "status"), [
    (2000.0, 5000.0, None, 2, 6.0, False, "from memory"),
    (1999.0, 5000.0, None, 2, 6.0, True, "published, quoted"),
    (2000.0, 4999.0, None, 2, 6.0, True, "from memory"),
    (2000.0, 5000.0, 1500.0, 2, 6.0, False, "from memory"),
    (2000.0, 5000.0, 1501.0, 2, 6.0, True, "published, quoted"),
    (2000.0, 5000.0, None, 1, 6.0, True, "published, quoted"),
    (2000.0, 5000.0, None, 2, 6.1, True, "published, quoted"),
    (None, 5000.0, None, 2, 0.0, False, "from memory"),
    (None, 5000.0, None, None, 1.0, None, "from memory"),
    (None, 5000.0, None, 2, None, None, "from memory"),
    (None, 5000.0, None, 1, None, True, "published, quoted"),
])
def test_easa_rule_edges(ceiling, visibility_m, circling, runways, flight_h, answer, status):
    ruling = needed(COMMERCIAL, ceiling, visibility_m / METRES + 1e-12, circling_height_ft=circling, runways=runways,
                    flight_h=flight_h)
    assert (ruling.answer, ruling.status) == (answer, status)
    assert ruling.rule == "EASA commercial"


def test_easa_rule_names_all_objections():
    ruling = needed(COMMERCIAL, 500.0, 1.0, runways=1, flight_h=7.0)
    assert plain(ruling.reason) == "ceiling under 2000 ft; fewer than two separate runways; a flight of more than 6 h"
    missing = needed(COMMERCIAL, 5000.0, 10.0)
    assert missing.reason == "not stated: separate runways and time of the flight"
    with pytest.raises(DomainError):
        needed(COMMERCIAL, 5000.0, 10.0, circling_height_ft=-1.0, runways=2, flight_h=1.0)


def test_unread_rule_gives_no_answer():
    assert needed(PRIVATE, 100.0, 0.1).answer is None


# May this airport be the alternate?

def test_alternate_lines_lowest_weather_first():
    rows, refused = rules.plannable_lines(["LPV", "LNAV/VNAV", "LNAV", "circling", "ILS"], False)
    assert [row.line for row in rows] == ["ILS", "LNAV", "circling"]
    assert [(row.ceiling_ft, row.visibility_sm) for row in rows] == [(600.0, 2.0), (800.0, 2.0), (800.0, 2.0)]
    assert [row.line for row in refused] == ["LNAV/VNAV", "LPV"]
    assert "not planned on" in refused[1].reason


def test_lpv_only_airport_offers_nothing_to_plan():
    rows, refused = rules.plannable_lines(["LPV"], True)
    assert rows == ()
    assert len(refused) == 1


def test_ground_aids_count_as_nonprecision():
    rows, _ = rules.plannable_lines(["LOC", "VOR", "NDB"], False)
    assert {row.ceiling_ft for row in rows} == {800.0}


def test_unknown_line_refused():
    with pytest.raises(DomainError, match="TACAN"):
        rules.plannable_lines(["TACAN"], False)


def test_printed_alternate_minima_replace_standard():
    assert allowed(PART_91, 900.0, 2.5, planned("LNAV")).answer
    ruling = allowed(PART_91, 900.0, 2.5, rules.printed_line(planned("LNAV"), 1000.0, 2.5))
    assert not ruling.answer
    assert "printed alternate minima" in ruling.reason
    assert ruling.paragraph == "14 CFR 91.169(c)"


@pytest.mark.parametrize("printed", [(0.0, 3.0), (1000.0, -1.0)])
def test_impossible_printed_minima_refused(printed):
    with pytest.raises(DomainError):
        rules.printed_line(planned("LNAV"), *printed)


def test_faa_counts_only_eta_at_alternate():
    rows = (
        Period(ETA - DAY, ETA, 100.0, 0.5),
        Period(ETA, ETA + timedelta(minutes=1), 800.0, 2.0),
        Period(ETA + timedelta(minutes=1), ETA + DAY, 100.0, 0.5),
    )
    assert rules.alternate_allowed(PART_91, Forecast("ZZBB", rows), ETA, planned("LNAV")).answer
    (easa,) = rules.easa_lines([LineMinimum("LNAV", 300.0, 0.5)])
    assert not rules.alternate_allowed(COMMERCIAL, Forecast("ZZBB", rows), ETA, easa).answer


ONE = [
    LineMinimum("LNAV", 500.0, 1.0, "09"), LineMinimum("ILS", 200.0, 0.5, "27"), LineMinimum("VOR", 600.0, 1.5, "16"),
]


def test_minima_derived_by_operations_specifications():
    rows, refused = rules.derived_lines(ONE, False, rules.remembered_additions())
    lowest = {row.line: (row.ceiling_ft, row.visibility_sm) for row in rows}
    # One approach: 400 ft and 1 SM more; two ground aids: the higher of the two, 200 ft and 1/2 SM more.
    assert lowest == {
        "LNAV": (900.0, 2.0), "ILS": (600.0, 1.5), "VOR": (1000.0, 2.5), "ILS 27 and VOR 16": (800.0, 2.0),
    }
    assert refused == ()
    assert {row.status for row in rows} == {"from memory"}


def test_operator_uses_own_additions():
    rows, _ = rules.derived_lines(ONE[:1], False, rules.Additions(300.0, 0.75, 100.0, 0.5, own=True))
    assert (rows[0].ceiling_ft, rows[0].visibility_sm, rows[0].status) == (800.0, 1.75, "stated by the operator")


@pytest.mark.parametrize("minima", [
    [LineMinimum("ILS", 200.0, 0.5, "27"), LineMinimum("LOC", 400.0, 1.0, "27")],  # one runway
    [LineMinimum("ILS", 200.0, 0.5, "27"), LineMinimum("LNAV", 400.0, 1.0, "09")],  # one of them by satellite
    [LineMinimum("ILS", 200.0, 0.5), LineMinimum("VOR", 400.0, 1.0)],  # runways unknown
])
def test_smaller_addition_needs_aids_to_two_runways(minima):
    rows, _ = rules.derived_lines(minima, False, rules.remembered_additions())
    assert not [row for row in rows if " and " in row.line]


def test_operations_specifications_never_plan_lpv():
    rows, refused = rules.derived_lines([LineMinimum("LPV", 250.0, 0.75)], False, rules.remembered_additions())
    assert rows == ()
    assert [row.line for row in refused] == ["LPV"]


@pytest.mark.parametrize(("line", "height_ft", "more_ft", "more_m"), [
    ("LPV", 249.0, 200.0, 800.0), ("LPV", 250.0, 400.0, 1500.0), ("LNAV", 200.0, 400.0, 1500.0),
    ("ILS", 200.0, 200.0, 800.0), ("circling", 600.0, 400.0, 1500.0), ("VOR", 240.0, 400.0, 1500.0),
])
def test_easa_planning_minima(line, height_ft, more_ft, more_m):
    (row,) = rules.easa_lines([LineMinimum(line, height_ft, 1.0)])
    assert row.ceiling_ft == height_ft + more_ft
    assert row.visibility_sm * METRES == pytest.approx(METRES + more_m)
    assert row.status == "from memory"


@pytest.mark.parametrize(("alternate", "destination", "answer"), [
    (["ILS"], None, True), (["LNAV"], ["VOR"], True), (["LNAV"], [], False), (["LNAV"], None, None),
    (["GLS", "LPV"], [], False), ([], ["ILS"], True),
])
def test_one_way_in_without_gnss(alternate, destination, answer):
    ruling = rules.way_without_gnss(COMMERCIAL, alternate, destination)
    assert (ruling.answer, ruling.paragraph, ruling.status) == (answer, "AMC1 CAT.OP.MPA.182", "published")


# The operator's file.

GOOD = '[operator]\nname = "Example"\nrules = "FAA part 135"\nlpv = "approved"\n'


def test_operator_file():
    charter = operator.read_text(GOOD, "example.toml")
    assert charter.rule_set is PART_135
    assert charter.additions == rules.remembered_additions()
    own = operator.read_text(GOOD + "[alternate_minimums]\none_ft = 300\none_sm = 1\ntwo_ft = 100\ntwo_sm = 0.5\n")
    assert own.additions == rules.Additions(300.0, 1.0, 100.0, 0.5, own=True)


@pytest.mark.parametrize(("old", "new", "word"), [
    ("FAA part 135", "FAA part 121", "EASA commercial"), ('lpv = "approved"', 'lpv = "yes"', "not approved"),
    ("name =", "names =", "name"), ('"approved"\n', '"approved"\n[alternate_minimums]\none_ft = 300\n', "one_sm"),
])
def test_faulty_operator_file_names_fault_and_place(old, new, word):
    with pytest.raises(DataError) as caught:
        operator.read_text(GOOD.replace(old, new), "example.toml")
    assert word in str(caught.value)
    assert "example.toml" in str(caught.value)

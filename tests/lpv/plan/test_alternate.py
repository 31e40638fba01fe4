from datetime import UTC, datetime, timedelta

import pytest

from lpv.core.errors import DataError, DomainError
from lpv.plan import alternate
from lpv.plan.forecast import Forecast, Period
from shown import plain

ETA = datetime(2026, 11, 26, 12, tzinfo=UTC)
DAY = timedelta(hours=12)


def steady(ceiling_ft, visibility_sm):
    return Forecast("ZZAA", (Period(ETA - DAY, ETA + DAY, ceiling_ft, visibility_sm),))


def planned(line):
    rows, _ = alternate.plannable_lines([line], baro_vnav_approved=True)
    return rows[0]


def test_the_answer_names_reason_rule_and_paragraph():
    ruling = alternate.alternate_needed(steady(1999.0, 3.0), ETA)
    assert ruling.answer
    assert plain(ruling.reason) == (
        "ceiling 1999 ft, visibility 3 SM within 1 h of the ETA; asked 2000 ft and 3 SM"
    )
    assert (ruling.rule, ruling.paragraph, ruling.status) == ("FAA", "14 CFR 91.169(b)", "published")


def test_without_an_instrument_approach_fine_weather_does_not_help():
    assert not alternate.alternate_needed(steady(None, 10.0), ETA).answer
    assert alternate.alternate_needed(steady(None, 10.0), ETA, has_instrument_approach=False).answer


def test_a_forecast_with_a_gap_gives_no_answer():
    rows = (
        Period(ETA - DAY, ETA - timedelta(minutes=30), 5000.0, 10.0),
        Period(ETA, ETA + DAY, 5000.0, 10.0),
    )
    with pytest.raises(DataError, match="nothing from"):
        alternate.alternate_needed(Forecast("ZZAA", rows), ETA)
    with pytest.raises(DataError):
        alternate.alternate_needed(steady(5000.0, 10.0), ETA + DAY)


def test_the_lines_of_an_alternate_lowest_weather_first():
    rows, refused = alternate.plannable_lines(["LPV", "LNAV/VNAV", "LNAV", "circling", "ILS"], False)
    assert [row.line for row in rows] == ["ILS", "LNAV", "circling"]
    assert [(row.ceiling_ft, row.visibility_sm) for row in rows] == [(600.0, 2.0), (800.0, 2.0), (800.0, 2.0)]
    assert [row.line for row in refused] == ["LNAV/VNAV", "LPV"]
    assert "not planned on" in refused[1].reason


def test_an_airport_with_lpv_alone_offers_nothing_to_plan_on():
    rows, refused = alternate.plannable_lines(["LPV"], True)
    assert rows == ()
    assert len(refused) == 1


def test_ground_aids_count_as_nonprecision():
    rows, _ = alternate.plannable_lines(["LOC", "VOR", "NDB"], False)
    assert {row.ceiling_ft for row in rows} == {800.0}


def test_an_unknown_line_is_refused():
    with pytest.raises(DomainError, match="TACAN"):
        alternate.plannable_lines(["TACAN"], False)


def test_printed_alternate_minima_take_the_place_of_the_standard_ones():
    weather = steady(900.0, 2.5)
    assert alternate.alternate_allowed(weather, ETA, planned("LNAV")).answer
    ruling = alternate.alternate_allowed(weather, ETA, planned("LNAV"), 1000.0, 2.5)
    assert not ruling.answer
    assert "printed alternate minima" in ruling.reason
    assert ruling.paragraph == "14 CFR 91.169(c)"


@pytest.mark.parametrize("printed", [(1000.0, None), (None, 3.0), (0.0, 3.0), (1000.0, -1.0)])
def test_half_or_impossible_printed_minima_are_refused(printed):
    with pytest.raises(DomainError):
        alternate.alternate_allowed(steady(900.0, 2.5), ETA, planned("LNAV"), *printed)


def test_only_the_eta_at_the_alternate_counts_there():
    rows = (
        Period(ETA - DAY, ETA, 100.0, 0.5),
        Period(ETA, ETA + timedelta(minutes=1), 800.0, 2.0),
        Period(ETA + timedelta(minutes=1), ETA + DAY, 100.0, 0.5),
    )
    assert alternate.alternate_allowed(Forecast("ZZBB", rows), ETA, planned("LNAV")).answer


@pytest.mark.parametrize(
    ("ceiling", "visibility_sm", "circling", "runways", "flight_h", "needed"),
    [
        (2000.0, 3.2, None, 2, 6.0, False),
        (1999.0, 3.2, None, 2, 6.0, True),
        (2000.0, 3.1, None, 2, 6.0, True),
        (2000.0, 3.2, 1500.0, 2, 6.0, False),
        (2000.0, 3.2, 1501.0, 2, 6.0, True),
        (2000.0, 3.2, None, 1, 6.0, True),
        (2000.0, 3.2, None, 2, 6.1, True),
        (None, 3.2, None, 2, 0.0, False),
    ],
)
def test_the_remembered_easa_rule_at_its_edges(ceiling, visibility_sm, circling, runways, flight_h, needed):
    """5 km are 3.107 SM."""
    ruling = alternate.easa_alternate_needed(steady(ceiling, visibility_sm), ETA, circling, runways, flight_h)
    assert ruling.answer is needed
    assert (ruling.rule, ruling.status) == ("EASA", "from memory")


def test_the_easa_rule_tells_everything_that_is_missing():
    ruling = alternate.easa_alternate_needed(steady(500.0, 1.0), ETA, None, 1, 7.0)
    assert plain(ruling.reason) == (
        "ceiling under 2000 ft; visibility under 5000 m; fewer than two separate runways; a flight of more than 6 h"
    )


@pytest.mark.parametrize("wrong", [(-1.0, 2, 1.0), (None, -1, 1.0), (None, 2, -1.0), (None, 2, 31.0)])
def test_the_easa_rule_refuses_impossible_values(wrong):
    with pytest.raises(DomainError):
        alternate.easa_alternate_needed(steady(5000.0, 10.0), ETA, *wrong)

import math
from datetime import UTC, datetime, timedelta

import pytest

from lpv.core.errors import DataError
from lpv.plan import forecast
from lpv.plan.forecast import Forecast, Period, Weather, worst
from shown import plain

NOON = datetime(2026, 11, 26, 12, tzinfo=UTC)
HOUR = timedelta(hours=1)


def period(start, end, ceiling_ft=5000.0, visibility_sm=10.0, kind="prevailing"):
    return Period(NOON + start * HOUR, NOON + end * HOUR, ceiling_ft, visibility_sm, kind)


def found_faults(*periods, start=-1.0, end=1.0):
    with pytest.raises(DataError) as caught:
        worst(Forecast("ZZAA", periods), NOON + start * HOUR, NOON + end * HOUR)
    return caught.value.faults


def test_worst_counts_individually():
    rows = (period(-3, 0, 3000.0, 2.0), period(0, 3, 900.0, 6.0))
    assert worst(Forecast("ZZAA", rows), NOON - HOUR, NOON + HOUR) == Weather(900.0, 2.0)


def test_no_ceiling_above_every_ceiling():
    rows = (period(-3, 3, None, 6.0),)
    weather = worst(Forecast("ZZAA", rows), NOON, NOON)
    assert weather == Weather(None, 6.0)
    assert forecast.meets(weather, 60000.0, 6.0)
    assert not forecast.meets(weather, 0.0, 6.1)
    assert plain(forecast.in_words(weather)) == "no ceiling, visibility 6 SM"


def test_ceiling_and_visibility_must_both_hold():
    assert forecast.meets(Weather(2000.0, 3.0), 2000.0, 3.0)
    assert not forecast.meets(Weather(1999.0, 3.0), 2000.0, 3.0)
    assert not forecast.meets(Weather(2000.0, 2.9), 2000.0, 3.0)


def test_temporary_group_counts_where_lower():
    rows = (period(-3, 3), period(0.5, 1.5, 400.0, 1.0, "temporary"))
    assert worst(Forecast("ZZAA", rows), NOON - HOUR, NOON + HOUR) == Weather(400.0, 1.0)
    assert worst(Forecast("ZZAA", rows), NOON - HOUR, NOON) == Weather(5000.0, 10.0)


def test_period_edges():
    rows = (period(-3, 0, 300.0), period(0, 3))
    assert worst(Forecast("ZZAA", rows), NOON, NOON + HOUR).ceiling_ft == 5000.0
    assert worst(Forecast("ZZAA", rows), NOON - timedelta(seconds=1), NOON).ceiling_ft == 300.0
    assert worst(Forecast("ZZAA", tuple(reversed(rows))), NOON - HOUR, NOON).ceiling_ft == 300.0


def test_forecast_just_covering_span_is_enough():
    rows = (period(-1, 1, 1500.0),)
    assert worst(Forecast("ZZAA", rows), NOON - HOUR, NOON + HOUR).ceiling_ft == 1500.0


@pytest.mark.parametrize(("start", "end"), [(-0.5, 3), (-3, 0.5), (1.1, 3), (-3, -1.1)])
def test_forecast_not_covering_span_is_fault(start, end):
    (fault,) = found_faults(period(start, end))
    assert "Get a forecast" in fault.action


def test_gap_is_fault_with_times():
    (fault,) = found_faults(period(-3, 0), period(0.5, 3))
    assert fault.found == "nothing from 2026-11-26 12:00Z to 2026-11-26 12:30Z"


def test_temporary_group_fills_no_gap():
    (fault,) = found_faults(period(-3, 0), period(0, 0.5, kind="temporary"), period(0.5, 3))
    assert "nothing from" in fault.found
    (fault,) = found_faults(period(-3, 3, kind="temporary"))
    assert fault.found == "no prevailing period"


def test_long_period_under_short_one_leaves_no_gap():
    rows = (period(-3, 3), period(-2, -1, 100.0), period(2, 4))
    assert forecast.faults_of(Forecast("ZZAA", rows)) == []


def test_no_periods_is_fault():
    assert "no periods" in found_faults()[0].found


@pytest.mark.parametrize(
    "bad",
    [
        period(1, 1),
        period(2, 1),
        period(-3, 3, -1.0),
        period(-3, 3, math.nan),
        period(-3, 3, 1e6),
        period(-3, 3, 1000.0, -0.1),
        period(-3, 3, 1000.0, math.nan),
        period(-3, 3, kind="maybe"),
        Period(datetime(2026, 11, 26, 9), datetime(2026, 11, 26, 15), 1000.0, 3.0),
    ],
)
def test_impossible_period_is_one_fault(bad):
    (fault,) = forecast.faults_of(Forecast("ZZAA", (period(-3, 3), bad)))
    assert fault.key == "period 2"


def test_all_faults_reported_together():
    rows = (period(2, 1), period(-3, 3, -1.0), period(-3, 3, 1.0, -1.0))
    assert [fault.key for fault in forecast.faults_of(Forecast("ZZAA", rows))] == ["period 1", "period 2", "period 3"]


def test_forecast_text():
    (line,) = forecast.lines_of(Forecast("ZZAA", (period(0, 1, 1999.0, 2.5),)))
    assert plain(line) == "2026-11-26 12:00Z to 2026-11-26 13:00Z, prevailing: ceiling 1999 ft, visibility 2 1/2 SM"

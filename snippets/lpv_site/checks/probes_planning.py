"""Adapters for check values on planning: plain arguments in, an answer out."""

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import cast

from lpv.approach.record import Approach
from lpv.approach.schema import Chart, Minima
from lpv.decide.minimum import Day, minimum_of_row, visibility
from lpv.plan import rules
from lpv.plan.forecast import Forecast, Period

ETA = datetime(2026, 11, 26, 12, tzinfo=UTC)
FINE = (5000.0, 10.0)
HALF_A_DAY = timedelta(hours=12)
PART_91 = rules.rule_set("FAA part 91")


def _fine_but(ceiling_ft: float, visibility_sm: float, minutes_from_eta: int) -> Forecast:
    """A fine day with this weather for one minute."""
    start = ETA + timedelta(minutes=minutes_from_eta)
    end = start + timedelta(minutes=1)
    return Forecast("ZZAA", (
        Period(ETA - HALF_A_DAY, start, *FINE), Period(start, end, ceiling_ft, visibility_sm),
        Period(end, ETA + HALF_A_DAY, *FINE),
    ))


def alternate_needed(ceiling_ft: float, visibility_sm: float, minutes_from_eta: int) -> bool | None:
    """Whether 14 CFR 91.169 asks for an alternate with this weather for one minute of an otherwise fine day."""
    forecast = _fine_but(ceiling_ft, visibility_sm, minutes_from_eta)
    return rules.alternate_needed(PART_91, rules.Destination(forecast, ETA)).answer


def alternate_needed_easa(ceiling_ft: float, circling_height_ft: float, runways: int, flight_h: float) -> bool | None:
    """Whether CAT.OP.MPA.180 asks for an alternate with this ceiling at the ETA and good visibility."""
    forecast = _fine_but(ceiling_ft, FINE[1], 0)
    destination = rules.Destination(forecast, ETA, circling_height_ft or None, runways=runways, flight_h=flight_h)
    return rules.alternate_needed(rules.rule_set("EASA commercial"), destination).answer


def alternate_allowed(line: str, ceiling_ft: float, visibility_sm: float) -> bool | None:
    """Whether an alternate may be planned on a line with this weather at the ETA, 14 CFR 91.169."""
    hour = timedelta(hours=1)
    forecast = Forecast("ZZBB", (Period(ETA - hour, ETA + hour, ceiling_ft, visibility_sm),))
    planned, _ = rules.plannable_lines([line], baro_vnav_approved=False)
    return rules.alternate_allowed(PART_91, forecast, ETA, planned[0]).answer


def may_plan_on(line: str, baro_vnav_approved: bool) -> bool:
    """Whether an SBAS user may plan the alternate on a line."""
    planned, _ = rules.plannable_lines([line], baro_vnav_approved)
    return bool(planned)


def way_without_gnss(alternate: list[str], destination: list[str]) -> bool | None:
    """Whether one approach without GNSS is left, AMC1 CAT.OP.MPA.182."""
    return rules.way_without_gnss(rules.rule_set("EASA commercial"), alternate, destination).answer


def minimum_zone_not_clear(printed_ft: float, touchdown_zone_ft: float) -> float:
    """The DA (ft) to set while the precision obstacle free zone is not clear."""
    chart = Chart(course_deg=90.0, course_reference="magnetic", variation_deg=0.0, tdze_ft=touchdown_zone_ft,
                  threshold_elevation_ft=touchdown_zone_ft, airport_elevation_ft=touchdown_zone_ft,
                  runway_length_ft=6000.0, fixes=())
    row = Minima(line="LPV", kind="DA", categories="ABCD", altitude_ft=printed_ft)
    return minimum_of_row(cast(Approach, SimpleNamespace(chart=chart)), row, None, Day(zone_not_clear=True)).altitude_ft


def visibility_zone_not_clear(printed_sm: float) -> float:
    """The visibility (SM) asked likewise."""
    row = Minima(line="LPV", kind="DA", categories="ABCD", altitude_ft=200.0, visibility_sm=printed_sm)
    return visibility(row, None, Day(zone_not_clear=True)).visibility_sm

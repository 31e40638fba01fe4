"""Planning: a scenario with its approach and aircraft, and what follows from the three of them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.approach.schema import Minima
from lpv.decide import lines
from lpv.decide.category import category_to_use
from lpv.decide.cold import Cold, cold
from lpv.decide.minima import Situation
from lpv.decide.minimum import Day
from lpv.plan.forecast import Weather, worst
from lpv.plan.operator import OperatorFile
from lpv.plan.rules import RuleSet, rule_set
from lpv.plan.schema import NoticeText, Row, Scenario

WARM_C = 15.0


@dataclass(frozen=True)
class Case:
    """A scenario with its approach, its aircraft, and its operator if the scenario names one."""

    scenario: Scenario
    approach: Approach
    aircraft: Aircraft
    operator: OperatorFile | None = None


def rules_of(case: Case) -> RuleSet | None:
    """The rules that the flight is planned by; None where none of them may grade this chart.

    Without an operator a chart of the FAA is planned by 14 CFR 91, the rule for everybody.
    """
    chart = case.approach.identity.rule
    if case.operator is None:
        return rule_set("FAA part 91") if chart == "FAA" else None
    chosen = case.operator.rule_set
    return chosen if chosen.authority == chart else None


def category(case: Case) -> str:
    """The category whose minima are used: the aircraft's, or a higher one for the speed to be flown."""
    speed_kt = case.scenario.flight.speed_kt
    certificated = case.aircraft.type.category
    return certificated if speed_kt is None else category_to_use(certificated, speed_kt)


def situation(case: Case) -> Situation:
    """What procedure and equipment have at best; notices are weighed apart (`lpv.plan.notices`)."""
    flight, chart, equipment = case.scenario.flight, case.approach.chart, case.aircraft.equipment
    announced = equipment.best_level
    charted = case.approach.identity.level_of_service
    if announced == "LPV" or (charted == "LP" and equipment.lp == "approved"):
        announced = charted
    approvals = ["LNAV", "circling"] + (["baro-VNAV"] if equipment.baro_vnav == "approved" else [])
    approvals += ["LNAV/VNAV"] if equipment.best_level != "LNAV" else []
    barred = case.operator is not None and case.operator.operator.lpv == "not approved"
    approvals += ["LPV"] if equipment.best_level == "LPV" and not barred else []
    approvals += ["LP"] if equipment.lp == "approved" else []
    return Situation(
        announced, approvals, list(dict.fromkeys(row.line for row in chart.minima)), flight.temperature_c,
        chart.vnav_lowest_c, chart.vnav_highest_c, baro_vnav_barred=flight.baro_vnav_barred,
    )


def day_of(case: Case) -> Day:
    """What the day adds to a printed minimum."""
    flight = case.scenario.flight
    return Day(
        flight.temperature_c, flight.cold_segments, flight.remote_addition_ft or 0.0,
        flight.visibility_addition_sm or 0.0, flight.zone_not_clear,
    )


def cold_of(case: Case) -> Cold:
    """Whether altitudes are corrected for cold on the day."""
    flight = case.scenario.flight
    return cold(case.approach, flight.temperature_c, case.aircraft.operator, flight.cold_segments)


def row_for(case: Case, line: str) -> Minima | None:
    """The row of the chart for a line and the category to use, None if the chart has none."""
    return lines.row_for(case.approach, line, category(case))


def weather_at_eta(case: Case) -> Weather:
    """The worst weather forecast for the ETA; DataError where the forecast does not cover it."""
    eta = case.scenario.flight.eta
    return worst(case.scenario.forecast, eta, eta)


def in_fine_weather(case: Case, notices: Sequence[str] = (), no_site_notices: bool = False) -> Case:
    """The same flight on a warm day without a cloud, with these notices and this mark on its chart."""
    flight, half_a_day = case.scenario.flight, timedelta(hours=12)
    fine = Row(start=flight.eta - half_a_day, end=flight.eta + half_a_day, visibility_sm=10.0)
    return replace(case, scenario=replace(
        case.scenario, rows=(fine,), notices=tuple(NoticeText(text=text) for text in notices),
        flight=replace(flight, temperature_c=WARM_C, no_site_notices=no_site_notices),
    ))

"""Planning: a scenario with its approach and aircraft, and what follows from the three of them."""

from dataclasses import dataclass

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.approach.schema import Minima
from lpv.decide.category import category_to_use
from lpv.decide.minima import Situation
from lpv.plan.forecast import Weather, worst
from lpv.plan.notices import NOT_AVAILABLE, read_notice
from lpv.plan.schema import Scenario


@dataclass(frozen=True)
class Case:
    """A scenario with its approach and its aircraft."""

    scenario: Scenario
    approach: Approach
    aircraft: Aircraft


def category(case: Case) -> str:
    """The category whose minima are used: the aircraft's, or a higher one for the speed to be flown."""
    speed_kt = case.scenario.flight.speed_kt
    certificated = case.aircraft.type.category
    return certificated if speed_kt is None else category_to_use(certificated, speed_kt)


def situation(case: Case) -> Situation:
    """What to count on when planning: the best level that procedure and equipment have, less the notices."""
    flight, chart, equipment = case.scenario.flight, case.approach.chart, case.aircraft.equipment
    announced = equipment.best_level
    charted = case.approach.identity.level_of_service
    if announced == "LPV" or (charted == "LP" and equipment.lp == "approved"):
        announced = charted
    kinds = [read_notice(notice.text).kind for notice in case.scenario.notices]
    if NOT_AVAILABLE in kinds:
        announced = "LNAV"
    approvals = ["LNAV", "circling"] + (["baro-VNAV"] if equipment.baro_vnav == "approved" else [])
    approvals += ["LNAV/VNAV"] if equipment.best_level != "LNAV" else []
    approvals += ["LPV"] if equipment.best_level == "LPV" else []
    approvals += ["LP"] if equipment.lp == "approved" else []
    return Situation(
        announced, approvals, list(dict.fromkeys(row.line for row in chart.minima)), flight.temperature_c,
        chart.vnav_lowest_c, chart.vnav_highest_c, baro_vnav_barred=flight.baro_vnav_barred,
    )


def row_for(case: Case, line: str) -> Minima | None:
    """The row of the chart for a line and the category to use, None if the chart has none."""
    letter = category(case)
    rows = [row for row in case.approach.chart.minima if row.line == line and letter in row.categories]
    return rows[0] if rows else None


def weather_at_eta(case: Case) -> Weather:
    """The worst weather forecast for the ETA; DataError where the forecast does not cover it."""
    eta = case.scenario.flight.eta
    return worst(case.scenario.forecast, eta, eta)

"""Planning: which lines of minima may be used, and what to set for each; findings for the sheet."""

from collections.abc import Iterator
from dataclasses import dataclass

from lpv.aircraft import Aircraft
from lpv.altimetry import minimum_addition_ft
from lpv.approach import Approach
from lpv.approach_schema import Minima
from lpv.category import category_to_use
from lpv.errors import DomainError
from lpv.findings import Finding
from lpv.forecast import meets, told, worst
from lpv.minima import Minimum, Situation, Verdict, minimum_to_use, verdicts
from lpv.notices import NOT_AVAILABLE, read_notice
from lpv.plan_schema import Scenario
from lpv.units import M_PER_FT, M_PER_SM
from lpv.visibility import visibility_for_rvr_sm


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
    if announced == "LPV":
        announced = case.approach.identity.level_of_service
    kinds = [read_notice(notice.text).kind for notice in case.scenario.notices]
    if NOT_AVAILABLE in kinds:
        announced = "LNAV"
    approvals = ["LNAV", "circling"] + (["baro-VNAV"] if equipment.baro_vnav == "approved" else [])
    approvals += ["LNAV/VNAV"] if equipment.best_level != "LNAV" else []
    approvals += ["LPV"] if equipment.best_level == "LPV" else []
    return Situation(
        announced, approvals, list(dict.fromkeys(row.line for row in chart.minima)), flight.temperature_c,
        chart.vnav_lowest_c, chart.vnav_highest_c, baro_vnav_barred=flight.baro_vnav_barred,
    )


def findings(case: Case) -> Iterator[Finding]:
    """One finding for every line of minima on the chart, or why it may not be used."""
    letter = category(case)
    if letter != case.aircraft.type.category:
        yield Finding(
            "category", "note", "approach category", computed=f"{letter} for {case.scenario.flight.speed_kt:g} kt",
            why=f"The speed is over the limit of category {case.aircraft.type.category}.",
            action=f"Use the minima of category {letter}.",
        )
    for verdict in verdicts(situation(case)):
        rows = [row for row in case.approach.chart.minima if row.line == verdict.line and letter in row.categories]
        if not rows:
            yield _no_row(verdict, letter)
        elif verdict.allowed:
            yield _allowed(case, verdict, rows[0])
        else:
            yield _barred(verdict)


def _no_row(verdict: Verdict, letter: str) -> Finding:
    return Finding(
        "line-category", "note", f"line {verdict.line}", chart=f"not for category {letter}",
        action="Do not use this line.", about=_about(verdict),
    )


def _barred(verdict: Verdict) -> Finding:
    return Finding(
        "line-barred", "note", f"line {verdict.line}, path from {verdict.way}", computed="not to be planned on",
        why=_sentence(verdict.reasons), action="Plan on another line.", about=_about(verdict),
    )


def _sentence(reasons: list[str]) -> str:
    text = "; ".join(reasons)
    return text[:1].upper() + text[1:] + "."


def _about(verdict: Verdict) -> str:
    return f"{verdict.line} ({verdict.way})"


def _allowed(case: Case, verdict: Verdict, row: Minima) -> Finding:
    """The minimum to set, and whether the forecast at the ETA has the visibility."""
    try:
        minimum = minimum_of(case, row)
    except DomainError as error:
        return Finding(
            "line-not-computed", "resolve", f"line {row.line}", computed=str(error),
            action="Read the minimum from the chart.", about=_about(verdict),
        )
    eta = case.scenario.flight.eta
    weather = worst(case.scenario.forecast, eta, eta)
    key, grave, why, action = _grade(case, verdict, meets(weather, 0.0, minimum.visibility_sm))
    return Finding(
        key, grave,
        f"line {row.line}: {row.kind} {minimum.altitude_ft:.0f} ft, {minimum.hat_ft:.0f} ft above {_base(row)}, "
        f"{minimum.visibility_sm:g} SM",
        chart=f"{row.kind} {row.altitude_ft:.0f} ft, {_visibility_words(row)}",
        computed=f"altitude: {minimum.altitude_from}; visibility: {minimum.visibility_from}; "
        f"forecast at the ETA: {told(weather)}",
        why=why, action=action, about=_about(verdict),
    )


def _grade(case: Case, verdict: Verdict, enough: bool) -> tuple[str, str, str, str]:
    """Key, grade, why and action for a line that may be used."""
    if not enough:
        why = "The forecast visibility is under what the line asks."
        return "line-visibility", "resolve", why, "Plan on another approach, another time or the alternate."
    if verdict.way == "SBAS" and _uncertain(case, verdict.line):
        why = "A notice, or the mark on the chart, says that it may be missing."
        return "line-uncertain", "note", why, "Plan on a line without SBAS; use this one if its level is announced."
    return "line-usable", "ok", "", ""


def _uncertain(case: Case, line: str) -> bool:
    named = [name for notice in case.scenario.notices for name in read_notice(notice.text).minima]
    return case.scenario.flight.no_site_notices or line in named


def minimum_of(case: Case, row: Minima) -> Minimum:
    """The minimum to set for a line: printed, additions, operator's floors.

    The operator's addition to an MDA is put on top, so that a go-around does not go below it.
    DomainError where the chart prints no visibility, or a value lies outside the tables.
    """
    flight, operator = case.scenario.flight, case.aircraft.operator
    height_ft = operator.lowest_da_above_tdze_ft if row.kind == "DA" else 0.0
    found = minimum_to_use(
        row.altitude_ft, printed_visibility_sm(row), _base_ft(case.approach, row),
        flight.remote_addition_ft or 0.0, cold_addition_ft(case, row), flight.visibility_addition_sm or 0.0,
        height_ft, operator.lowest_visibility_sm, flight.zone_not_clear and row.kind == "DA",
    )
    if row.kind == "DA" or not operator.above_mda_ft:
        return found
    words = f"{found.altitude_from}, plus the operator's {operator.above_mda_ft:.0f} ft above an MDA"
    return Minimum(
        found.altitude_ft + operator.above_mda_ft, found.hat_ft + operator.above_mda_ft, found.visibility_sm, words,
        found.visibility_from,
    )


def _base(row: Minima) -> str:
    return "the airport" if row.line == "circling" else "touchdown"


def _base_ft(approach: Approach, row: Minima) -> float:
    """What heights count from: the airport for circling, else the touchdown zone, or the threshold without one."""
    chart = approach.chart
    if row.line == "circling":
        return chart.airport_elevation_ft
    return chart.threshold_elevation_ft if chart.tdze_ft is None else chart.tdze_ft


def cold_addition_ft(case: Case, row: Minima) -> float:
    """The addition to a minimum at a cold-temperature airport, at and below its temperature; else 0.

    Height above the airport; AIM 7-3-5 (FAA).
    """
    chart, now_c = case.approach.chart, case.scenario.flight.temperature_c
    if chart.cold_temperature_airport_c is None or now_c > chart.cold_temperature_airport_c:
        return 0.0
    return minimum_addition_ft(max(0.0, row.altitude_ft - chart.airport_elevation_ft), now_c)


def printed_visibility_sm(row: Minima) -> float:
    """The printed visibility in SM; RVR in ft by the table of 14 CFR 91.175(h). DomainError for none."""
    if row.visibility_sm is not None:
        return row.visibility_sm
    if row.rvr_ft is not None:
        return visibility_for_rvr_sm(row.rvr_ft)
    if row.visibility_m is not None:
        return row.visibility_m / M_PER_SM
    if row.rvr_m is not None:
        return visibility_for_rvr_sm(row.rvr_m / M_PER_FT)
    raise DomainError(f"line {row.line}: found no visibility; allowed: one of visibility and RVR.")


def _visibility_words(row: Minima) -> str:
    pairs = (
        ("visibility", row.visibility_sm, "SM"), ("visibility", row.visibility_m, "m"), ("RVR", row.rvr_ft, "ft"),
        ("RVR", row.rvr_m, "m"),
    )
    return next((f"{name} {number:g} {unit}" for name, number, unit in pairs if number is not None), "no visibility")

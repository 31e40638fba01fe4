"""The demo flight of the planning tests, changed in one way or another, and its findings by name."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from lpv.core.findings import Finding
from lpv.decide.minimum import minimum_of_row
from lpv.plan import case as plan_case
from lpv.plan import sheet as plan
from lpv.plan.operator import OperatorFile, Who
from lpv.plan.schema import AlternatePlan, MinimumThere, NoticeText, Row
from shown import plain

FILE = Path(__file__).resolve().parents[1] / "docs" / "plan" / "zzak-rnav-09-notice.toml"
CASE = replace(plan.read(FILE), operator=None)
ETA = CASE.scenario.flight.eta
NOT_AVAILABLE = "!FDC FDC NAV WAAS NOT AVBL"


def set_for(case, row):
    """The minimum to set for a row of the chart."""
    return minimum_of_row(case.approach, row, case.aircraft.operator, plan_case.day_of(case))


def period(ceiling_ft, visibility_sm):
    return Row(
        start=ETA - timedelta(hours=6), end=ETA + timedelta(hours=6), ceiling_ft=ceiling_ft,
        visibility_sm=visibility_sm,
    )


def case(*, notices=(), alternate=None, weather=(5000.0, 10.0), chart=None, identity=None, **flight):
    """The demo flight on a warm day in fine weather, changed."""
    flight = {"temperature_c": 15.0} | flight
    approach = replace(
        CASE.approach, chart=replace(CASE.approach.chart, **(chart or {})),
        identity=replace(CASE.approach.identity, **(identity or {})),
    )
    scenario = replace(
        CASE.scenario, flight=replace(CASE.scenario.flight, **flight), rows=(period(*weather),),
        notices=tuple(NoticeText(text=text) for text in notices), alternate=alternate,
    )
    return replace(CASE, approach=approach, scenario=scenario)


def alternate(lines=("LNAV",), weather=(900.0, 3.0), printed=(None, None), minima=(), **known):
    """An airport listed as alternate; minima: (line, height in ft, visibility in SM, runway)."""
    return AlternatePlan(
        airport="ZZHC", eta=ETA, lines=lines, printed_ceiling_ft=printed[0], printed_visibility_sm=printed[1],
        rows=(period(*weather),), **({"minimums": "standard"} | known),
        minima=tuple(MinimumThere(line=line, height_ft=height_ft, visibility_sm=visibility_sm, runway=runway)
                     for line, height_ft, visibility_sm, runway in minima),
    )


def by_rules(flown, rules, lpv=None, additions=None):
    """The same case, by an operator of these rules."""
    who = Who(name="Example", rules=rules, lpv=lpv)
    return replace(flown, operator=OperatorFile(operator=who, alternate_minimums=additions))


def with_equipment(flown, **equipment):
    """The same case with another equipment of the aircraft."""
    fitted = replace(flown.aircraft.equipment, **equipment)
    return replace(flown, aircraft=replace(flown.aircraft, equipment=fitted))


def by_name(findings):
    """The findings by key and what each is about, their texts as a reader sees them."""
    rows = {}
    for finding in findings:
        texts = {name: plain(text) for name, text in vars(finding).items()}
        rows[finding.name()] = Finding(**texts)
    return rows

"""Which cycle is in force at an ETA around the change, and at the ETA of every scenario."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from lpv.core import airac
from lpv.plan import sheet as plan
from lpv_site.pages.plan_sheet import cases, example_case
from lpv_site.text.table import table
from lpv_site.text.text import escape

first = example_case()
year, month, day = airac.calendar_date(airac.cycle(first.approach.identity.cycle).expiry)
change = datetime(year, month, day, tzinfo=UTC)
WORDS = {"ok": "yes", "note": "yes, near the change", "resolve": "ask", "stop": "no", "not compared": "not compared"}
MOMENTS = (timedelta(minutes=-1), timedelta(0), timedelta(hours=9), timedelta(hours=9, minutes=1))


def at(case, eta):
    flight = replace(case.scenario.flight, eta=eta)
    return replace(case, scenario=replace(case.scenario, flight=flight))


def row(case, name=""):
    eta, ident = case.scenario.flight.eta, case.approach.identity.cycle
    (finding,) = plan.data_cycle(case)
    now = airac.cycle_ident(airac.ordinal(eta.year, eta.month, eta.day))
    return f"{eta:%Y-%m-%d}<br>{eta:%H:%M}{name}", now, ident, f"**{WORDS[finding.grade]}**"


rows = [row(at(first, change + moment)) for moment in MOMENTS]
rows += [row(case, f"<br>{escape(case.scenario.slug)}") for case in cases()]
print(f"Around the end of cycle {first.approach.identity.cycle}, then the ETAs of the planning sheets:\n")
print(table(["ETA, UTC", "that day", "chart", "in force"], rows))

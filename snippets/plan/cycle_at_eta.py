"""Which cycle is in force at an ETA around the change, and at the ETA of every scenario."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from lpv.core import airac
from lpv.plan import sheet as plan
from lpv.plan.case import Case
from lpv_site.pages.plan_sheet import cases, example_case
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape

WORDS = {"ok": "yes", "note": "yes, near the change", "resolve": "ask", "stop": "no", "not compared": "not compared"}
FROM_CHANGE = (timedelta(minutes=-1), timedelta(0), timedelta(hours=9), timedelta(hours=9, minutes=1))


def show() -> Shown:
    """A table: moments around the end of the example's cycle, then the planning sheets."""
    first = example_case()
    ident = first.approach.identity.cycle
    change = datetime(*airac.calendar_date(airac.expiry_ordinal(ident)), tzinfo=UTC)
    rows = [_row(_at(first, change + after)) for after in FROM_CHANGE]
    rows += [_row(case, f"<br>{escape(case.scenario.slug)}") for case in cases()]
    head = f"Around the end of cycle {ident}, then the ETAs of the planning sheets:"
    return Shown(f"{head}\n\n{table(['ETA, UTC', 'that day', 'chart', 'in force'], rows)}")


def _at(case: Case, eta: datetime) -> Case:
    return replace(case, scenario=replace(case.scenario, flight=replace(case.scenario.flight, eta=eta)))


def _row(case: Case, name: str = "") -> tuple[str, str, str, str]:
    eta, ident = case.scenario.flight.eta, case.approach.identity.cycle
    (finding,) = plan.data_cycle(case)
    now = airac.cycle_ident(airac.ordinal(eta.year, eta.month, eta.day))
    return f"{eta:%Y-%m-%d}<br>{eta:%H:%M}{name}", now, ident, f"**{WORDS[finding.grade]}**"

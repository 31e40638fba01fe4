"""The planning sheets: for every scenario file the verdict, the line to plan on and the alternate."""

from lpv.core.findings import worst
from lpv.plan import sheet as plan
from lpv.plan.case import Case
from lpv_site.pages.plan_sheet import answers, cases, day, sheet_name, verdict
from lpv_site.text.findings import MARKS
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

SHOWN = ("plan on", "only if annunciated", "rules", "alternate", "data")


def show() -> Shown:
    """One block a sheet, with its link."""
    blocks = "\n".join(f"<div markdown>\n\n{_block(case)}\n</div>\n" for case in cases())
    return Shown(f"{len(cases())} planning sheets, one for each scenario file:\n\n"
                 f'<div class="hb-beside" markdown>\n\n{blocks}\n</div>\n')


def _block(case: Case) -> str:
    findings, who = plan.plan(case), case.approach.identity
    answered = dict(answers(case, findings))
    head = f"{MARKS[worst(findings)]} {escape(verdict(findings))}"
    pairs = [(name, escape(answered[name])) for name in SHOWN if answered.get(name)]
    return (
        f"**[{escape(who.airport)} {escape(who.title)}, {day(case)}]({sheet_name(case)}.md)**, "
        f"{escape(case.aircraft.type.name)}\n\n{stacked([(head, pairs)])}"
    )

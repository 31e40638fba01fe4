"""The planning sheets: for every scenario file the verdict, the line to plan on and the alternate."""

from lpv.core.findings import worst
from lpv.plan import sheet as plan
from lpv_site.pages.plan_sheet import answers, cases, day, sheet_name, verdict
from lpv_site.text.findings import MARKS
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

SHOWN = ("plan on", "only if announced", "alternate", "data")
print(f"{len(cases())} planning sheets, one for each scenario file:\n")
for case in cases():
    found = plan.plan(case)
    who = case.approach.identity
    told = dict(answers(case, found))
    print(
        f"**[{escape(who.airport)} {escape(who.title)}, {day(case)}]({sheet_name(case)}.md)**, "
        f"{escape(case.aircraft.type.name)}\n"
    )
    head = f"{MARKS[worst(found)]} {escape(verdict(found))}"
    print(stacked([(head, [(name, escape(told[name])) for name in SHOWN if told.get(name)])]))

"""What each kind of notice leaves of the first scenario's approach on a day of fine weather."""

from dataclasses import replace
from datetime import timedelta

from lpv.plan.lines import SURE, usable
from lpv.plan.notices import read_notice
from lpv.plan.schema import NoticeText, Row
from lpv_site.checks.checks import results
from lpv_site.pages.plan_sheet import example_case, notice_words
from lpv_site.text.table import table
from lpv_site.text.text import escape

case = example_case()
flight, day = case.scenario.flight, timedelta(hours=12)
fine = (Row(start=flight.eta - day, end=flight.eta + day, ceiling_ft=None, visibility_sm=10.0),)
TEXTS = [result.case.arguments["text"] for result in results() if result.case.function == "lpv.plan.notices.kind_name"]


def row(name: str, texts: list[str], marked: bool = False) -> tuple[str, str, str]:
    notices = tuple(NoticeText(text=text) for text in texts)
    scenario = replace(case.scenario, rows=fine, notices=notices, flight=replace(flight, no_site_notices=marked))
    lines = usable(replace(case, scenario=scenario))
    sure = next((line.line for line in lines if line.key in SURE), "none")
    return name, f"**{sure}**", "<br>".join(line.line for line in lines if line.key == "line-uncertain")


rows = [row("no notice", []), *(row(notice_words(read_notice(text).kind), [text]) for text in TEXTS)]
rows += [row("chart marked: no site notices", [], True), row("unknown", ["WAAS MAY"])]
who = case.approach.identity
print(f"{escape(who.airport)} {escape(who.title)}, {escape(case.aircraft.type.name)}, fine weather:\n")
print(table(["notice", "plan on", "only if announced"], rows))

"""The lines of the first scenario: what the chart prints, what is set, and what made the difference."""

from lpv.plan.case import category
from lpv.plan.lines import usable
from lpv_site.briefing.numbers import printed_visibility
from lpv_site.pages.plan_sheet import example_case
from lpv_site.text.table import table
from lpv_site.text.text import NARROW_SPACE, escape, number

case = example_case()
rows, seen = [], set()
for line in usable(case):
    if line.line in seen:
        continue
    seen.add(line.line)
    rows.append(
        (
            f"**{line.line}**<br>{escape(line.minimum.altitude_from)}",
            f"{line.row.kind}{NARROW_SPACE}{number(line.row.altitude_ft)}<br>{printed_visibility(line.row)}",
            f"**{number(line.minimum.altitude_ft)}**<br>({number(line.minimum.hat_ft)})",
            f"{line.minimum.visibility_sm:g}",
        )
    )
who = case.approach.identity
print(
    f"{escape(who.airport)} {escape(who.title)}, {escape(case.aircraft.type.name)}, category {category(case)}; "
    "altitudes in ft, in brackets the height above touchdown, for circling above the airport:\n"
)
print(table(["line", "chart", "set", "needs, SM"], rows))

"""The lines of the first scenario: what the chart prints, what is set, and what made the difference."""

from lpv.core.text import NARROW_SPACE, number
from lpv.plan.case import category
from lpv.plan.forecast import visibility_words
from lpv.plan.lines import Usable, usable, visibility_in_words
from lpv_site.pages.plan_sheet import example_case
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A table of the lines, each once; values: what is set for the best of them."""
    case = example_case()
    lines = {line.line: line for line in reversed(usable(case))}
    rows = [_row(line, case.approach.identity.rule) for line in reversed(lines.values())]
    who = case.approach.identity
    head = (
        f"{escape(who.airport)} {escape(who.title)}, {escape(case.aircraft.type.name)}, category {category(case)}; "
        "altitudes in ft, in brackets the height above touchdown, for circling above the airport:"
    )
    values = {}
    for name, line in lines.items():
        values[f"{name} altitude"] = Value.of(line.minimum.altitude_ft, "ft")
        values[f"{name} height"] = Value.of(line.minimum.height_ft, "ft")
        values[f"{name} visibility"] = Value(line.visibility.visibility_sm, "SM", _asked(line, who.rule))
    return Shown(f"{head}\n\n{table(['line', 'chart', 'set', 'needs'], rows)}", values)


def _asked(line: Usable, rule: str) -> str:
    return visibility_words(line.visibility.visibility_sm, rule)


def _row(line: Usable, rule: str) -> tuple[str, str, str, str]:
    return (
        f"**{line.line}**<br>{escape(line.minimum.reason)}",
        f"{line.row.kind}{NARROW_SPACE}{number(line.row.altitude_ft)}<br>{visibility_in_words(line.row)}",
        f"**{number(line.minimum.altitude_ft)}**<br>({number(line.minimum.height_ft)})",
        _asked(line, rule),
    )

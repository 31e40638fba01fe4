"""The altitudes of a cold day by both methods: the first scenario that is corrected for cold."""

from lpv.core.text import number, quantity
from lpv.decide.cold import SEGMENTS, ColdAltitude, all_segments, individual_segments
from lpv.plan.case import cold_of
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A table of the charted altitudes and those to use, by both methods; values: the additions of each."""
    case = next((case for case in cases() if cold_of(case).due), None)
    if case is None:
        return Shown("None of the planning sheets is for a day on which altitudes are corrected.\n")
    now_c, marked, who = case.scenario.flight.temperature_c, cold_of(case).segments, case.approach.identity
    every = all_segments(case.approach, now_c)
    single = {row.name: row for row in individual_segments(case.approach, now_c, marked)}
    segments = "all segments" if marked == SEGMENTS else f"the {' and '.join(marked)} segments"
    head = (f"{escape(who.airport)} {escape(who.title)} at {quantity(now_c, '°C')}, in ft; the list marks {segments} "
            "(invented):")
    rows = [
        (f"{escape(row.name)} {number(row.charted_ft)}<br>{row.segment}", _cell(row), _cell(single[row.name]))
        for row in every
    ]
    values = {f"{method} {row.name}": Value.of(row.addition_ft or 0.0, "ft")
              for method, temperatures in (("all", every), ("single", single.values())) for row in temperatures}
    return Shown(f"{head}\n\n{table(['charted', 'all segments', 'individual segments'], rows)}", values)


def _cell(row: ColdAltitude) -> str:
    if row.addition_ft is None:
        return "as charted"
    return f"**{number(row.corrected_ft)}**<br>+{number(row.addition_ft)}"

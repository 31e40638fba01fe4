"""On which line an SBAS user may plan the alternate by 14 CFR 91.169, and the weather that each asks."""

from lpv.core.text import feet, trimmed_quantity
from lpv.plan.rules import SBAS_LINES, plannable_lines
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

LINES = ("ILS", "VOR", *SBAS_LINES)


def show() -> Shown:
    """A table by line, with and without barometric vertical navigation; values: the weather of an ILS and of LNAV."""
    rows = [(line, _cell(line, False), _cell(line, True)) for line in LINES]
    values = {}
    for line in ("ILS", "LNAV"):
        (planned,), _ = plannable_lines([line], False)
        values[f"{line} ceiling"] = Value.of(planned.ceiling_ft, "ft")
        values[f"{line} visibility"] = Value.of(planned.visibility_sm, "SM")
    head = "Least forecast at the ETA there, unless the alternate's chart prints its own minima (14 CFR 91.169):"
    return Shown(f"{head}\n\n{table(['line there', 'without baro-VNAV', 'baro-VNAV approved'], rows)}", values)


def _cell(line: str, baro_vnav_approved: bool) -> str:
    planned, _ = plannable_lines([line], baro_vnav_approved)
    return f"**{feet(planned[0].ceiling_ft)}**, {trimmed_quantity(planned[0].visibility_sm, 'SM')}" if planned else "no"

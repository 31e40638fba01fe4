"""On which line an SBAS user may plan the alternate, and the weather that each asks."""

from lpv.plan.alternate import SBAS_LINES, plannable_lines
from lpv_site.text.table import table
from lpv_site.text.text import number

LINES = ("ILS", "VOR", *SBAS_LINES)


def cell(line: str, baro_vnav_approved: bool) -> str:
    planned, _ = plannable_lines([line], baro_vnav_approved)
    return f"**{number(planned[0].ceiling_ft)} ft**, {planned[0].visibility_sm:g} SM" if planned else "no"


print("Least forecast at the ETA there, unless the alternate's chart prints its own minima:\n")
print(
    table(
        ["line there", "without baro-VNAV", "baro-VNAV approved"],
        [(line, cell(line, False), cell(line, True)) for line in LINES],
    )
)

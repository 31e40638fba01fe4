"""Runway visual range to statute miles by the table of the United States rule; between rows the next higher."""

from fractions import Fraction

from lpv.core.units import M_PER_FT
from lpv.decide.visibility import rvr_for_decision_height_easa_m, visibility_for_rvr_sm
from lpv.facts.visual import RVR_ROWS
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

ranges_ft = [row[0] for row in RVR_ROWS]
rows = []
for before_ft, rvr_ft in zip([None, *ranges_ft], ranges_ft, strict=False):
    visible_sm = visibility_for_rvr_sm(rvr_ft)
    miles = f"{int(visible_sm) or ''} {Fraction(visible_sm) % 1 or ''}".strip()
    printed = number(rvr_ft) if before_ft is None else f"over {number(before_ft)} to {number(rvr_ft)}"
    rows.append((printed, f"**{miles}**"))
print(table(["RVR printed, ft", "visibility, SM"], rows))

chart = example().chart
line, lights_ft = chart.minima[0], chart.lights.length_ft if chart.lights else 0.0
height_ft = line.altitude_ft - chart.threshold_elevation_ft
values = {"easa": quantity(rvr_for_decision_height_easa_m(height_ft, lights_ft * M_PER_FT), "m")}

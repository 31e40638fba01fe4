"""What raises the example's best line: operator, remote altimeter setting, lights out, zone not clear."""

from lpv.decide.minima import minimum_to_use
from lpv.plan.minimum import printed_visibility_sm
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity

approach = example()
line, chart = approach.chart.minima[0], approach.chart
printed = (line.altitude_ft, printed_visibility_sm(line), chart.tdze_ft or chart.threshold_elevation_ft)
# The additions are invented: the chart in use prints its own.
REMOTE_FT, LIGHTS_SM, OPERATOR_FT, OPERATOR_SM = 60.0, 0.25, 250.0, 0.75
CASES = {
    "as printed": {},
    f"operator: not under {quantity(OPERATOR_FT, 'ft')}, {OPERATOR_SM:g} SM": {
        "operator_height_ft": OPERATOR_FT, "operator_sm": OPERATOR_SM},
    f"remote altimeter, + {quantity(REMOTE_FT, 'ft')}": {"remote_addition_ft": REMOTE_FT},
    f"lights out, + {LIGHTS_SM:g} SM": {"visibility_addition_sm": LIGHTS_SM},
    "obstacle free zone not clear": {"zone_not_clear": True},
}
rows = []
for name, additions in CASES.items():
    found = minimum_to_use(*printed, **additions)
    rows.append((name, number(found.altitude_ft), number(found.hat_ft), f"{found.visibility_sm:g}"))
print(
    f"{line.line} of {escape(approach.identity.airport)} {escape(approach.identity.title)}; "
    "the additions are invented, yours stand on chart and in the manuals:\n"
)
print(table(["today", f"{line.kind}, ft", "height, ft", "visibility, SM"], rows))

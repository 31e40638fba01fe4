"""What to set for each line of the example, and of the first LP line among the demo approaches."""

from lpv.decide.minima import altitude_to_use
from lpv_site.department.data import example, example_aircraft, examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity

approach, jet = example(), example_aircraft()
operator = jet.operator
lp = [(other, line) for other in examples() for line in other.chart.minima if line.line == "LP"][:1]
straight_in = [(approach, line) for line in approach.chart.minima if line.line != "circling"]


def to_set_ft(found, line):
    """A DA as printed or the operator's lowest; an MDA with the operator's addition for the go-around."""
    chart = found.chart
    zone_ft = chart.touchdown_zone_ft
    if line.kind == "DA":
        return altitude_to_use(line.altitude_ft, zone_ft, operator_height_ft=operator.lowest_da_above_tdze_ft)[0]
    return line.altitude_ft + operator.above_mda_ft


rows = [
    (
        f"{line.line}<br>runway {escape(found.identity.runway)}",
        line.kind,
        number(line.altitude_ft),
        f"**{number(to_set_ft(found, line))}**",
    )
    for found, line in straight_in + lp
]
print(f"{escape(approach.identity.airport)}, with what the operator of the {escape(jet.type.name.lower())} adds:\n")
print(table(["line", "kind", "printed, ft", "to set, ft"], rows, left=2))

values = {
    "above_mda": quantity(operator.above_mda_ft, "ft") + " (invented)",
    "lowest_da": quantity(operator.lowest_da_above_tdze_ft, "ft") + " (invented)",
}

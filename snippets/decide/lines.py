"""What to set for each line of the example, and of the first LP line among the demo approaches."""

from lpv.core.text import number, quantity
from lpv.decide.lines import row_for, straight_in_rows
from lpv.decide.minimum import minimum_of_row
from lpv_site.department.data import example, example_aircraft, examples
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each line: printed, and to set."""
    approach, jet = example(), example_aircraft()
    category, operator = jet.type.category, jet.operator
    chosen = [(approach, row) for row in straight_in_rows(approach, category)]
    chosen += [(approach, row) for approach in examples() if (row := row_for(approach, "LP", category))][:1]
    rows = [
        (f"{row.line}<br>runway {escape(approach.identity.runway)}", row.kind, number(row.altitude_ft),
         f"**{number(minimum_of_row(approach, row, operator).altitude_ft)}**")
        for approach, row in chosen
    ]
    head = (f"{escape(approach.identity.airport)}, category {category}, with what the operator of the "
            f"{escape(jet.type.name.lower())} adds:")
    lowest_ft, above_ft = operator.lowest_da_above_tdze_ft, operator.above_mda_ft
    return Shown(f"{head}\n\n{table(['line', 'kind', 'printed, ft', 'to set, ft'], rows, left=2)}", {
        "above_mda": Value(above_ft, "ft", quantity(above_ft, "ft") + " (invented)"),
        "lowest_da": Value(lowest_ft, "ft", quantity(lowest_ft, "ft") + " (invented)"),
    })

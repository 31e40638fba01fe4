"""What raises the example's best line: operator, remote altimeter setting, lights out, zone not clear."""

from lpv.aircraft.schema import Operator
from lpv.core.text import number, quantity, trimmed, trimmed_quantity
from lpv.decide.minimum import Day, minimum_of_row, visibility
from lpv_site.department.data import example, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

# The additions are invented: the chart in use prints its own.
REMOTE_FT, LIGHTS_SM, OPERATOR_FT, OPERATOR_SM = 60.0, 0.25, 250.0, 0.75
FLOORS = Operator(lowest_da_above_tdze_ft=OPERATOR_FT, lowest_visibility_sm=OPERATOR_SM, above_mda_ft=0.0)
CASES: dict[str, tuple[str, Operator | None, Day]] = {
    "printed": ("as printed", None, Day()),
    "operator": (
        f"operator: not under {quantity(OPERATOR_FT, 'ft')}, {trimmed_quantity(OPERATOR_SM, 'SM')}",
        FLOORS, Day()),
    "remote": (f"remote altimeter, + {quantity(REMOTE_FT, 'ft')}", None, Day(remote_addition_ft=REMOTE_FT)),
    "lights": (f"lights out, + {trimmed_quantity(LIGHTS_SM, 'SM')}", None, Day(visibility_addition_sm=LIGHTS_SM)),
    "zone": ("obstacle free zone not clear", None, Day(zone_not_clear=True)),
}


def show() -> Shown:
    """A table of what each addition makes of altitude, height and visibility; values: the same by case."""
    approach, line, values, rows = example(), example_row(), {}, []
    for key, (name, operator, day) in CASES.items():
        minimum = minimum_of_row(approach, line, operator, day)
        asked_sm = visibility(line, operator, day, approach.identity.rule).visibility_sm
        rows.append((name, number(minimum.altitude_ft), number(minimum.height_ft), f"{trimmed(asked_sm)}"))
        values[f"{key} altitude"] = Value.of(minimum.altitude_ft, "ft")
        values[f"{key} visibility"] = Value.of(asked_sm, "SM", 2)
    head = (
        f"{line.line} of {escape(approach.identity.airport)} {escape(approach.identity.title)}; "
        "the additions are invented, yours stand on chart and in the manuals:"
    )
    return Shown(f"{head}\n\n{table(['today', f'{line.kind}, ft', 'height, ft', 'visibility, SM'], rows)}", values)

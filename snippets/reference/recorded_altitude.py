"""How uncertain a recorded altitude is at the example's minimum, by what it counts from."""

from lpv.core.text import number
from lpv.track.belief import altitude_uncertainty
from lpv.track.records import IN_WORDS
from lpv_site.briefing.numbers import binding_row, minimum_distance_nm
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table


def show() -> Shown:
    """A table by reference; offered: the minimum, and of each reference the height in feet and in dots."""
    minimum_ft, distance_nm = binding_row(example()).altitude_ft, minimum_distance_nm(example())
    rows, values = [], {"minimum": Value.of(minimum_ft, "ft")}
    for key, words in IN_WORDS.items():
        uncertainty = altitude_uncertainty(example(), key, minimum_ft, distance_nm)
        rows.append((words, number(uncertainty.height_ft), number(uncertainty.dots, 0.1)))
        values[key] = Value.of(uncertainty.height_ft, "ft")
        values[f"{key}_dots"] = Value.of(uncertainty.dots, "dots", 1)
    return Shown(table(["altitude", "either way, ft", "dots"], rows), values)

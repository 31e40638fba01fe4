"""How far the reading at the example's fix may differ with nothing wrong, and what a wrong setting does."""

from lpv.core.text import number, quantity
from lpv.decide.last_mile import (
    AIR_C,
    PASSAGE_NM,
    SET_INHG,
    reading_allowances_ft,
    together_ft,
    wrong_setting_ft,
)
from lpv.facts import value
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

NAMES = {
    "altimeter": "altimeter, as checked on the ground", "glidepath": "a quarter of a dot off the glidepath",
    "air": f"air {quantity(AIR_C, '°C')} colder than assumed",
    "passage": f"read {quantity(PASSAGE_NM, 'NM', 0.01)} early or late",
    "sbas": "SBAS height, ninety-five times in a hundred",
    "setting": "setting rounded to the hundredth of an inch",
}


def show() -> Shown:
    """A row for each part, and all together."""
    parts_ft = reading_allowances_ft(example())
    all_ft = together_ft(list(parts_ft.values()))
    rows = [(NAMES[name], number(part_ft)) for name, part_ft in parts_ft.items()]
    rows.append(("**together**, root of the squares", f"**{number(all_ft)}**"))
    slips = {"inch": 1.0, "tenth": 0.1, "ten_hpa": 10.0 / value("hpa_per_inhg")}
    return Shown(f"With nothing wrong, in feet either way:\n\n{table(['part', 'ft'], rows)}", {
        "together": Value.of(all_ft, "ft"),
        **{name: Value.of(wrong_setting_ft(SET_INHG + slip), "ft") for name, slip in slips.items()},
    })

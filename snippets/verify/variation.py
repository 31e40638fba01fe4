"""How the modelled variation at the example moves away from the variation of record."""

from collections.abc import Mapping
from functools import partial
from typing import Any

from lpv.core.course import magnetic_deg
from lpv.core.text import course, degrees, number, signed
from lpv.geodesy.magnetic import model_field, model_uncertainty_deg, model_variation_deg
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

FIRST, LAST, ROOM = 2025, 2030, 0.25
YEARS = [FIRST + half / 2 for half in range(2 * (LAST - FIRST) + 1)]


def show() -> Shown:
    """The figure: the years that the model is made for."""
    approach = example()
    segment, of_record = approach.segment, approach.chart.variation_deg
    place = (segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.ltp_height_m)
    model = {year: model_variation_deg(*place, year) for year in YEARS}
    spread = model_uncertainty_deg(model_field(*place, FIRST).horizontal_nt)
    rows = [
        (number(year), signed(value, "°", 0.01), course(magnetic_deg(approach.true_course_deg, value), 0.1))
        for year, value in model.items() if year == int(year)
    ]
    first, last = Value.signed(model[FIRST], "°", 1), Value.signed(model[LAST], "°", 1)
    return Shown(figure(
        "variation-figure", partial(draw, model, spread, of_record),
        finding=f"At the example the model moves from {first} in {FIRST} to {last} in {LAST} (uncertain by "
        f"{degrees(spread, 0.1)}); the chart's variation of record stays at {signed(of_record, '°', 0.1)}.",
        headers=["year", "model variation", "magnetic final course"], rows=rows,
    ), {"first": first, "last": last, "uncertainty": Value.of(spread, "°", 1)})


def draw(model: Mapping[float, float], spread: float, of_record: float, axes: Any) -> None:
    """The model as a line in its band, the variation of record dashed."""
    years, values, note = list(model), list(model.values()), {"textcoords": "offset points"}
    axes.fill_between(years, [v - spread for v in values], [v + spread for v in values], color=COLOURS["shade"])
    axes.plot(years, values, color=COLOURS["first"])
    axes.axhline(of_record, color=COLOURS["answer"], linestyle="--")
    axes.annotate("of record", (LAST, of_record), xytext=(0, 4), ha="right", color=COLOURS["answer"], **note)
    axes.annotate("model and its uncertainty", (0, 0), xytext=(8, 8), xycoords="axes fraction", color=COLOURS["first"],
                  **note)
    axes.set(xlabel="year", ylabel="variation, ° east", xlim=(FIRST, LAST + ROOM))

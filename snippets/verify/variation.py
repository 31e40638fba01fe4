"""How the modelled variation at the example moves away from the variation of record."""

from functools import partial
from typing import Any

from lpv.core.course import magnetic_deg
from lpv.core.text import course, degrees, number, signed
from lpv.geodesy.magnetic import model_field, model_uncertainty_deg, model_variation_deg
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

YEARS = [2025 + half / 2 for half in range(11)]


def show() -> Shown:
    """The figure: the years that the model is made for."""
    approach = example()
    segment, of_record = approach.segment, approach.chart.variation_deg
    place = (segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.ltp_height_m)
    model = [model_variation_deg(*place, year) for year in YEARS]
    spread = model_uncertainty_deg(model_field(*place, YEARS[0]).horizontal_nt)
    rows = [
        (number(year), signed(value, "°", 0.01), course(magnetic_deg(approach.true_course_deg, value), 0.1))
        for year, value in zip(YEARS, model, strict=True) if year == int(year)
    ]
    return Shown(figure(
        "variation-figure", partial(draw, model, spread, of_record),
        finding=f"At the example the model moves from {signed(model[0], '°', 0.1)} in 2025 to "
        f"{signed(model[-1], '°', 0.1)} in 2030 (uncertain by {degrees(spread, 0.1)}); the chart's variation of "
        f"record stays at {signed(of_record, '°', 0.1)}.",
        headers=["year", "model variation", "magnetic final course"], rows=rows,
    ), {
        "first": Value.signed(model[0], "°", 1), "last": Value.signed(model[-1], "°", 1),
        "uncertainty": Value.of(spread, "°", 1),
    })


def draw(model: list[float], spread: float, of_record: float, axes: Any) -> None:
    """The model as a line in its band, the variation of record dashed."""
    axes.fill_between(YEARS, [v - spread for v in model], [v + spread for v in model], color=COLOURS["shade"])
    axes.plot(YEARS, model, color=COLOURS["first"])
    axes.axhline(of_record, color=COLOURS["answer"], linestyle="--")
    axes.annotate("of record", (YEARS[-1], of_record), xytext=(0, 4), textcoords="offset points", ha="right",
                  color=COLOURS["answer"])
    axes.annotate("model and its uncertainty", (0.03, 0.05), xycoords="axes fraction", color=COLOURS["first"])
    axes.set(xlabel="year", ylabel="variation, ° east", xlim=(YEARS[0], YEARS[-1] + 0.25))

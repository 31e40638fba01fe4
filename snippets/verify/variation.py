"""How the modelled variation at the example moves away from the variation of record."""

from lpv.core.course import magnetic_deg
from lpv.core.text import course, degrees, number, signed
from lpv.geodesy.magnetic import model_field, model_uncertainty_deg, model_variation_deg
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure

approach = example()
segment, of_record = approach.segment, approach.chart.variation_deg
YEARS = [2025 + half / 2 for half in range(11)]
place = (segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.ltp_height_m)
model = [model_variation_deg(*place, year) for year in YEARS]
spread = model_uncertainty_deg(model_field(*place, YEARS[0]).horizontal_nt)


def draw(axes):
    axes.fill_between(YEARS, [v - spread for v in model], [v + spread for v in model], color=COLOURS["shade"])
    axes.plot(YEARS, model, color=COLOURS["first"])
    axes.axhline(of_record, color=COLOURS["answer"], linestyle="--")
    axes.annotate(
        "of record",
        (YEARS[-1], of_record),
        xytext=(0, 4),
        textcoords="offset points",
        ha="right",
        color=COLOURS["answer"],
    )
    axes.annotate(
        "model and its uncertainty",
        (0.03, 0.05),
        xycoords="axes fraction",
        color=COLOURS["first"],
    )
    axes.set(xlabel="year", ylabel="variation, ° east", xlim=(YEARS[0], YEARS[-1] + 0.25))


rows = [
    (number(year), signed(value, "°", 0.01), course(magnetic_deg(approach.true_course_deg, value), 0.1))
    for year, value in zip(YEARS, model, strict=True)
    if year == int(year)
]
print(
    figure(
        "variation-figure",
        draw,
        finding=f"At the example the model moves from {signed(model[0], '°', 0.1)} in 2025 to "
        f"{signed(model[-1], '°', 0.1)} in 2030 (uncertain by {degrees(spread, 0.1)}); the chart's variation of "
        f"record stays at {signed(of_record, '°', 0.1)}.",
        headers=["year", "model variation", "magnetic final course"],
        rows=rows,
    )
)

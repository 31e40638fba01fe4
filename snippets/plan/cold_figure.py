"""What cold adds at the cold demo airport, against temperature: DA, PFAF and missed approach."""

from lpv.air.altimetry import table_addition_ft
from lpv.plan.cold import is_cold
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.text import quantity

cold = [case for case in cases() if is_cold(case.approach, case.scenario.flight.temperature_c)]
case = (cold or list(cases()))[0]
chart, now_c = case.approach.chart, case.scenario.flight.temperature_c
TEMPERATURES_C, NAMED_AT_C = range(-50, 16, 5), -45
heights = {chart.minima[0].kind: chart.minima[0].altitude_ft, "PFAF": case.approach.pfaf.altitude_ft or 0.0}
if chart.missed is not None:
    heights["missed approach"] = chart.missed.altitude_ft
above_ft = {name: min(5000.0, max(0.0, feet - chart.airport_elevation_ft)) for name, feet in heights.items()}


def draw(axes):
    def note(text, x, y, colour, **more):
        axes.annotate(text, (x, y), xytext=(6, 4), textcoords="offset points", color=COLOURS[colour], **more)

    for colour, (name, feet) in zip(("third", "first", "second"), above_ft.items(), strict=False):
        axes.plot(TEMPERATURES_C, [table_addition_ft(feet, t) for t in TEMPERATURES_C], color=COLOURS[colour])
        note(name, NAMED_AT_C, table_addition_ft(feet, NAMED_AT_C), colour)
        axes.plot(now_c, table_addition_ft(feet, now_c), "o", color=COLOURS["answer"])
        note(f"{table_addition_ft(feet, now_c):.0f} ft", now_c, table_addition_ft(feet, now_c), "answer", weight="bold")
    if chart.cold_temperature_airport_c is not None:
        axes.axvline(chart.cold_temperature_airport_c, color=COLOURS["ink"], linestyle="--", linewidth=1.2)
        axes.annotate("← at and below: correct", (chart.cold_temperature_airport_c, axes.get_ylim()[1] * 0.93),
                      xytext=(5, 0), textcoords="offset points", fontsize=8)
    axes.set(xlabel="airport, °C", ylabel="addition by the table, ft", xlim=(-50, 15), ylim=(0, None))


told = ", ".join(f"{table_addition_ft(feet, now_c):.0f} ft for the {name}" for name, feet in above_ft.items())
rows = [(quantity(t, "°C"), *(f"{table_addition_ft(feet, t):.0f} ft" for feet in above_ft.values()))
        for t in (0, -10, -20, -30, -40, -50)]
print(figure("cold-figure", draw, headers=["airport", *above_ft], rows=rows,
             finding="The colder the air and the higher above the airport, the more is added: at "
             f"{quantity(now_c, '°C')} {told}."))

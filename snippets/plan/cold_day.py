"""The altitudes of a cold day by both methods: the first cold scenario, all of its segments marked."""

from lpv.plan.cold import all_segments, individual_segments, is_cold
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity

for case in [case for case in cases() if is_cold(case.approach, case.scenario.flight.temperature_c)][:1]:
    flight, who = case.scenario.flight, case.approach.identity
    marked = flight.cold_segments or ("initial", "intermediate", "final", "missed")
    every = all_segments(case.approach, flight.temperature_c)
    single = {row.name: row for row in individual_segments(case.approach, flight.temperature_c, marked)}

    def cell(row):
        added_ft = row.addition_ft
        return "as charted" if added_ft is None else f"**{number(row.corrected_ft)}**<br>+{number(added_ft)}"

    print(
        f"{escape(who.airport)} {escape(who.title)} at {quantity(flight.temperature_c, '°C')}, in ft; "
        f"the list marks the {' and '.join(marked)} segments (invented):\n"
    )
    rows = [
        (f"{escape(row.name)} {number(row.charted_ft)}<br>{row.segment}", cell(row), cell(single[row.name]))
        for row in every
    ]
    print(table(["charted", "all segments", "individual segments"], rows))

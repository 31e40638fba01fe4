"""The United States alternate rule on the scenarios of the demo: needed, and may the one listed be it."""

from lpv.plan import alternate
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.text import escape


def told(ruling: alternate.Ruling, yes: str, no: str) -> str:
    reason = ruling.reason[:1].upper() + ruling.reason[1:]
    return f"**{yes if ruling.answer else no}**. {escape(f'{reason}. {ruling.rule}, {ruling.paragraph}')}."


for case in cases():
    if case.approach.identity.rule != "FAA":
        continue
    flight, listed = case.scenario.flight, case.scenario.alternate
    needed = alternate.alternate_needed(case.scenario.forecast, flight.eta)
    airport = escape(case.approach.identity.airport)
    print(f"**{airport}, ETA {flight.eta:%Y-%m-%d %H:%M} UTC**\n")
    print(f"- An alternate is {told(needed, 'needed', 'not needed')}")
    if listed is not None:
        baro = case.aircraft.equipment.baro_vnav == "approved"
        planned, refused = alternate.plannable_lines(listed.lines, baro)
        for row in refused:
            print(f"- {escape(listed.airport)}: {escape(row.reason)}.")
        for line in planned[:1]:
            ruling = alternate.alternate_allowed(
                listed.forecast, listed.eta, line, listed.printed_ceiling_ft, listed.printed_visibility_sm)
            answer = told(ruling, "may be listed", "may not be listed")
            print(f"- {escape(listed.airport)} at {listed.eta:%H:%M} UTC, planned on {escape(line.line)}, {answer}")
    print()

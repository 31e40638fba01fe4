"""The United States alternate rule on the scenarios of the demo: needed, and may the one listed be it."""

from lpv import alternate
from render.plan_sheet import cases
from render.table import stacked
from render.text import escape


def pairs(ruling: alternate.Ruling, words: tuple[str, str]) -> list[tuple[str, str]]:
    answer = words[0] if ruling.answer else words[1]
    return [("<b>answer</b>", f"<b>{answer}</b>"), ("because", escape(ruling.reason)),
            ("rule", escape(f"{ruling.rule}, {ruling.paragraph}"))]


for case in cases():
    if case.approach.identity.rule != "FAA":
        continue
    flight, listed = case.scenario.flight, case.scenario.alternate
    needed = alternate.alternate_needed(case.scenario.forecast, flight.eta)
    head = f"{escape(case.approach.identity.airport)} at {flight.eta:%Y-%m-%d %H:%M} UTC: alternate needed?"
    entries = [(head, pairs(needed, ("yes", "no")))]
    if listed is not None:
        baro = case.aircraft.equipment.baro_vnav == "approved"
        planned, refused = alternate.plannable_lines(listed.lines, baro)
        for line in planned[:1]:
            ruling = alternate.alternate_allowed(
                listed.forecast, listed.eta, line, listed.printed_ceiling_ft, listed.printed_visibility_sm)
            name = escape(listed.airport)
            found = pairs(ruling, ("it may be listed", "it may not be listed"))
            found += [(f"not on {row.line}", escape(row.reason)) for row in refused]
            entries.append((f"{name} at {listed.eta:%H:%M} UTC, planned on {escape(line.line)}", found))
    print(stacked(entries))

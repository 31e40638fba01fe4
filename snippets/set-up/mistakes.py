"""What the set-up check finds in the set-ups of the demo, one without and one with mistakes."""

from lpv import aircraft, approach, setup_file
from lpv.findings import by_gravity
from render.data import DOCS
from render.findings import finding_list, verdict
from render.text import escape


def indented(text: str) -> str:
    return "\n".join("    " + line for line in text.splitlines()) + "\n"


for found in setup_file.read_all(DOCS / "set-up"):
    chart = approach.read(DOCS / "approaches" / f"{found.common.approach}.toml")
    flown = aircraft.read(DOCS / "aircraft" / f"{found.common.aircraft}.toml")
    rows = by_gravity(setup_file.findings(found, chart, flown))
    print(f"{escape(found.common.name)}: **{verdict(rows)}**\n")
    stops = [row for row in rows if row.grave == "stop"]
    if stops:
        print(finding_list(stops))
    rest = [row for row in rows if row.grave in ("resolve", "note")]
    if rest:
        print(f'??? note "{len(rest)} more, to resolve or to note"\n\n{indented(finding_list(rest))}')

"""What the set-up check finds in the set-ups of the demo, one without and one with mistakes."""

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.findings import by_severity, verdict
from lpv.setup import file as setup_file
from lpv_site.department.data import DOCS
from lpv_site.text.findings import finding_list
from lpv_site.text.text import escape


def indented(text: str) -> str:
    return "\n".join("    " + line for line in text.splitlines()) + "\n"


for found in setup_file.read_all(DOCS / "set-up"):
    chart = approach.read(DOCS / "approaches" / f"{found.common.approach}.toml")
    flown = aircraft.read(DOCS / "aircraft" / f"{found.common.aircraft}.toml")
    rows = by_severity(setup_file.findings(found, chart, flown))
    print(f"{escape(found.common.name)}: **{verdict(rows)}**\n")
    stops = [row for row in rows if row.grade == "stop"]
    if stops:
        print(finding_list(stops))
    rest = [row for row in rows if row.grade in ("resolve", "note")]
    if rest:
        print(f'??? note "{len(rest)} more, to resolve or to note"\n\n{indented(finding_list(rest))}')

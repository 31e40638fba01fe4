"""The state left behind against what the next crew sees that touches neither selector nor radios."""

from lpv.aircraft.record import read_all
from lpv_site.department.data import DOCS
from lpv_site.pages.mode_tables import next_crew_table
from lpv_site.text.text import escape

for number, jet in enumerate(read_all(DOCS / "aircraft")[:3]):
    text = next_crew_table(jet.rules)
    if number == 0:
        print(f"{escape(jet.type.name)}:\n\n{text}")
    else:
        body = "\n".join("    " + line for line in text.splitlines())
        print(f'??? note "{escape(jet.type.name)}"\n\n{body}\n')

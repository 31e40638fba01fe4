"""What the set-up check finds in the set-ups of the demo, one without and one with mistakes."""

from textwrap import indent

from lpv.core.findings import by_severity, verdict
from lpv.setup.file import findings
from lpv_site.department.data import SetupCase, setups
from lpv_site.text.findings import finding_list
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape

REST = ("resolve", "not compared", "note")


def show() -> Shown:
    """Each set-up's verdict, its stops, and the rest folded."""
    return Shown("\n".join(_told(case) for case in setups()))


def _told(case: SetupCase) -> str:
    rows = by_severity(findings(*case))
    stops, others = ([row for row in rows if row.grade in grades] for grades in (("stop",), REST))
    text = f"{escape(case[0].common.name)}: **{verdict(rows)}**\n\n" + (finding_list(stops) if stops else "")
    if others:
        text += f'\n??? note "{len(others)} more"\n\n{indent(finding_list(others), "    ")}\n'
    return text

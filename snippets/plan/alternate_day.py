"""The alternate of every scenario of the demo, by the rules of its operator."""

from lpv.core.findings import Finding, by_severity
from lpv.plan import alternate
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.findings import MARKS
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape


def show() -> Shown:
    """One list a scenario: what was found, the most serious first."""
    blocks = []
    for case in cases():
        airport, eta = escape(case.approach.identity.airport), case.scenario.flight.eta
        lines = "".join(_line(finding) for finding in by_severity(list(alternate.findings(case))))
        blocks.append(f"**{airport}, ETA {eta:%Y-%m-%d %H:%M} UTC**\n\n{lines}")
    return Shown("\n".join(blocks))


def _line(finding: Finding) -> str:
    words = " ".join(part for part in (finding.about, finding.computed or finding.what) if part)
    return f"- {MARKS[finding.grade]} **{finding.grade}**: {escape(words)}. {escape(finding.why)}\n"

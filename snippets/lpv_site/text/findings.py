"""Findings of any cross-check, shown in words and shape first, colour second."""

from collections.abc import Iterable

from lpv.core.findings import Finding
from lpv_site.text.text import escape

MARKS = {"stop": "✕", "resolve": "?", "note": "i", "ok": "✓", "not compared": "…"}


def finding_list(findings: Iterable[Finding]) -> str:
    """Findings as stacked blocks, in the order given (see lpv.core.findings.by_severity)."""
    return f'<div class="hb-stack">{"".join(_block(finding) for finding in findings)}</div>\n'


def _block(finding: Finding) -> str:
    pairs = [
        ("chart", finding.chart),
        ("database", finding.database),
        ("computed", finding.computed),
    ]
    body = "".join(f"<div><dt>{label}</dt> <dd>{escape(text)}</dd></div>" for label, text in pairs if text)
    about = f" · {escape(finding.about)}" if finding.about else ""
    reason = f"<p>{escape(finding.why)}</p>" if finding.why else ""
    action = f"<p><b>{escape(finding.action)}</b></p>" if finding.action else ""
    return (
        f'<div class="hb-row hb-{finding.grade.replace(" ", "-")}"><p class="hb-row-head"><span class="hb-grade">'
        f'<span aria-hidden="true">{MARKS[finding.grade]}</span> {finding.grade}</span> '
        f"{escape(finding.what)}{about}</p><dl>{body}</dl>{reason}{action}</div>"
    )


"""Findings of any cross-check, shown in words and shape first, colour second."""

from collections.abc import Iterable, Sequence

from lpv.findings import Finding, counts
from render.text import escape

MARKS = {"stop": "✕", "resolve": "?", "note": "i", "ok": "✓"}


WORDS = {"stop": "stop", "resolve": "to resolve", "note": "note"}


def counted(number: int, word: str) -> str:
    """A number and its word: 1 note, 2 notes, 2 to resolve."""
    return f"{number} {word}" + ("s" if number != 1 and not word.startswith("to ") else "")


def verdict(findings: Sequence[Finding]) -> str:
    """One sentence: what the list asks for."""
    count = counts(list(findings))
    parts = [counted(count[grave], word) for grave, word in WORDS.items() if count[grave]]
    if count["stop"]:
        lead = "Do not fly it"
    elif count["resolve"]:
        lead = "Settle first"
    else:
        lead = "Nothing stops it"
    return f"{lead}: {', '.join(parts) or 'no difference'}; {counted(count['ok'], 'check')} agree."


def finding_list(findings: Iterable[Finding]) -> str:
    """Findings as stacked blocks, in the order given (see lpv.findings.by_gravity)."""
    return f'<div class="hb-stack">{"".join(_block(finding) for finding in findings)}</div>\n'


def _block(finding: Finding) -> str:
    pairs = [
        ("chart", finding.chart),
        ("database", finding.database),
        ("computed", finding.computed),
    ]
    body = "".join(f"<div><dt>{label}</dt><dd>{escape(text)}</dd></div>" for label, text in pairs if text)
    about = f" · {escape(finding.about)}" if finding.about else ""
    reason = f"<p>{escape(finding.why)}</p>" if finding.why else ""
    action = f"<p><b>{escape(finding.action)}</b></p>" if finding.action else ""
    return (
        f'<div class="hb-row hb-{finding.grave}"><p class="hb-row-head"><span class="hb-grave">'
        f'<span aria-hidden="true">{MARKS[finding.grave]}</span> {finding.grave}</span> '
        f"{escape(finding.what)}{about}</p><dl>{body}</dl>{reason}{action}</div>"
    )

"""What the cross-check finds in the damaged draft."""

from lpv.core.findings import by_severity, verdict
from lpv.crosscheck.check import crosscheck
from lpv_site.department.data import drafts
from lpv_site.text.findings import finding_list
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The verdict, then every finding that is not ok."""
    (draft,) = drafts()
    findings = by_severity(crosscheck(draft))
    listed = finding_list([finding for finding in findings if finding.grade != "ok"])
    return Shown(f"**{verdict(findings)}**\n\n{listed}")

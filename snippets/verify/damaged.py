"""What the crosscheck finds in the damaged draft."""

from lpv.core.findings import by_severity, verdict
from lpv.crosscheck.check import crosscheck
from lpv_site.department.data import drafts
from lpv_site.text.findings import finding_list

(draft,) = drafts()
found = by_severity(crosscheck(draft))
print(f"**{verdict(found)}**\n")
print(finding_list([finding for finding in found if finding.grade != "ok"]))

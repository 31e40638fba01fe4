"""What the crosscheck finds in the damaged draft."""

from lpv.crosscheck import crosscheck
from lpv.findings import by_gravity
from render.data import drafts
from render.findings import finding_list, verdict

(draft,) = drafts()
found = by_gravity(crosscheck(draft))
print(f"**{verdict(found)}**\n")
print(finding_list([finding for finding in found if finding.grave != "ok"]))

"""The published path altitudes of one real approach against both paths, from the check values."""

from lpv.core.text import number, quantity
from lpv_site.checks.checks import results
from lpv_site.pages.reference_pages import source_text
from lpv_site.text.table import table

APPROACH = "khwd"
checks = {result.case.id: result for result in results() if result.case.id.startswith(APPROACH)}
fixes = [name.split("-")[1] for name in checks if name.endswith("-barometric")]
rows, above_ft = [], {}
for fix in fixes:
    charted, straight = checks[f"{APPROACH}-{fix}-barometric"], checks[f"{APPROACH}-{fix}-straight"]
    above_ft[fix] = straight.computed - charted.computed
    rows.append(
        (
            fix.upper(),
            number(float(charted.case.expected)),
            number(charted.computed),
            number(straight.computed),
        )
    )
print("Altitudes in feet at the fixes of the final approach to runway 28L of KHWD:\n")
print(table(["fix", "published", "barometric path", "SBAS path"], rows))
print(f"Published values: {source_text(charted.case.source)}.\n")

values = {"excess": quantity(above_ft[fixes[-1]], "ft") + " above the charted altitude"}

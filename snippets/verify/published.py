"""The published path altitudes of one real approach against both paths, from the check values."""

from lpv.core.text import number, quantity
from lpv_site.checks.check_table import source_text
from lpv_site.checks.checks import load_cases, run
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

APPROACH = "khwd"


def show() -> Shown:
    """A row for each fix of the final approach."""
    checks = {case.id: run(case) for case in load_cases() if case.id.startswith(APPROACH)}
    fixes = [name.split("-")[1] for name in checks if name.endswith("-barometric")]
    pairs = {fix: (checks[f"{APPROACH}-{fix}-barometric"], checks[f"{APPROACH}-{fix}-straight"]) for fix in fixes}
    rows = [(fix.upper(), number(float(charted.case.expected)), number(charted.computed), number(straight.computed))
            for fix, (charted, straight) in pairs.items()]
    charted, straight = pairs[fixes[-1]]
    excess_ft = straight.computed - charted.computed
    return Shown(
        "Altitudes in feet at the fixes of the final approach to runway 28L of KHWD:\n\n"
        f"{table(['fix', 'published', 'barometric path', 'SBAS path'], rows)}\n"
        f"Published values: {source_text(charted.case.source)}.\n",
        {"excess": Value(excess_ft, "ft", quantity(excess_ft, "ft") + " above the charted altitude")})

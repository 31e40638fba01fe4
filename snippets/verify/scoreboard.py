"""The scoreboard of seeded mismatches: kind, effect, found by, grade."""

from itertools import groupby
from textwrap import indent

from lpv.core.text import quantity
from lpv_site.checks.mismatches import Outcome, counted, outcomes
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape


def effect(outcome: Outcome) -> str:
    """The effect of a mismatch on the flight: a size, or words."""
    case = outcome.case
    if case.effect is None:
        return escape(case.words)
    return quantity(case.effect, "°", 0.1) if case.unit == "deg" else quantity(case.effect, case.unit)


def row(outcome: Outcome) -> tuple[str, str, str]:
    """One mismatch: what was altered and what it does, by which finding it was found, and the grade."""
    case = outcome.case
    return (f"{escape(case.what)}<br><small>{effect(outcome)}; {case.base}</small>",
            escape(", ".join(outcome.found_by[:2])), f"**{outcome.grade}**")


def show() -> Shown:
    """Each mismatch under its kind; what is harmless as a count of what stayed quiet."""
    seeded = [outcome for outcome in outcomes() if outcome.case.grade]
    harmless = [outcome for outcome in outcomes() if not outcome.case.grade]
    quiet = [outcome for outcome in harmless if outcome.grade not in ("stop", "resolve")]
    tally = ", ".join(f"{count} {grade}" for grade, count in counted(seeded).items())
    head = f"**{len(seeded)} seeded mismatches: {tally}.**"
    parts = [f"{head} Of {len(harmless)} harmless ones {len(quiet)} stayed quiet.\n"]
    for kind, group in groupby(seeded, key=lambda outcome: outcome.case.kind):
        rows = [row(outcome) for outcome in group]
        listed = table(["altered", "found by", "grade"], rows, left=ALL_LEFT)
        parts.append(f'??? note "{kind}: {len(rows)}"\n\n{indent(listed, "    ")}')
    return Shown("\n".join(parts))

"""The limits of the cross-check: the one table that also does the checking."""

from lpv.core.text import fact_text
from lpv.crosscheck.limits import LIMITS
from lpv.facts import Fact
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked, table
from lpv_site.text.text import escape


def above(fact: Fact | None) -> str:
    """A limit in words, nothing where that grade has none."""
    return "" if fact is None else f"over {fact_text(fact)}"


def show() -> Shown:
    """A row for each difference that has limits, then the reasons."""
    limits = [(escape(limit.what), above(limit.note), above(limit.resolve), above(limit.stop)) for limit in LIMITS]
    reasons = stacked([(escape(limit.what), [("", escape(limit.reason))]) for limit in LIMITS])
    listed = table(["difference", "note", "resolve", "stop"], limits)
    return Shown(f'{listed}\n??? note "The reason for each limit"\n\n    {reasons}\n')

"""The limits of the crosscheck: the one table that also does the checking."""

from lpv.core.text import fact_text
from lpv.crosscheck.limits import LIMITS
from lpv_site.text.table import stacked, table
from lpv_site.text.text import escape


def above(fact):
    return "" if fact is None else f"over {fact_text(fact)}"


print(
    table(
        ["difference", "note", "resolve", "stop"],
        [
            (escape(limit.what), above(limit.note), above(limit.resolve), above(limit.stop))
            for limit in LIMITS
        ],
    )
)
print('??? note "The reason for each limit"\n')
reasons = stacked([(escape(limit.what), [("", escape(limit.reason))]) for limit in LIMITS])
print("    " + reasons)

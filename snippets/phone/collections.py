"""What of `collections` the phone's own lacks."""

from collections import OrderedDict, namedtuple

from phone.builtin import ordered

__all__ = ["Counter", "OrderedDict", "namedtuple"]


def Counter(rows):
    """How often each stands there, in the order of their first."""
    counts = ordered()
    for row in rows:
        counts[row] = counts.get(row, 0) + 1
    return counts

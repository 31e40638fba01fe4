"""What of `collections` the phone's own lacks."""

from collections import OrderedDict, namedtuple

from phone.builtin import ordered

__all__ = ["Counter", "OrderedDict", "namedtuple"]


def Counter(rows):  # type: ignore[no-untyped-def]  # noqa: N802  (the library's name)
    """How often each stands there, in the order of their first."""
    counts = ordered()
    for each in rows:
        counts[each] = counts.get(each, 0) + 1
    return counts

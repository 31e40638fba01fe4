"""Built-in functions that MicroPython lacks, and a dict that keeps its order: all that a module said anew may call."""

import builtins
from collections import OrderedDict, namedtuple

from phone.numbers import float, hypot, remainder, repr, said, str
from phone.texts import (
    capitalize,
    casefold,
    isalnum,
    isidentifier,
    isprintable,
    ljust,
    removeprefix,
    removesuffix,
    rjust,
    strip,
    title,
    zfill,
)

__all__ = [
    "RecursionError", "capitalize", "casefold", "float", "fromkeys", "hypot", "isalnum", "isidentifier", "isprintable",
    "ljust", "merged", "namedtuple", "ordered", "remainder", "removeprefix", "removesuffix", "repr", "rjust", "said",
    "stepped", "str", "strip", "title", "vars", "zfill", "zip",
]
RecursionError = RuntimeError  # as which MicroPython raises it


def ordered(*pairs, **named):
    """A dict of pairs, of another dict, or of names."""
    made = OrderedDict()
    for part in pairs:
        for key, value in part.items() if hasattr(part, "items") else part:
            made[key] = value
    for key in named:
        made[key] = named[key]
    return made


def merged(*parts):
    """Several dicts or rows of pairs as one."""
    return ordered(*parts)


def fromkeys(keys, value=None):
    """A dict with one value for all keys."""
    return ordered([(key, value) for key in keys])


def vars(made):
    """The attributes of an object; of a record its fields, in their order."""
    names = getattr(made, "FIELDS", None)
    if names is None:
        return ordered(made.__dict__)
    return ordered([(name, getattr(made, name)) for name in names])


def zip(*rows, strict=False):
    """Rows side by side; ValueError where they must be of one length and are not."""
    if strict:
        rows = tuple([list(row) for row in rows])
        if len({len(row) for row in rows}) > 1:
            raise ValueError("rows of different lengths")
    return builtins.zip(*rows)  # noqa: B905  (the phone knows no `strict`)


def stepped(row, start, stop, step):
    """row[start:stop:step], of a text, a list or a tuple."""
    length = len(row)
    forward = step > 0
    ends = []
    for end, none in ((start, 0 if forward else length - 1), (stop, length if forward else -1)):
        if end is None:
            ends.append(none)
        else:
            end = end + length if end < 0 else end
            ends.append(max(0, min(end, length)) if forward else max(-1, min(end, length - 1)))
    chosen = [row[place] for place in range(ends[0], ends[1], step)]
    return "".join(chosen) if isinstance(row, builtins.str) else tuple(chosen) if isinstance(row, tuple) else chosen

"""The functions of `itertools` that the cross-check takes."""


def pairwise(rows):
    """Each with the one after it."""
    kept = list(rows)
    return [(kept[place], kept[place + 1]) for place in range(len(kept) - 1)]


def accumulate(rows):
    """The sums up to each."""
    total, sums = 0, []
    for row in rows:
        total += row
        sums.append(total)
    return sums


def chain(*several):
    """One row after another."""
    return [row for rows in several for row in rows]


def combinations(rows, count):
    """Every choice of so many, in order."""
    kept = list(rows)
    if count == 0:
        return [()]
    return [(kept[place],) + tail for place in range(len(kept))  # noqa: RUF005
            for tail in combinations(kept[place + 1:], count - 1)]

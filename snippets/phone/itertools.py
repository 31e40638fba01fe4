"""The functions of `itertools` that the cross-check takes."""


def pairwise(rows):
    """Each with the one after it."""
    kept = list(rows)
    return [(kept[place], kept[place + 1]) for place in range(len(kept) - 1)]


def accumulate(rows):
    """The sums up to each."""
    total, sums = 0, []
    for each in rows:
        total += each
        sums.append(total)
    return sums


def chain(*several):
    """One row after another."""
    return [each for rows in several for each in rows]


def combinations(rows, count):
    """Every choice of so many, in order."""
    kept = list(rows)
    if count == 0:
        return [()]
    return [(kept[place],) + rest for place in range(len(kept))  # noqa: RUF005
            for rest in combinations(kept[place + 1:], count - 1)]

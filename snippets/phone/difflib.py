"""Words that resemble a word, as `difflib` finds them."""


def get_close_matches(word, among, n=3, cutoff=0.6):
    """The words most alike, the most alike first; of equals the later in the alphabet."""
    rows = [(ratio(candidate, word), candidate) for candidate in among]
    return [row[1] for row in sorted([row for row in rows if row[0] >= cutoff], reverse=True)[:n]]


def ratio(first, second):
    """Twice the signs that two words share, in blocks, beside the signs that they have."""
    total = len(first) + len(second)
    return 2.0 * _shared(first, second) / total if total else 1.0


def _shared(first, second):
    size, at, beside = 0, 0, 0
    for start in range(len(first)):
        for other in range(len(second)):
            length = 0
            while (start + length < len(first) and other + length < len(second)
                   and first[start + length] == second[other + length]):
                length += 1
            if length > size:
                size, at, beside = length, start, other
    if not size:
        return 0
    return size + _shared(first[:at], second[:beside]) + _shared(first[at + size:], second[beside + size:])

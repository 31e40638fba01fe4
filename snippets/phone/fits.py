"""What the parts of a pattern fit: functions (text, place, groups, then), see `phone.re`."""

WORD = [("0", "9"), ("a", "z"), ("A", "Z"), ("_", "_")]


def set_of(ranges, others, inside):
    def accepts(sign):
        for low, high in ranges:
            if low <= sign <= high:
                return inside
        for against in others:
            if not any(low <= sign <= high for low, high in against):
                return inside
        return not inside

    return accepts


def sign(accepts):
    def fits(text, place, groups, then):
        return place < len(text) and accepts(text[place]) and then(place + 1, groups)

    return fits


def end(text, place, groups, then):
    return (place == len(text) or (place == len(text) - 1 and text[place] == "\n")) and then(place, groups)


def border(text, place, groups, then):
    word = set_of(WORD, [], True)
    before = place > 0 and word(text[place - 1])
    after = place < len(text) and word(text[place])
    return before != after and then(place, groups)


def either(ways):
    def fits(text, place, groups, then):
        return any(alternative(text, place, groups, then) for alternative in ways)

    return fits


def row(parts):
    def fits(text, place, groups, then):
        def on(number, place, groups):
            if number == len(parts):
                return then(place, groups)
            return parts[number](text, place, groups, lambda end, captured: on(number + 1, end, captured))

        return on(0, place, groups)

    return fits


def signs(accepts, least, most, lazy):
    """One sign several times, without a call for each."""

    def fits(text, place, groups, then):
        count, limit = 0, min(most, len(text) - place)
        while count < limit and accepts(text[place + count]):
            count += 1
        tries = range(least, count + 1) if lazy else range(count, least - 1, -1)
        return any(then(place + times, groups) for times in tries)

    return fits


def often(inner, least, most, lazy):
    def fits(text, place, groups, then):
        def again(times, place, groups):
            if lazy and times >= least and then(place, groups):
                return True
            more = times < most and inner(
                text, place, groups,
                lambda end, captured: (end > place or times < least) and again(times + 1, end, captured))
            return bool(more) or (not lazy and times >= least and then(place, groups))

        return again(0, place, groups)

    return fits


def alone(inner):
    """What it takes first, it keeps."""

    def fits(text, place, groups, then):
        ends = []
        inner(text, place, groups, lambda end, some: ends.append((end, some)) or True)
        return bool(ends) and then(ends[0][0], ends[0][1])

    return fits


def kept(inner, number):
    def fits(text, place, groups, then):
        def closes(end, captured):
            kept = dict(captured)
            kept[number] = (place, end)
            return then(end, kept)

        return inner(text, place, groups, closes)

    return fits


def ahead(inner, expected):
    def fits(text, place, groups, then):
        return bool(inner(text, place, groups, lambda end, captured: True)) == expected and then(place, groups)

    return fits


def behind(inner, expected):
    def fits(text, place, groups, then):
        matches = any(inner(text, start, groups, lambda end, captured: end == place) for start in range(place, -1, -1))
        return matches == expected and then(place, groups)

    return fits

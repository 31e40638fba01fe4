"""Regular expressions, matched by trying: as `re` matches them, of what the modules of `lpv` ask for.

MicroPython's own know neither a count in braces nor what stands before or after a place.  Here a pattern becomes
functions (text, place, groups, then) that call `then(place, groups)` wherever they fit, until one says that all fits.
Taken are signs, sets, \\d \\w \\s \\b, groups with and without name, |, ? * + {n,m} with ? or + behind, ^ $ and what
must or must not stand before or after.  Of letters only those of ASCII are \\w.
"""

from phone import fits

ASCII = 0
MOST = 1000000
DIGITS = [("0", "9")]
SPACE = [(" ", " "), ("\t", "\r")]
SETS = {"d": (DIGITS, True), "D": (DIGITS, False), "w": (fits.WORD, True), "W": (fits.WORD, False), "s": (SPACE, True),
        "S": (SPACE, False)}
CONTROLS = {"n": "\n", "r": "\r", "t": "\t"}
SPECIAL = "\\.^$*+?{}[]|()-"


class Match:
    """Where a pattern fits: of the whole and of each group the text, None for a group that took no part."""

    def __init__(self, text, spans, names):
        self.text, self.spans, self.names = text, spans, names

    def span(self, group=0):
        """Where a group begins and ends; (-1, -1) for one that took no part."""
        return self.spans.get(self.names.get(group, group), (-1, -1))

    def start(self, group=0):
        """Where a group begins."""
        return self.span(group)[0]

    def end(self, group=0):
        """Where a group ends."""
        return self.span(group)[1]

    def __getitem__(self, group):
        start, end = self.span(group)
        return None if start < 0 else self.text[start:end]

    def group(self, *groups):
        """The text of a group, or of several."""
        texts = [self[group] for group in groups or (0,)]
        return texts[0] if len(texts) == 1 else tuple(texts)

    def groups(self):
        """The texts of all groups."""
        return tuple([self[number] for number in range(1, self.names[None] + 1)])


class Pattern:
    """A pattern that is ready to be tried."""

    def __init__(self, pattern):
        reader = _Reader(pattern)
        self.fits = reader.either()
        if reader.place < len(pattern):
            raise ValueError("a pattern that does not close: " + pattern)
        reader.names[None] = reader.count
        self.names = reader.names

    def _at(self, text, place, to_end):
        states = []

        def ends(end, groups):
            if to_end and end < len(text):
                return False
            states.append((end, groups))
            return True

        if not self.fits(text, place, {}, ends):
            return None
        end, groups = states[0]
        spans = dict(groups)
        spans[0] = (place, end)
        return Match(text, spans, self.names)

    def match(self, text):
        """Where it fits at the beginning."""
        return self._at(text, 0, False)

    def fullmatch(self, text):
        """Where it fits all of the text."""
        return self._at(text, 0, True)

    def search(self, text):
        """Where it fits first."""
        return next(self.finditer(text), None)

    def finditer(self, text):
        """Wherever it fits, one after another."""
        place = 0
        while place <= len(text):
            match_found = self._at(text, place, False)
            if match_found:
                yield match_found
            place = max(match_found.end(), place + 1 if match_found.end() == place else 0) if match_found else place + 1

    def findall(self, text):
        """The texts where it fits; of a pattern with groups, those of its groups."""
        rows = [[part or "" for part in hit.groups()] or [hit[0]] for hit in self.finditer(text)]
        return [row[0] if len(row) == 1 else tuple(row) for row in rows]

    def sub(self, instead, text):
        """The text with something else wherever it fits."""
        made, place = "", 0
        for hit in self.finditer(text):
            made += text[place:hit.start()] + (instead if isinstance(instead, str) else instead(hit))
            place = hit.end()
        return made + text[place:]


_ready = {}


def compile(pattern, flags=None):
    """A pattern, made ready once."""
    if isinstance(pattern, Pattern):
        return pattern
    if pattern not in _ready:
        _ready[pattern] = Pattern(pattern)
    return _ready[pattern]


def match(pattern, text, flags=None):
    """Where a pattern fits at the beginning of a text."""
    return compile(pattern).match(text)


def fullmatch(pattern, text, flags=None):
    """Where a pattern fits all of a text."""
    return compile(pattern).fullmatch(text)


def search(pattern, text, flags=None):
    """Where a pattern fits first."""
    return compile(pattern).search(text)


def finditer(pattern, text, flags=None):
    """Wherever a pattern fits."""
    return compile(pattern).finditer(text)


def findall(pattern, text, flags=None):
    """The texts where a pattern fits."""
    return compile(pattern).findall(text)


def sub(pattern, instead, text, flags=None):
    """A text with something else wherever a pattern fits."""
    return compile(pattern).sub(instead, text)


def escape(text):
    """A pattern that fits this text alone."""
    return "".join(["\\" + sign if sign in SPECIAL else sign for sign in text])


class _Reader:
    """Reads a pattern into functions."""

    def __init__(self, pattern):
        self.pattern, self.place, self.count, self.names = pattern, 0, 0, {}

    def next(self, sign):
        """Whether a text stands next; it is passed over."""
        if not self.pattern[self.place:].startswith(sign):
            return False
        self.place += len(sign)
        return True

    def take(self):
        """The sign that stands next; ValueError at the end."""
        if self.place >= len(self.pattern):
            raise ValueError("a pattern that ends too early: " + self.pattern)
        self.place += 1
        return self.pattern[self.place - 1]

    def either(self):
        """Ways side by side."""
        ways = [self.row()]
        while self.next("|"):
            ways.append(self.row())
        return ways[0] if len(ways) == 1 else fits.either(ways)

    def row(self):
        """One after another, up to | or a bracket that closes."""
        parts = []
        while self.place < len(self.pattern) and self.pattern[self.place] not in "|)":
            parts.append(self.counted())
        return fits.row(parts)

    def counted(self):
        """One part with how often it stands."""
        once, accepts = self.part()
        least, most = 1, 1
        if self.next("?"):
            least, most = 0, 1
        elif self.next("*"):
            least, most = 0, MOST
        elif self.next("+"):
            least, most = 1, MOST
        elif self.next("{"):
            end = self.pattern.find("}", self.place)
            low, comma, high = self.pattern[self.place:end].partition(",")
            self.place = end + 1
            least = int(low or 0)
            most = (int(high) if high else MOST) if comma else least
        else:
            return once
        lazy = self.next("?")
        alone = not lazy and self.next("+")
        often = fits.signs(accepts, least, most, lazy) if accepts else fits.often(once, least, most, lazy)
        return fits.alone(often) if alone else often

    def part(self):
        """(function, which signs it takes if it takes one)."""
        sign = self.take()
        if sign == "(":
            return self.group(), None
        if sign == "^":
            return (lambda text, place, groups, then: place == 0 and then(place, groups)), None
        if sign == "$":
            return fits.end, None
        if sign == "\\" and self.pattern[self.place] == "b":
            self.place += 1
            return fits.border, None
        if sign == "[":
            accepts = self.set()
        elif sign == ".":
            accepts = fits.set_of([("\n", "\n")], [], False)
        else:
            ranges, others = self.ranges_of(sign)
            accepts = fits.set_of(ranges, others, True)
        return fits.sign(accepts), accepts

    def ranges_of(self, sign):
        """The ranges that a sign stands for, and the ranges that it stands against."""
        if sign != "\\":
            return [(sign, sign)], []
        sign = self.take()
        if sign in SETS:
            ranges, inside = SETS[sign]
            return (ranges, []) if inside else ([], [ranges])
        sign = CONTROLS.get(sign, sign)
        return [(sign, sign)], []

    def set(self):
        """[a-z], behind its opening bracket."""
        inside, ranges, others, first = not self.next("^"), [], [], True
        while first or not self.next("]"):
            first = False
            some, against = self.ranges_of(self.take())
            following = self.pattern[self.place:self.place + 2]
            if len(following) > 1 and following[0] == "-" and following[1] != "]" and not against and len(some) == 1:
                self.place += 1
                end, _ = self.ranges_of(self.take())
                some = [(some[0][0], end[0][0])]
            ranges, others = ranges + some, others + against
        return fits.set_of(ranges, others, inside)

    def group(self):
        """A group, behind its opening bracket."""
        number = None
        look = ""
        for start in ("?:", "?<=", "?<!", "?=", "?!"):
            if not look and self.next(start):
                look = start
        if not look:
            self.count += 1
            number = self.count
            if self.next("?P<"):
                end = self.pattern.find(">", self.place)
                self.names[self.pattern[self.place:end]] = number
                self.place = end + 1
        inner = self.either()
        if not self.next(")"):
            raise ValueError("a group that does not close: " + self.pattern)
        if look in ("?=", "?!"):
            return fits.ahead(inner, look == "?=")
        if look in ("?<=", "?<!"):
            return fits.behind(inner, look == "?<=")
        return fits.kept(inner, number) if number else inner

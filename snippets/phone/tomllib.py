"""Reads TOML into tables: `tomllib.loads`, for a Python that has none.

All of TOML 1.0 but times of day: no data file of ours has one, so they are refused like anything else that is no
value.  What is no TOML raises ValueError with its line and column, in the form of the library's own.
"""

from datetime import date

from phone.builtin import float, ordered

BARE = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-"
ESCAPES = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", '"': '"', "\\": "\\"}
DEEPEST = 60
HEX = "0123456789abcdefABCDEF"


class TOMLDecodeError(ValueError):
    """What is no TOML."""


def loads(text):
    """The tables in a text, in the order written; ValueError with line and column for what is no TOML."""
    reader = _Reader(text.replace("\r\n", "\n"))
    return reader.document()


class _Reader:
    def __init__(self, text):
        self.text, self.at = text, 0
        self.whole = []  # tables in braces
        self.closed = []  # tables that a heading named
        self.rows = []  # lists that headings in double brackets made
        self.made = []  # tables that keys with points made, as part of the table around them

    def wrong(self, words):
        """The error at this place."""
        before = self.text[:self.at]
        line, column = before.count("\n") + 1, self.at - (before.rfind("\n") + 1) + 1
        return TOMLDecodeError(f"{words} (at line {line}, column {column})")

    def sign(self):
        return self.text[self.at:self.at + 1]

    def blanks(self, lines=False):
        """Passes over blanks; where `lines`, over ends of lines and comments too."""
        while True:
            while self.sign() and self.sign() in (" \t\n" if lines else " \t"):
                self.at += 1
            if self.sign() != "#":
                return
            self.comment()
            if not lines:
                return

    def comment(self):
        while self.sign() and self.sign() != "\n":
            if (self.sign() < " " and self.sign() != "\t") or self.sign() == "\x7f":
                raise self.wrong("a sign that cannot be seen")
            self.at += 1

    def expect(self, signs):
        if not self.text[self.at:self.at + len(signs)] == signs:
            raise self.wrong("expected " + repr(signs))
        self.at += len(signs)

    def document(self):
        root = ordered()
        table = root
        self.blanks(True)
        while self.sign():
            if self.sign() == "[":
                table = self.heading(root)
            else:
                self.pair(table)
            self.blanks()
            if self.sign() and self.sign() != "\n":
                raise self.wrong("expected the end of the line")
            self.blanks(True)
        return root

    def heading(self, root):
        double = self.text[self.at:self.at + 2] == "[["
        self.at += 2 if double else 1
        self.blanks()
        names = self.names()
        self.expect("]]" if double else "]")
        table = root
        for name in names[:-1]:
            table = self.inside(table, name)
        last = names[-1]
        if double:
            fresh = last not in table
            rows = table.setdefault(last, [])
            if fresh:
                self.rows.append(rows)
            if not _has(self.rows, rows):
                raise self.wrong("no list of tables: " + last)
            rows.append(ordered())
            return rows[-1]
        child = table.setdefault(last, ordered())
        if not hasattr(child, "items") or any(_has(among, child) for among in (
                self.whole, self.closed, self.made)):
            raise self.wrong("a table a second time: " + last)
        self.closed.append(child)
        return child

    def inside(self, table, name):
        """The table of this name; of a list, its last."""
        child = table.setdefault(name, ordered())
        if isinstance(child, list) and _has(self.rows, child):
            return child[-1]
        if not hasattr(child, "items") or _has(self.whole, child):
            raise self.wrong("no table to add to: " + name)
        return child

    def pair(self, table):
        names = self.names()
        self.expect("=")
        self.blanks()
        for name in names[:-1]:
            fresh = name not in table
            table = self.inside(table, name)
            if fresh:
                self.made.append(table)
            elif not _has(self.made, table):
                raise self.wrong("a table that stands elsewhere: " + name)
        if names[-1] in table:
            raise self.wrong("a key a second time: " + names[-1])
        table[names[-1]] = self.value(0)

    def names(self):
        """A key: names with points between."""
        keys = []
        while True:
            if self.sign() and self.sign() in "\"'":
                keys.append(self.line_of_text())
            else:
                start = self.at
                while self.sign() and self.sign() in BARE:
                    self.at += 1
                if start == self.at:
                    raise self.wrong("expected a key")
                keys.append(self.text[start:self.at])
            self.blanks()
            if self.sign() != ".":
                return keys
            self.at += 1
            self.blanks()

    def value(self, depth):
        if depth > DEEPEST:
            raise self.wrong("lists nested too deeply")
        sign = self.sign()
        if sign and sign in "\"'":
            return self.lines_of_text() if self.text[self.at:self.at + 3] == sign * 3 else self.line_of_text()
        if sign == "[":
            return self.list(depth)
        if sign == "{":
            return self.braces(depth)
        start = self.at
        while self.sign() and self.sign() not in " \t\n,]}#=":
            self.at += 1
        word = self.text[start:self.at]
        made = _plain(word)
        if made is None:
            self.at = start
            raise self.wrong("no value")
        return made

    def list(self, depth):
        self.at += 1
        items = []
        while True:
            self.blanks(True)
            if self.sign() == "]":
                self.at += 1
                return items
            items.append(self.value(depth + 1))
            self.blanks(True)
            if self.sign() == ",":
                self.at += 1
            elif self.sign() != "]":
                raise self.wrong("a list that does not close")

    def braces(self, depth):
        self.at += 1
        table = ordered()
        self.blanks()
        while self.sign() != "}":
            self.pair(table)
            self.blanks()
            if self.sign() == ",":
                self.at += 1
                self.blanks()
                if self.sign() == "}":
                    raise self.wrong("a comma with nothing behind it")
            elif self.sign() != "}":
                raise self.wrong("a table that does not close")
        self.at += 1
        self.whole.append(table)
        return table

    def line_of_text(self):
        return self.quoted(self.sign(), False)

    def lines_of_text(self):
        quote = self.sign() * 3
        if self.text[self.at + 3:self.at + 4] == "\n":
            self.at += 1  # a line that ends at once is none
        return self.quoted(quote, True)

    def quoted(self, quote, lines):
        self.at += len(quote)
        text = ""
        while True:
            if self.text[self.at:self.at + len(quote)] == quote:
                self.at += len(quote)
                for _ in range(2 if lines else 0):  # up to two quotes before the three that close
                    if self.sign() == quote[0]:
                        text += quote[0]
                        self.at += 1
                return text
            sign = self.sign()
            if not sign or (sign == "\n" and not lines) or (sign < " " and sign not in "\t\n") or sign == "\x7f":
                raise self.wrong("a text that does not close, or a sign that cannot be seen")
            if sign == "\\" and quote[0] == '"':
                text += self.escaped(lines)
            else:
                text += sign
                self.at += 1

    def escaped(self, lines):
        sign = self.text[self.at + 1:self.at + 2]
        if sign in ("u", "U"):
            count = 4 if sign == "u" else 8
            digits = self.text[self.at + 2:self.at + 2 + count]
            code = int(digits, 16) if len(digits) == count and all(digit in HEX for digit in digits) else 0xD800
            if 0xD800 <= code < 0xE000 or code > 0x10FFFF:
                raise self.wrong("no sign of that number")
            self.at += 2 + count
            return chr(code)
        if sign and sign in ESCAPES:
            self.at += 2
            return ESCAPES[sign]
        end = _past(self.text, self.at + 1, " \t")
        if not lines or self.text[end:end + 1] != "\n":
            raise self.wrong("no escape")
        self.at = _past(self.text, end, " \t\n")
        return ""


def _past(text, place, signs):
    """The first place that has none of these signs."""
    while place < len(text) and text[place] in signs:
        place += 1
    return place


def _has(several, item):
    return any(row is item for row in several)


def _plain(word):
    """A truth value, date or number; None for what is none."""
    if word in ("true", "false"):
        return word == "true"
    sign = word[1:] if word[:1] in ("+", "-") and word else word
    if sign in ("inf", "nan"):
        return float(word)
    for start, base in (("0x", 16), ("0o", 8), ("0b", 2)):
        if word.startswith(start):
            among = HEX if base == 16 else HEX[:base]
            return int(word[2:].replace("_", ""), base) if _digits(word[2:], among) else None
    parts = word.split("-")
    dated = [len(part) for part in parts] == [4, 2, 2] and "_" not in word
    if dated and all(_digits(part) for part in parts):
        try:
            return date(int(parts[0]), int(parts[1]), int(parts[2]))
        except ValueError:
            return None
    return _number(word, sign)


def _number(word, sign):
    mantissa, _, power = sign.replace("E", "e").partition("e")
    integer, point, part = mantissa.partition(".")
    if not _digits(integer) or (len(integer) > 1 and integer[0] == "0") or (point and not _digits(part)):
        return None
    if "e" in sign.replace("E", "e"):
        if not _digits(power[1:] if power[:1] in ("+", "-") and power else power):
            return None
    elif not point:
        return int(word.replace("_", ""))
    return float(word.replace("_", ""))


def _digits(text, among="0123456789"):
    """Whether a text is digits, with single _ between at most."""
    return all(part != "" and all(letter in among for letter in part) for part in text.split("_"))

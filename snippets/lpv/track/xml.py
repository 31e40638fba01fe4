"""A small reader of XML for tracks, the same on a computer and on a phone: bounded, and without what tracks never need.

No document type, no entities but the five of XML and numbers; a fault stops it, with its line.  It hands every element
on when it begins and when it ends, names without their prefix.
"""

from lpv.track.records import Faults, quoted

DEEPEST = 32
LONGEST_TAG = 4000
LONGEST_TEXT = 200
BLANKS = " \t\r\n"
ENTITIES = {"lt": "<", "gt": ">", "amp": "&", "quot": '"', "apos": "'"}
AGAIN = "Export the track again, or cut the approach out."
NAME_SIGNS = "._-:"


class Handler:
    """What a scanner hands its elements to."""

    def start(self, name: str, attributes: "dict[str, str]", line: int) -> None:
        """An element begins."""

    def end(self, name: str, text: str, line: int) -> None:
        """It ends; text: its own, between its last child and its end, cut to `longest(name)`."""

    def longest(self, name: str) -> int:
        """How many signs of an element's text are wanted."""
        return LONGEST_TEXT


class Scanner:
    """Goes through an XML text in pieces.  roots: names that the first element may have."""

    def __init__(self, text: str, roots: "tuple[str, ...]", handler: Handler, faults: Faults) -> None:
        self.text, self.roots, self.handler, self.faults = text, roots, handler, faults
        self.stopped = False
        self._at = self._counted = 0
        self._line = 1
        self._open: list[str] = []
        self._texts: list[str] = []
        self._ended = False

    def scan(self, tags: int) -> bool:
        """So many more tags; whether there are more of them."""
        return all(not self.stopped and self._next() for _ in range(tags))

    def line(self) -> int:
        """The line that is being read."""
        self._line += self.text.count("\n", self._counted, self._at) if self._at > self._counted else 0
        self._counted = max(self._counted, self._at)
        return self._line

    def refuse(self, actual: str, allowed: str, action: str = AGAIN) -> bool:
        """Note a fault here and stop."""
        self.faults.add(f"line {self.line()}", actual, allowed, action)
        self.stopped = True
        return False

    def _next(self) -> bool:
        """The next tag; False at the end, or after a fault."""
        begin = self.text.find("<", self._at)
        before = self.text[self._at : begin if begin >= 0 else len(self.text)]
        if not self._take_text(before):
            return False
        if begin < 0:
            self._at = len(self.text)
            return self._finish()
        self._at = begin
        if self.text[begin : begin + 4] == "<!--":
            return self._skip("-->", "a comment that does not end")
        if self.text[begin : begin + 9] == "<![CDATA[":
            return self._character_data(begin + 9)
        if self.text[begin : begin + 2] == "<?":
            return self._skip("?>", "an instruction that does not end")
        if self.text[begin : begin + 2] == "<!":
            return self.refuse("a document type", "no document type and no entities")
        return self._tag(begin)

    def _finish(self) -> bool:
        if self._open:
            self.refuse(f"the element {quoted(self._open[-1])} without its end", "every element with its end")
        elif not self._ended:
            self.refuse("no element", "well-formed XML")
        return False

    def _skip(self, end: str, missing: str) -> bool:
        at = self.text.find(end, self._at + 2)
        if at < 0:
            return self.refuse(missing, "well-formed XML")
        self._at = at + len(end)
        return True

    def _character_data(self, begin: int) -> bool:
        at = self.text.find("]]>", begin)
        if at < 0 or not self._open:
            return self.refuse("character data that do not end, or stand outside", "well-formed XML")
        self._add(self.text[begin:at])
        self._at = at + 3
        return True

    def _take_text(self, text: str) -> bool:
        if not self._open:
            if text.strip(BLANKS + "\ufeff"):
                self._at += len(text) - len(text.lstrip(BLANKS))
                return self.refuse(f"text outside of elements, {quoted(text.strip(BLANKS), 30)}", "elements alone")
            return True
        if "&" in text:
            plain = decoded(text)
            if plain is None:
                self._at += text.index("&")
                return self.refuse("an entity that XML does not have", "&lt; &gt; &amp; &quot; &apos; or a number")
            text = plain
        self._add(text)
        return True

    def _add(self, text: str) -> None:
        room = self.handler.longest(self._open[-1]) - len(self._texts[-1])
        if room > 0:
            self._texts[-1] += text[:room]

    def _tag(self, begin: int) -> bool:
        end = self._end_of_tag(begin + 1)
        if end < 0:
            return self.refuse("a tag that does not end", "well-formed XML")
        inside = self.text[begin + 1 : end]
        if inside[:1] == "/":
            return self._close(inside[1:].rstrip(BLANKS), end)
        alone = inside[-1:] == "/"
        body = inside[:-1] if alone else inside
        full = body.split(None, 1)[0] if body.strip(BLANKS) and body[:1] not in BLANKS else ""
        attributes = None if not is_name(full) else attributes_of(body[len(full) :])
        if attributes is None:
            return self.refuse(f"the tag {quoted('<' + inside + '>', 40)}", "a name, and attributes in quotes")
        if not self._begin(full, attributes):
            return False
        self._at = end + 1
        return self._leave(full) if alone else True

    def _end_of_tag(self, at: int) -> int:
        """Where the tag's > stands, outside of quotes; -1 without one, or too far away."""
        last = at + LONGEST_TAG
        quote = ""
        while at < len(self.text) and at < last:
            sign = self.text[at]
            if quote:
                at = self.text.find(quote, at)
                if at < 0:
                    return -1
                quote = ""
            elif sign in "\"'":
                quote = sign
            elif sign == ">":
                return at
            elif sign == "<":
                return -1
            at += 1
        return -1

    def _begin(self, full: str, attributes: "dict[str, str]") -> bool:
        name = local(full)
        if not self._open and self._ended:
            return self.refuse(f"a second element {quoted(name)}", "one element that holds all")
        if not self._open and name not in self.roots:
            return self.refuse(f"the element {quoted(name)}", f"a file that begins with the element {self.roots[0]}")
        if len(self._open) >= DEEPEST:
            return self.refuse(f"{DEEPEST + 1} elements one in the other", f"at most {DEEPEST}")
        self._open.append(full)
        self._texts.append("")
        self.handler.start(name, attributes, self.line())
        return not self.stopped

    def _close(self, full: str, end: int) -> bool:
        if not self._open or self._open[-1] != full:
            return self.refuse(f"the end of {quoted(full, 30)}", "the end of the element that is open")
        self._at = end + 1
        return self._leave(full)

    def _leave(self, full: str) -> bool:
        self._open.pop()
        text = self._texts.pop()
        self._ended = not self._open
        self.handler.end(local(full), text, self.line())
        return not self.stopped


def local(full: str) -> str:
    """A name without its prefix."""
    return full.rpartition(":")[2]


def is_name(text: str) -> bool:
    """Whether a text may be the name of an element or an attribute."""
    return bool(text) and not [sign for sign in text if not (sign.isalpha() or sign.isdigit() or sign in NAME_SIGNS)
                               and ord(sign) < 128] and not (text[0].isdigit() or text[0] in ".-")


def attributes_of(text: str) -> "dict[str, str] | None":
    """The attributes in a tag; None for what is none, or is there twice."""
    attributes: dict[str, str] = {}
    remainder = text.strip(BLANKS)
    while remainder:
        name, equals, remainder = remainder.partition("=")
        name, remainder = name.strip(BLANKS), remainder.lstrip(BLANKS)
        quote = remainder[:1]
        if not equals or not is_name(name) or quote not in ("'", '"') or name in attributes:
            return None
        value, closed, remainder = remainder[1:].partition(quote)
        plain = decoded(value.replace("\t", " ").replace("\r", " ").replace("\n", " "))
        if not closed or plain is None or "<" in value or (remainder and remainder[0] not in BLANKS):
            return None
        attributes[name] = plain
        remainder = remainder.lstrip(BLANKS)
    return attributes


def decoded(text: str) -> "str | None":
    """A text with its entities replaced; None for an entity that XML does not have by itself."""
    if "&" not in text:
        return text
    head, *parts = text.split("&")
    pieces = [head]
    for part in parts:
        name, ended, literal = part.partition(";")
        sign = ENTITIES.get(name) if ended else None
        if ended and name[:1] == "#":
            sign = _numbered(name[1:])
        if sign is None:
            return None
        pieces.append(sign + literal)
    return "".join(pieces)


def _numbered(text: str) -> "str | None":
    """The sign of a number, decimal or with an x hexadecimal; None for any other text."""
    try:
        number = int(text[1:], 16) if text[:1] == "x" else int(text)
    except ValueError:
        return None
    return chr(number) if 9 <= number < 0xD800 or 0xE000 <= number < 0x110000 else None

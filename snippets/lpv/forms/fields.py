"""The fields of a calculator: what may be typed into them, and how what was typed is read.

A field reads text, whoever typed it or sent it in a link, and raises DomainError with words for the reader.
"""

from lpv.core import airac
from lpv.core.errors import DataError, DomainError
from lpv.core.text import (
    MINUS,
    NARROW_SPACE,
    NOISE,
    course,
    field_number,
    number,
    places_of,
    quantity,
)
from lpv.fas.remainder import as_bytes

DIGITS = "0123456789"
SPACES = " \t\u00a0" + NARROW_SPACE
MAX_SHOWN = 40
# Parts a figure as the field shows it from the same figure with all its digits: what is computed is never rounded.
EXACT = "~"
MAX_DECIMALS = 4


class Field:
    """What all fields have.

    key:     the name of the function's argument
    label:   what stands beside it
    default: what it holds where nothing better is known, as text
    source:  the figure of an approach, an aircraft or the day that it begins with ("approach.glidepath_deg",
             "day.temperature_c"), "" if none
    group:   heading under which it stands with its neighbours, "" if none
    hint:    what may stand in it, in a few words
    kind:    "number", "choice", "text", "block" or "day"; the page draws each its own way
    longest: how many characters are read
    of_page: whether it is the page's own, which no link has to carry
    """

    of_page = False
    longest = 400
    kind = "text"
    hint = ""

    def __init__(self, key: str, label: str, default: str, source: str = "", group: str = "") -> None:
        self.key = key
        self.label = label
        self.default = default
        self.source = source
        self.group = group

    def read(self, text: str) -> "float | str":
        """What the text says; DomainError in words for the reader."""
        raise NotImplementedError

    def read_in(self, unit: str, text: str) -> "float | str":
        """As `read`, in a unit that is set beside the field; most fields have one unit alone."""
        return self.read(text)

    def show(self, value: "float | str") -> str:
        """What was read, as a sentence or a table prints it."""
        return str(value)

    def fill(self, value: "float | str") -> str:
        """A figure of an approach or aircraft as the field holds it; see `shown_part` for a number with more digits."""
        return str(value)


class Number(Field):
    """A number from `low` to `high`, both included; `step` is what it is printed to, and the table's step."""

    kind = "number"

    def __init__(
        self, key: str, label: str, unit: str, low: float, high: float, step: float, default: float,
        source: str = "", group: str = "",
    ) -> None:
        self.unit, self.low, self.high, self.step = unit, low, high, step
        self.hint = number_range(low, high, unit, step)
        super().__init__(key, label, field_number(default, step), source, group)

    def read(self, text: str) -> float:
        places = max(2, places_of(self.step))
        value = _exact(text, self.step) if EXACT in text else read_decimal(text, places, self.hint)
        if not self.low <= value <= self.high:
            raise DomainError(f"Found {shown_text(text)}; allowed: {self.hint}.")
        return value

    def show(self, value: "float | str") -> str:
        """With the decimals of the step, or with more if more were typed."""
        exact = [step for step in (self.step, 0.1, 0.01) if step <= self.step and _on_step(float(value), step)]
        return quantity(float(value), self.unit, exact[0] if exact else self.step)

    def fill(self, value: "float | str") -> str:
        shown = field_number(float(value), self.step)
        return shown if float(shown) == float(value) else shown + EXACT + repr(float(value))


class Course(Number):
    """A course of 0 to 360 degrees, printed in three digits, and with a tenth where the step is one."""

    def __init__(
        self, key: str, label: str, step: float, default: float, source: str = "", group: str = "",
    ) -> None:
        super().__init__(key, label, "deg", 0, 360, step, default, source, group)

    def show(self, value: "float | str") -> str:
        return course(float(value), 1 if self.step >= 1 else 0.1)


def shown_part(text: str) -> str:
    """What of a field's text is shown: a figure that has more digits than the field shows stands behind EXACT."""
    return text.split(EXACT)[0]


def _exact(text: str, step: float) -> float:
    """The number behind the one shown; DomainError unless it lies within a step of that."""
    shown, _, exact = text.partition(EXACT)
    try:
        value = float(exact)
    except ValueError:
        raise DomainError(f"Found {shown_text(text)}; allowed: a number.") from None
    if not abs(value - read_decimal(shown, MAX_DECIMALS, "a number")) <= step:
        raise DomainError(f"Found {shown_text(text)}; allowed: a number.")
    return value


def _on_step(value: float, step: float) -> bool:
    return abs(value / step - round(value / step)) < NOISE * 1000.0


def number_range(low: float, high: float, unit: str, step: float) -> str:
    """The range of a number in words: "60 to 250 kt"."""
    return f"{number(low, _step_of(low, step))} to {quantity(high, unit, _step_of(high, step))}"


def _step_of(end: float, step: float) -> float:
    return 1 if end == int(end) else step


def read_decimal(text: str, most_decimals: int, hint: str) -> float:
    """The number in a text, with a decimal point or a decimal comma; DomainError in words.

    More decimals than make sense are refused: "1,500" may be meant as fifteen hundred.
    """
    typed = "".join([c for c in text.replace(MINUS, "-") if c not in SPACES])
    if not typed:
        raise DomainError(f"Fill this in: {hint}.")
    sign, digits = (-1.0, typed[1:]) if typed[0] == "-" else (1.0, typed.lstrip("+") if typed[0] == "+" else typed)
    integer, _, decimals = digits.replace(",", ".").partition(".")
    if not integer + decimals or not all(c in DIGITS for c in integer + decimals) or len(integer) > 9:
        raise DomainError(f"Found {shown_text(text)}; allowed: a number, {hint}.")
    if len(decimals) > most_decimals:
        meant = "" if integer.strip("0") == "" else f" Write {integer}{decimals} if that is meant."
        raise DomainError(f"Found {shown_text(text)}; allowed: at most {most_decimals} decimals.{meant}")
    return sign * int(integer + decimals) / float(10 ** len(decimals)) + 0.0


def shown_text(text: str) -> str:
    """What was typed, short and on one line, for an error beside its field."""
    plain = "".join([c if 32 <= ord(c) < 127 or ord(c) > 159 else "?" for c in text]).strip()
    return (plain if len(plain) <= MAX_SHOWN else plain[:MAX_SHOWN] + "...") or "nothing"


class Choice(Field):
    """One of several options, each (value, label)."""

    kind = "choice"

    def __init__(
        self, key: str, label: str, options: "tuple[tuple[str, str], ...]", default: str, source: str = "",
        group: str = "",
    ) -> None:
        self.options = options
        super().__init__(key, label, default, source, group)

    def read(self, text: str) -> str:
        if text not in [value for value, _ in self.options]:
            raise DomainError("Choose one of these.")
        return text

    def show(self, value: "float | str") -> str:
        return dict(self.options)[str(value)]


class Word(Field):
    """Up to `most` capital letters and digits, as identifiers are; small letters count as capitals."""

    kind = "text"

    def __init__(self, key: str, label: str, most: int, default: str, source: str = "", group: str = "") -> None:
        self.most = most
        self.hint = f"up to {most} letters and digits"
        super().__init__(key, label, default, source, group)

    def read(self, text: str) -> str:
        typed = text.strip().upper()
        allowed = "ABCDEFGHIJKLMNOPQRSTUVWXYZ" + DIGITS
        if not 1 <= len(typed) <= self.most or not all(c in allowed for c in typed):
            raise DomainError(f"Found {shown_text(text)}; allowed: {self.hint}.")
        return typed


class Block(Field):
    """Bytes in hex, of a fixed number; white space and colons are passed over."""

    kind = "block"

    def __init__(self, key: str, label: str, size: int, default: str, source: str = "", group: str = "") -> None:
        self.size = size
        self.hint = f"{size} bytes: {2 * size} digits 0 to 9 and A to F, spaces as you like"
        super().__init__(key, label, default, source, group)

    def read(self, text: str) -> str:
        try:
            data = as_bytes(text)
        except DataError as error:
            raise DomainError(" ".join([f"Found {f.found}; allowed: {f.allowed}." for f in error.faults])) from None
        if len(data) != self.size:
            raise DomainError(f"Found {len(data)} bytes; allowed: {self.size} bytes. Copy the block again, whole.")
        return data.hex().upper()


class Day(Field):
    """A date, as YYYY-MM-DD; it is read as a day number (see `lpv.core.airac`)."""

    kind = "day"
    hint = "year-month-day"

    def read(self, text: str) -> float:
        try:
            return airac.from_iso(text.strip())
        except DomainError:
            raise DomainError(f"Found {shown_text(text)}; allowed: a date, such as 2026-07-09.") from None

    def show(self, value: "float | str") -> str:
        return airac.iso(int(value))


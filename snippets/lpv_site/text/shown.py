"""What a page script gives to its page: the Markdown to show, and the values that prose prints."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from lpv.core import text


@dataclass(frozen=True)
class Value:
    """A number as it was computed, its unit, and the text that prose prints of it."""

    number: float
    unit: str
    text: str

    @classmethod
    def of(cls, number: float, unit: str, places: int = 0) -> "Value":
        """A number printed with its unit, rounded to so many places in the text alone."""
        return cls(number, unit, text.quantity(number, unit, 10.0**-places))

    @classmethod
    def signed(cls, number: float, unit: str, places: int = 0) -> "Value":
        """The same with a plus sign where the number is positive."""
        return cls(number, unit, text.signed(number, unit, 10.0**-places))

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True)
class Shown:
    """The answer of a page script: its page prints the Markdown with `print(show())`, prose one of the values."""

    markdown: str = ""
    values: Mapping[str, Value | str] = field(default_factory=dict)

    def __str__(self) -> str:
        return self.markdown

    def number(self, key: str) -> float:
        """The number of a value, not rounded; TypeError where the value is words alone."""
        value = self.values[key]
        if isinstance(value, str):
            raise TypeError(f"values[{key!r}] is a text: {value!r}")
        return value.number

    def text(self, key: str) -> str:
        """What prose prints of a value."""
        return str(self.values[key])

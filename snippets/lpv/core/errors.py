"""Errors made for people: what was found, what is allowed, what to do."""

import math


class LpvError(ValueError):
    """Base of every error that this package raises on purpose."""


class DomainError(LpvError):
    """A number lies outside the range for which a function is defined."""


class NotOnThisDevice(LpvError):
    """What is asked needs data that the device at hand does not have."""


class Fault:
    """One thing wrong in a data file.

    file:    the file's name, or the name of the text given
    key:     the key, field or line in it, "" for the whole file
    found:   what stands there
    allowed: what may stand there
    action:  what to do about it
    line:    number of the line on which it stands, 0 where that is not known
    text:    that line, "" likewise
    """

    def __init__(
        self, file: str, key: str, found: str, allowed: str, action: str, line: int = 0, text: str = "",
    ) -> None:
        self.file = file
        self.key = key
        self.found = found
        self.allowed = allowed
        self.action = action
        self.line = line
        self.text = text

    def __str__(self) -> str:
        place = self.file + (": " + self.key if self.key else "")
        stands = f" Line {self.line}: {self.text}" if self.line else ""
        return f"{place}: found {self.found}; allowed: {self.allowed}. {self.action}{stands}"


def with_folder(folder: str, faults: "list[Fault]") -> "list[Fault]":
    """The same faults, their files named with the folder: a file of that name may lie in another one too."""
    return [fault if "/" in fault.file else Fault(f"{folder}/{fault.file}", fault.key, fault.found, fault.allowed,
                                                  fault.action, fault.line, fault.text) for fault in faults]


class DataError(LpvError):
    """One or more faults in data files, all reported at once (`.faults`)."""

    def __init__(self, faults: "list[Fault]") -> None:
        self.faults = list(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


def shown(value: object, limit: int = 60) -> str:
    """Any value as one short printable line, for an error message."""
    text = repr(value)
    text = "".join(c if c.isprintable() else "?" for c in text) if hasattr(text, "isprintable") else text
    return text if len(text) <= limit else text[: limit - 3] + "..."


def in_range(name: str, value: float, low: float, high: float, unit: str = "") -> float:
    """`value` if low <= value <= high, else DomainError; nan is never in range."""
    if not low <= value <= high:
        raise DomainError(
            f"{name}: found {value}{' ' + unit if unit else ''}; "
            f"allowed: {low} to {high}{' ' + unit if unit else ''}."
        )
    return value


def above(name: str, value: float, low: float, unit: str = "") -> float:
    """`value` if it is finite and greater than low, else DomainError."""
    if not low < value < math.inf:
        raise DomainError(
            f"{name}: found {value}{' ' + unit if unit else ''}; "
            f"allowed: more than {low}{' ' + unit if unit else ''}, finite."
        )
    return value

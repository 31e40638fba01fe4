"""The columns of an ARINC 424 record: layouts that account for every column, and how columns code values.

A layout names the columns that are read and those that are only reported where something stands in them
(`left_over`); together they are the whole record, which a test holds for every kind (`lpv.arinc.layouts`).

Source: ARINC Specification 424-18, as published records confirm it.
"""

import re
from dataclasses import dataclass, field
from functools import cached_property

from lpv.core.errors import Fault, shown
from lpv.fas.path_point_columns import RECORD_LENGTH, Column

FLIGHT_LEVEL = "FL"
FT_PER_LEVEL = 100


@dataclass(frozen=True)
class Layout:
    """One kind of record.

    name:    what it is, in words
    columns: those that are read
    rest:    those that are not, reported where they are not blank
    """

    name: str
    columns: tuple[Column, ...]
    rest: tuple[Column, ...] = field(default=())

    @cached_property
    def _tests(self) -> tuple[tuple[Column, "re.Pattern[str]"], ...]:
        return tuple((column, re.compile(column.pattern, re.ASCII)) for column in self.columns)

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The names of the columns that are read."""
        return tuple(column.name for column in self.columns)

    def texts(self, line: str, file: str, place: str) -> tuple[dict[str, str], list[Fault]]:
        """The texts of the columns without the blanks behind, and every fault of the record."""
        if len(line) != RECORD_LENGTH:
            length, allowed = f"{len(line)} columns", f"{RECORD_LENGTH} columns in a record"
            return {}, [Fault(file, place, length, allowed, "Get the file again.")]
        texts, faults = {}, []
        for column, pattern in self._tests:
            text = line[column.first - 1 : column.last]
            texts[column.name] = text.rstrip()
            if not pattern.fullmatch(text):
                faults.append(Fault(
                    file, f"{place}, {column.place()}", shown(text), column.allowed, "Get the file again."))
        return texts, faults

    def left_over(self, line: str) -> list[tuple[Column, str]]:
        """The columns that are not read and not blank, with what stands in them."""
        return [(column, text) for column in self.rest if (text := column.text(line)).strip()]


def angle_deg(text: str) -> float:
    """Degrees, north and east positive, of a latitude or longitude (N37300471) in hundredths of an arc second.

    Domain: a text that the column's pattern allows.
    """
    units = (int(text[1:-6]) * 60 + int(text[-6:-4])) * 6000 + int(text[-4:])
    return (-units if text[0] in "SW" else units) / 360000.0 + 0.0


def variation_deg(text: str) -> float:
    """A variation, east positive, of E0150 or W0123 in tenths of a degree; 0 for an airport in true degrees (T)."""
    if text[0] == "T":
        return 0.0
    return (int(text[1:]) if text[0] == "E" else -int(text[1:])) / 10.0 + 0.0


def course_deg(text: str) -> tuple[float, bool] | None:
    """(course in degrees, whether it is true) of 2849 (0.1 degree magnetic) or 299T; None for blanks."""
    if not text:
        return None
    return (float(text[:-1]), True) if text.endswith("T") else (int(text) / 10.0, False)


def distance_nm(text: str) -> float | None:
    """A distance in NM of 0028; None for blanks, and for a time (T010)."""
    return int(text) / 10.0 if re.fullmatch(r"\d{4}", text, re.ASCII) else None


def time_min(text: str) -> float | None:
    """A time in minutes of T010 (tenths); None for anything else."""
    return int(text[1:]) / 10.0 if text.startswith("T") else None


def altitude_ft(text: str) -> int | None:
    """An altitude in ft of 02126 or -0012; None for blanks, flight levels and unknown ones."""
    return int(text) if re.fullmatch(r"\d{5}|-\d{4}", text, re.ASCII) else None


def level_ft(text: str) -> int | None:
    """The altitude in ft that a flight level (FL180) stands for at standard pressure; None for anything else."""
    return int(text[2:]) * FT_PER_LEVEL if re.fullmatch(r"FL\d{3}", text, re.ASCII) else None


def rnp_nm(text: str) -> float | None:
    """A required navigation performance in NM of 031: two digits, times ten to the minus third; None for blanks.

    Source: ARINC 424, field 5.211; 010 and 031 on published records are 1.0 and 0.3 NM.
    """
    return int(text[:2]) / 10.0 ** int(text[2]) if text else None


def angle_coded_deg(text: str) -> float | None:
    """A vertical angle in degrees, descent negative, of -310; None for blanks and for zero, which means none."""
    return None if not text.strip() or int(text) == 0 else int(text) / 100.0

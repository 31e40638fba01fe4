"""AIRAC data cycles: number, effective and expiry date for any day.

Days are counted as proleptic Gregorian ordinals (1 January of year 1 is day 1, as in Python's
`datetime.date.toordinal`), with the calendar computed here so that the phone runs the same code.
Everything is counted from one published date, the fact `airac_reference_date` (cycle 2003); that a cycle
lasts 28 days and is numbered through the year of its effective date is practice of the trade.

On the changeover day itself the new cycle is the one in force here.  The hour of the change is not part of
this module: by FAA practice it is 0901 UTC (from memory), so before that hour the old cycle still holds.
"""

from lpv.core.errors import DomainError, in_range, shown
from lpv.facts import fact, value

CYCLE_DAYS = int(value("airac_cycle_days"))
FIRST_YEAR = int(value("airac_first_year"))
LAST_YEAR = FIRST_YEAR + 99  # two digits tell a hundred years apart
DAYS_BEFORE_MONTH = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)


def _leap(year: int) -> bool:
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


def _month_days(year: int, month: int) -> int:
    return (31, 29 if _leap(year) else 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)[month - 1]


def ordinal(year: int, month: int, day: int) -> int:
    """Day number of a date; DomainError unless it is a date of the years 1 to 9999, of a month 1 to 12."""
    in_range("year", year, 1, 9999)
    in_range("month", month, 1, 12)
    in_range("day of the month", day, 1, _month_days(year, month))
    before = year - 1
    leap_days = before // 4 - before // 100 + before // 400
    after_february = 1 if month > 2 and _leap(year) else 0
    return before * 365 + leap_days + DAYS_BEFORE_MONTH[month - 1] + after_february + day


def calendar_date(day_ordinal: int) -> "tuple[int, int, int]":
    """(year, month, day) of a day number, 1 to 3652059; DomainError outside: the years 1 to 9999."""
    in_range("day number", day_ordinal, 1, 3652059)
    year = day_ordinal // 366 + 1  # at most right, never too late
    while year < 9999 and ordinal(year + 1, 1, 1) <= day_ordinal:
        year += 1
    month = 12
    while ordinal(year, month, 1) > day_ordinal:
        month -= 1
    return year, month, day_ordinal - ordinal(year, month, 1) + 1


def iso(day_ordinal: int) -> str:
    """The day as "YYYY-MM-DD"; DomainError outside the years 1 to 9999."""
    year, month, day = calendar_date(day_ordinal)
    return f"{year:04d}-{month:02d}-{day:02d}"


def from_iso(text: str) -> int:
    """Day number of "YYYY-MM-DD"; DomainError for any other text and for a day that does not exist."""
    parts = text.split("-") if isinstance(text, str) else []
    if [len(part) for part in parts] != [4, 2, 2] or not all(_digits(part) for part in parts):
        raise DomainError(f"date: found {shown(text)}; allowed: YYYY-MM-DD, for example 2026-07-09.")
    return ordinal(int(parts[0]), int(parts[1]), int(parts[2]))


def _digits(text: str) -> bool:
    return all(character in "0123456789" for character in text)


REFERENCE_ORDINAL = from_iso(str(fact("airac_reference_date").value))


class Cycle:
    """One AIRAC cycle.

    ident:      its number, "2003" for the third of 2020
    effective:  the first day on which it holds (day number)
    expiry:     the day on which the next one takes over (day number), the end date that charts print
    """

    def __init__(self, ident: str, effective: int) -> None:
        self.ident = ident
        self.effective = effective
        self.expiry = effective + CYCLE_DAYS

    @property
    def held(self) -> str:
        """When it is in force, in words: from its first day to its last, both included."""
        return f"from {iso(self.effective)} to {iso(self.expiry - 1)}"

    def __repr__(self) -> str:
        return f"Cycle({self.ident}, {self.held})"


def _first_of_year(year: int) -> int:
    """Day number of the first effective date in a year."""
    new_year = ordinal(year, 1, 1)
    return new_year + (REFERENCE_ORDINAL - new_year) % CYCLE_DAYS


FIRST_ORDINAL = _first_of_year(FIRST_YEAR)
LAST_ORDINAL = _first_of_year(LAST_YEAR + 1) - 1


def cycle_at(day_ordinal: int) -> Cycle:
    """The cycle in force on a day.

    DomainError outside the cycles numbered in 1998 to 2097: a number has two digits for the year.
    """
    effective = day_ordinal - (day_ordinal - REFERENCE_ORDINAL) % CYCLE_DAYS
    if not FIRST_ORDINAL <= day_ordinal <= LAST_ORDINAL:
        raise DomainError(
            f"date: found day {day_ordinal}; allowed: {iso(FIRST_ORDINAL)} to {iso(LAST_ORDINAL)}, "
            f"the cycles whose two-digit years are {FIRST_YEAR} to {LAST_YEAR}."
        )
    year = calendar_date(effective)[0]
    number = (effective - _first_of_year(year)) // CYCLE_DAYS + 1
    return Cycle(f"{year % 100:02d}{number:02d}", effective)


def following(ident: str, count: int) -> "list[Cycle]":
    """A cycle and those after it, `count` of them, 1 to 200; DomainError as for `cycle`."""
    in_range("cycles", count, 1, 200)
    first = cycle(ident).effective
    return [cycle_at(first + number * CYCLE_DAYS) for number in range(count)]


def cycle_ident(day_ordinal: int) -> str:
    """Number of the cycle in force on a day ("2003"); domain as cycle_at."""
    return cycle_at(day_ordinal).ident


def is_effective_date(day_ordinal: int) -> bool:
    """Whether a new cycle takes effect on this day; domain as cycle_at."""
    return cycle_at(day_ordinal).effective == day_ordinal


def cycles_in_year(year: int) -> int:
    """How many cycles take effect in a year, 13 or 14; DomainError outside 1998 to 2097."""
    in_range("year", year, FIRST_YEAR, LAST_YEAR)
    return (_first_of_year(year + 1) - _first_of_year(year)) // CYCLE_DAYS


def cycle(ident: str) -> Cycle:
    """The cycle with a number like "2003"; DomainError for any other text or a number that year lacks."""
    if not isinstance(ident, str) or len(ident) != 4 or not _digits(ident):
        raise DomainError(f"cycle number: found {shown(ident)}; allowed: four digits, for example 2003.")
    year = FIRST_YEAR + (int(ident[:2]) - FIRST_YEAR) % 100
    number = in_range(f"cycle number {ident}: cycle of {year}", int(ident[2:]), 1, cycles_in_year(year))
    return Cycle(ident, _first_of_year(year) + (int(number) - 1) * CYCLE_DAYS)


def effective_ordinal(ident: str) -> int:
    """First day of a cycle (day number); domain as cycle."""
    return cycle(ident).effective


def expiry_ordinal(ident: str) -> int:
    """The day on which a cycle ends and the next takes over (day number); domain as cycle."""
    return cycle(ident).expiry


def in_force(ident: str, day_ordinal: int) -> bool:
    """Whether a cycle is the one in force on a day; domain as cycle."""
    dates = cycle(ident)
    return dates.effective <= day_ordinal < dates.expiry

"""What a recorded flight is: samples, remarks, the faults of a file, and the numbers and times in its texts."""

from lpv.core import airac
from lpv.core.errors import DataError, DomainError, Fault

# What an altitude may count from.  GNSS gives the first two, an altimeter the others.
GEOMETRIC = ("msl", "ellipsoid")
BAROMETRIC = ("indicated", "pressure")
REFERENCES = GEOMETRIC + BAROMETRIC
JOINED = ("procedure", "vectors")
RECEIVERS = ("GNSS", "SBAS")  # what computed the recorded positions: without corrections unless stated
IN_WORDS = {
    "msl": "above mean sea level, by GNSS",
    "ellipsoid": "above the ellipsoid, by GNSS",
    "indicated": "as indicated by the altimeter",
    "pressure": "pressure altitude",
}
LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT = -2000.0, 60_000.0
MAX_FAULTS = 20  # of one file that are told one by one


class Reading:
    """One sample as it stands in the file.

    line:         where it stands
    time_s:       seconds, from whatever the file counts
    geometric_ft: altitude by GNSS, barometric_ft: altitude by an altimeter; each in the reference that the
                  recording names, None where the sample has none
    begins:       whether the file itself says that a new part begins here
    """

    def __init__(
        self, line: int, time_s: float, latitude_deg: float, longitude_deg: float,
        geometric_ft: "float | None" = None, barometric_ft: "float | None" = None, begins: bool = False,
    ) -> None:
        self.line, self.time_s, self.latitude_deg, self.longitude_deg = line, time_s, latitude_deg, longitude_deg
        self.geometric_ft, self.barometric_ft, self.begins = geometric_ft, barometric_ft, begins


class Remark:
    """Something about a recording that its reader must know.

    key:  what kind: see the headings of docs/reference/recordings.md
    what: in words;  lines: of the file that it is about, the first ones
    """

    def __init__(self, key: str, what: str, lines: "tuple[int, ...]" = ()) -> None:
        self.key, self.what, self.lines = key, what, lines


class Recording:
    """A recorded flight as it stands in a file.

    geometric, barometric: the references of its altitudes, "" where it has none of that kind
    decimals: how many decimals of a degree its positions are given to, zeros at the end not always written
    steady:   whether its times were spread by distance, for want of others: no rate follows from them
    """

    def __init__(
        self, name: str, geometric: str, barometric: str, readings: "tuple[Reading, ...]", decimals: int,
        remarks: "tuple[Remark, ...]" = (), steady: bool = False,
    ) -> None:
        self.name, self.geometric, self.barometric = name, geometric, barometric
        self.readings, self.decimals, self.remarks, self.steady = readings, decimals, remarks, steady


class Conditions:
    """What a recording cannot say by itself.

    temperature_c: at the airport; None: taken as standard, and said
    qnh_hpa:       altimeter setting, needed for pressure altitudes
    joined:        one of JOINED, which decides the course scale outside the PFAF
    minimum_ft:    decision altitude used; None: the chart's, and the operator's where an aircraft is given
    number:        which approach of the recording, from 1; None: the last
    receiver:      one of RECEIVERS, which decides how far heights by GNSS can be believed
    level:         flown, a key of `lpv.track.target.LEVELS`; "": the best that the approach is made for
    limit_dots, limit_fpm: the reader's own limits of deviation and of the rate of descent; None: those of the gates
    """

    def __init__(
        self, temperature_c: "float | None" = None, qnh_hpa: "float | None" = None, joined: str = JOINED[0],
        minimum_ft: "float | None" = None, number: "int | None" = None, receiver: str = RECEIVERS[0],
        level: str = "", limit_dots: "float | None" = None, limit_fpm: "float | None" = None,
    ) -> None:
        self.temperature_c, self.qnh_hpa, self.joined = temperature_c, qnh_hpa, joined
        self.minimum_ft, self.number, self.receiver = minimum_ft, number, receiver
        self.level, self.limit_dots, self.limit_fpm = level, limit_dots, limit_fpm


class Faults:
    """Faults of one file, collected: the first ones in full, all of them counted."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.count = 0
        self._first: list[Fault] = []

    def add(self, key: str, actual: str, allowed: str, action: str) -> None:
        """One more fault."""
        self.count += 1
        if len(self._first) < MAX_FAULTS:
            self._first.append(Fault(self.file, key, actual, allowed, action))

    def error(self) -> DataError:
        """A DataError with the faults found so far."""
        more = self.count - len(self._first)
        remaining = [Fault(self.file, "", f"{more} more faults", "none", "Correct the first ones and try again.")]
        return DataError(self._first + (remaining if more else []))

    def stop(self) -> None:
        """DataError with the faults found so far, if there are any."""
        if self.count:
            raise self.error()


def refuse(file: str, actual: str, allowed: str, action: str, key: str = "") -> DataError:
    """A DataError with one fault of a whole file."""
    return DataError([Fault(file, key, actual, allowed, action)])


MAX_WHOLE, MAX_DECIMALS = 13, 15  # digits before and after the point
POWERS = tuple([float(10**places) for places in range(MAX_DECIMALS + 1)])
MAX_DIGITS = 15  # that a floating point number holds whatever they are; others are left out
LONGEST_TIME = 40
DAY_S = 86400
FIRST_DAY = airac.from_iso("1970-01-01")
MAX_SHOWN = 60
ESCAPES = {"\n": "\\n", "\r": "\\r", "\t": "\\t", "\\": "\\\\"}
KNOWN = [("1970-01-01", 0)]
LETTERS = "\u00c0", "\u024f"  # the first and the last letter beyond ASCII that is shown as it is


def quoted(text: str, limit: int = MAX_SHOWN) -> str:
    """A text of a file as one short printable line in quotes, for an error message."""
    mark = '"' if "'" in text and '"' not in text else "'"
    shown = "".join([_shown(sign, mark) for sign in text[: limit + 1]])
    quotation = mark + shown + mark
    return quotation if len(quotation) <= limit and len(text) <= limit else quotation[: limit - 3] + "..."


def printable(text: str, limit: int = 200) -> str:
    """A text as one short printable line, without quotes."""
    shown = "".join([sign if _shown(sign, "") == sign or sign == "\\" else "?" for sign in text[: limit + 1]])
    return shown if len(shown) <= limit else shown[: limit - 3] + "..."


def _shown(sign: str, mark: str) -> str:
    if sign in ESCAPES:
        return ESCAPES[sign]
    if sign == mark:
        return "\\" + sign
    return sign if " " <= sign <= "~" or LETTERS[0] <= sign <= LETTERS[1] else "?"


def is_digits(text: str) -> bool:
    """Whether a text is one or more of the digits 0 to 9, and nothing else."""
    return text.isdigit() and len(text.encode()) == len(text)


def number(text: str) -> "float | None":
    """The decimal number that a text is; None for any other text, exponents among them."""
    sign, digits = (-1.0, text[1:]) if text[:1] == "-" else (1.0, text[1:] if text[:1] == "+" else text)
    integer, _, decimals = digits.partition(".")
    if not is_digits(integer) or len(integer) > MAX_WHOLE or len(decimals) > MAX_DECIMALS:
        return None
    if decimals and not is_digits(decimals):
        return None
    if len(integer) + len(decimals) > MAX_DIGITS:
        decimals = decimals[: max(0, MAX_DIGITS - len(integer.lstrip("0")))]
    return sign * int(integer + decimals) / POWERS[len(decimals)] + 0.0


def utc_s(text: str, place: str, faults: Faults, without_zone: bool = False) -> float:
    """Seconds since 1970 of an ISO 8601 time with Z or an offset; 0 and a fault at this place for anything else.

    without_zone: whether one without either is taken as it stands
    """
    seconds = seconds_since_1970(text, without_zone) if len(text) <= LONGEST_TIME else None
    if seconds is None:
        faults.add(f"{place}, time", quoted(text), "2026-12-01T10:00:00Z, or with an offset", "Correct the time.")
    return seconds or 0.0


def seconds_since_1970(text: str, without_zone: bool = False) -> "float | None":
    """The same of "2026-12-01T10:00:00Z", "20261201T100000.5+0200" and their like; None for any other text."""
    if text[8:9] == "T":
        day, clock_text = f"{text[:4]}-{text[4:6]}-{text[6:8]}", text[9:]
    elif text[10:11] == "T" or text[10:11] == " ":
        day, clock_text = text[:10], text[11:]
    else:
        return None
    clock, offset_s = _offset(clock_text)
    if offset_s is None and without_zone:
        offset_s = 0
    seconds, days = clock_s(clock), _days(day.replace("/", "-"))
    if days is None or seconds is None or offset_s is None:
        return None
    return float(days * DAY_S - offset_s) + seconds


def clock_s(text: str) -> "float | None":
    """Seconds of "10:00", "10:00:00.5", "1000" and "100000"; None for any other text."""
    clock, _, decimals = text.replace(",", ".").partition(".")
    seconds = _clock_s(clock)
    if seconds is None or (decimals and not is_digits(decimals)):
        return None
    return (seconds * 1e6 + int((decimals + "000000")[:6])) / 1e6 if decimals else float(seconds)


def _days(text: str) -> "int | None":
    """Days since 1970 of a date; the last one is remembered, since a recording has few."""
    if KNOWN[0][0] != text:
        try:
            KNOWN[0] = (text, airac.from_iso(text) - FIRST_DAY)
        except DomainError:
            return None
    return KNOWN[0][1]


def _offset(text: str) -> "tuple[str, int | None]":
    """The clock without its offset, and the offset (s); None as the offset where there is none that can be read."""
    if text[-1:] == "Z":
        return text[:-1], 0
    for sign, turn in (("+", 1), ("-", -1)):
        clock, separator, offset = text.partition(sign)
        if separator:
            seconds = _clock_s(offset if len(offset) > 2 else offset + ":00")
            return clock, None if seconds is None else turn * seconds
    return text, None


def _clock_s(text: str) -> "int | None":
    """Seconds of "10:00", "10:00:00", "1000" and "100000"; None for any other text."""
    digits = text
    if text[2:3] == ":":
        digits = text[:2] + text[3:5] + (text[6:] if text[5:6] == ":" else "x" if len(text) > 5 else "")
    if len(digits) not in (4, 6) or not is_digits(digits):
        return None
    hours, minutes, seconds = int(digits[:2]), int(digits[2:4]), int(digits[4:] or "0")
    return hours * 3600 + minutes * 60 + seconds if hours < 24 and minutes < 60 and seconds < 60 else None

"""A notice (NOTAM) taken apart: number, places, times, area, and the text that says what it is about.

Two forms are read: the domestic form of the FAA (`!XYZ 06/012 XYZ NAV ... 2606111200-2606112359`) and the ICAO
form with its fields Q) to G).  Case, line ends and repeated spaces make no difference.  What cannot be read counts
against the flight: a notice without readable times is always in force, one without a readable area is everywhere.
"""

import re
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from lpv.core.errors import in_range
from lpv.core.units import M_PER_FT

LONGEST = 5000
DAY_MIN = 24 * 60
FT_PER_M = 1.0 / M_PER_FT
NOT_AIRPORTS = ("FDC", "GPS", "NAV", "SVC")


@dataclass(frozen=True)
class Times:
    """When a notice holds; None is open.  daily: minutes of the day (UTC) of each period, () for around the clock.

    An estimated end is open: such a notice holds until it is cancelled or replaced.
    """

    start: datetime | None = None
    end: datetime | None = None
    daily: tuple[tuple[int, int], ...] = ()

    def in_force(self, first: datetime, last: datetime) -> bool:
        """Whether the notice holds at any moment from `first` to `last`, both included."""
        if (self.start is not None and self.start > last) or (self.end is not None and self.end < first):
            return False
        if not self.daily or last - first >= timedelta(days=1):
            return True
        from_min = first.hour * 60 + first.minute
        to_min = from_min + (last - first) / timedelta(minutes=1)
        return any(_overlap(period, from_min, to_min) for period in self.daily)


def _overlap(period: tuple[int, int], from_min: float, to_min: float) -> bool:
    """Whether a daily period, one that passes midnight too, meets a span that begins on a day and may pass midnight."""
    begin, end = period
    end += DAY_MIN if end <= begin else 0
    return any(begin + shift <= to_min and end + shift >= from_min for shift in (-DAY_MIN, 0, DAY_MIN))


@dataclass(frozen=True)
class Ring:
    """One circle of an area and the altitude that it holds at; None where no altitude stands beside it."""

    radius_nm: float
    altitude_ft: float | None = None


@dataclass(frozen=True)
class Area:
    """Where a notice holds: circles about a centre (latitude, longitude), and from which to which altitude.

    None for a lower altitude is the ground, for an upper one unlimited; a centre that is not read is None.
    """

    centre: tuple[float, float] | None = None
    rings: tuple[Ring, ...] = ()
    lower_ft: float | None = None
    upper_ft: float | None = None

    def radius_at_nm(self, altitude_ft: float) -> float | None:
        """The radius up to an altitude: that of the lowest circle at or above it, else the largest; None without."""
        above = [ring for ring in self.rings if ring.altitude_ft is not None and ring.altitude_ft >= altitude_ft]
        if above and all(ring.altitude_ft is not None for ring in self.rings):
            return min(above, key=lambda ring: ring.altitude_ft or 0.0).radius_nm
        return max((ring.radius_nm for ring in self.rings), default=None)


@dataclass(frozen=True)
class Notam:
    """A notice taken apart.

    text:       the whole notice on one line, in capitals
    body:       what it says, without head, times and area
    number:     its number, "" if none is read
    places:     location identifiers that it is about
    area_wide:  whether it is about a region or a system rather than about those places alone
    sure_place: whether it says so; a notice in ICAO's form without its Q) line does not
    q_code:     the five letters of the Q) line, "" without one
    times:      periods in which it holds; it holds in any of them
    schedule:   a schedule that was not understood, "" otherwise (the notice then counts around the clock)
    takes_back: whether it cancels another notice
    system:     "GPS" where its head says that it is about GPS, "" otherwise
    """

    text: str
    body: str
    number: str = ""
    places: tuple[str, ...] = ()
    area_wide: bool = True
    sure_place: bool = True
    q_code: str = ""
    times: tuple[Times, ...] = (Times(),)
    schedule: str = ""
    area: Area = Area()
    takes_back: bool = False
    system: str = ""

    def in_force(self, first: datetime, last: datetime) -> bool:
        """Whether the notice holds at any moment from `first` to `last`, both included."""
        return any(times.in_force(first, last) for times in self.times)

    def names(self, airport: str) -> bool:
        """Whether the notice is about an airport, by its location identifier, with or without its first letter."""
        return any(same_place(place, airport) for place in self.places)


def same_place(place: str, airport: str) -> bool:
    """Whether two location identifiers are the same airport: equal, or one is the other without its first letter."""
    longer, shorter = sorted((place, airport), key=len, reverse=True)
    return place == airport or (len(longer) == 4 and longer[1:] == shorter)


def read_notam(text: str) -> Notam:
    """A notice taken apart.  DomainError for more than 5000 characters."""
    in_range("length of a notice", len(text), 0, LONGEST, "characters")
    line = DOTTED.sub(lambda letters: letters[0].replace(".", ""), " ".join(text.translate(DASHES).upper().split()))
    return _icao(line) if ICAO_TEXT.search(line) else _domestic(line)


DASHES = str.maketrans("\u2010\u2011\u2012\u2013\u2014\u2212", "------")
DOTTED = re.compile(r"\b(?:[A-Z]\.){2,}")  # "G.P.S." is GPS
ICAO_TEXT = re.compile(r"(?:^|\s)E\)\s?")
NUMBER = re.compile(r"\(?\s*(?P<number>[A-Z]\d{4}/\d{2})\s+NOTAM(?P<kind>[NRC])\b")
Q_LINE = re.compile(
    r"(?P<region>[A-Z]{4})\s?/\s?Q(?P<code>[A-Z]{4})\s?/[IVK ]*/[BONMK ]*/(?P<scope>[AEWK ]*)/"
)
DOMESTIC_HEAD = re.compile(
    r"!?(?:(?P<office>[A-Z0-9]{3,4}) )?(?P<number>\d{1,2}/\d{3,5}) (?:\((?P<old>[A-Z0-9/ ]+)\) )?"
    r"(?P<place>[A-Z0-9]{3,4}) "
)
OF_AN_AIRPORT = re.compile(r"(?:IAP|RWY|TWY|APRON|AD|OBST|CHART|ODP|SID|STAR)\b")
UNNUMBERED_HEAD = re.compile(r"!(?P<office>[A-Z]{3,4}) (?P<place>[A-Z0-9]{3,4}) ")
TAKES_BACK = re.compile(
    r"\b(?:NOTAMC|TERMINATED|RESTORED|RTS|RETURNED TO SERVICE|BACK TO (?:NML|NORMAL)|NML OPS|NORMAL OPERATIONS?)\b"
    r"|\b(?:NOTAM|NOTICE) (?:\S+ )?(?:CANCEL\w*|CNL)\b|\bCANCEL\w* (?:NOTAM|NOTICE)\b"
)
TAKES_BACK_END = re.compile(r"(?:^|(?<=AVBL )|(?<=AVAILABLE )|(?<=\d ))(?:CANCEL\w*|CNL)\.?$")


def _icao(line: str) -> Notam:
    head, text = ICAO_TEXT.split(line, maxsplit=1)
    fields = _fields(head)
    match = NUMBER.search(head)
    q = Q_LINE.search(fields.get("Q", ""))
    text, lower, upper = _limits(text.strip().removesuffix(")").strip())
    places = tuple(re.findall(r"\b[A-Z]{4}\b", fields.get("A", "")))
    scope = q["scope"] if q else ""
    area_wide = not places or (q is not None and (q["region"] in places or "A" not in scope))
    daily, schedule = _schedule(fields.get("D", ""))
    begin, end = _moment(fields.get("B", "")), _end(fields.get("C", ""))
    area = _area(text)
    return Notam(
        line, _without(text, AREA_PARTS), match["number"] if match else "", places, area_wide, q is not None,
        q["code"] if q else "", (_times(begin, end, daily),), schedule,
        replace(area, lower_ft=_either(area.lower_ft, _altitude_ft(lower)),
                upper_ft=_either(area.upper_ft, _altitude_ft(upper))),
        bool(TAKES_BACK.search(line) or TAKES_BACK_END.search(text)),
    )


def _fields(head: str) -> dict[str, str]:
    """The fields Q) to D) of an ICAO notice, by their letter."""
    parts = re.split(r"(?:^|\s)([QABCD])\)\s*", head)
    return {letter: value.strip() for letter, value in zip(parts[1::2], parts[2::2], strict=False)}


def _limits(text: str) -> tuple[str, str, str]:
    """The text of field E) without F) and G), and those two."""
    match = re.fullmatch(r"(.*?)\sF\)\s*(.*?)\sG\)\s*(.*)", text)
    return (match[1], match[2], match[3]) if match else (text, "", "")


def _domestic(line: str) -> Notam:
    head = DOMESTIC_HEAD.match(line) or UNNUMBERED_HEAD.match(line)
    office, place = (head["office"] or "", head["place"]) if head else ("", "")
    text = line[head.end():] if head else line
    number = head.groupdict().get("number") if head else ""
    times, schedule = _inline_times(text)
    body = _without(text, TIME_PARTS + AREA_PARTS)
    is_airport = bool(place) and place not in NOT_AIRPORTS
    is_airport = is_airport and (bool(OF_AN_AIRPORT.match(text)) or not _is_center(place))
    return Notam(
        line, body, number or "", (place,) if place else (), not is_airport, True, "", times, schedule, _area(text),
        bool(TAKES_BACK.search(line) or TAKES_BACK_END.search(body)), "GPS" if office == "GPS" else "",
    )


def _is_center(place: str) -> bool:
    """Whether it looks like an air route traffic control center of the United States: three letters, the first a Z."""
    return len(place) == 3 and place.isalpha() and place.startswith("Z")


# Times.

TEN = r"\d{10}"
WINDOW = re.compile(rf"\b(?P<start>{TEN})\s?-\s?(?P<end>{TEN}|PERM|UFN)(?:\s?(?P<est>EST))?\b")
WITH_EFFECT = re.compile(rf"\b(?:WEF|FROM|EFF(?:ECTIVE)?|BEGINNING)\s+(?P<start>{TEN})\b")
UNTIL = re.compile(rf"\b(?:TIL+|UNTIL|UNTL|TO|THRU)\s+(?P<end>{TEN})(?:\s?(?P<est>EST))?\b")
CLOCK = r"(?:[01]\d|2[0-4])[0-5]\d"
PERIODS = rf"{CLOCK}Z?\s?-\s?{CLOCK}Z?(?:(?:\s?,|\s?/|\s+AND|\s+&)?\s+{CLOCK}Z?\s?-\s?{CLOCK}Z?)*"
DAILY = re.compile(rf"\b(?:DLY|DAILY)\s+(?:FROM\s+)?(?P<after>{PERIODS})|(?P<before>{PERIODS})\s+(?:DLY|DAILY)\b")
PERIOD = re.compile(rf"({CLOCK})Z?\s?-\s?({CLOCK})Z?")
TIME_PARTS = (WINDOW, WITH_EFFECT, UNTIL, DAILY)


def _moment(text: str) -> datetime | None:
    """A moment YYMMDDHHMM, UTC; None for anything else.  Hour 24 is the end of the day."""
    match = re.match(rf"{TEN}", text.strip())
    if not match:
        return None
    digits = match[0]
    at_midnight = digits[6:] == "2400"
    try:
        moment = datetime.strptime("20" + (digits[:6] + "0000" if at_midnight else digits), "%Y%m%d%H%M")
    except ValueError:
        return None
    return moment.replace(tzinfo=UTC) + timedelta(days=1 if at_midnight else 0)


def _end(text: str) -> datetime | None:
    """The end in field C) or after the hyphen; None where it is permanent, open, estimated or not read."""
    return None if "EST" in text or "PERM" in text or "UFN" in text else _moment(text)


def _times(start: datetime | None, end: datetime | None, daily: tuple[tuple[int, int], ...]) -> Times:
    """The period; one that ends before it begins was not read rightly and counts as always in force."""
    if start is not None and end is not None and end < start:
        return Times()
    return Times(start, end, daily)


def _inline_times(text: str) -> tuple[tuple[Times, ...], str]:
    """Every period written in the text, and a schedule that was not understood."""
    daily: tuple[tuple[int, int], ...] = ()
    if match := DAILY.search(text):
        daily, _ = _schedule(match["after"] or match["before"])
    unread = "" if daily or not re.search(r"\b(?:DLY|DAILY)\b", text) else "DLY"
    windows = [
        _times(_moment(match["start"]), _end(match["end"] + (match["est"] or "")), daily)
        for match in WINDOW.finditer(text)
    ]
    if windows:
        return tuple(windows), unread
    start, end = WITH_EFFECT.search(text), UNTIL.search(text)
    first = _moment(start["start"]) if start else None
    last = _end(end["end"] + (end["est"] or "")) if end else None
    return (_times(first, last, daily),), unread


def _schedule(text: str) -> tuple[tuple[tuple[int, int], ...], str]:
    """The daily periods of a schedule, or () and the schedule itself where it holds more than those."""
    words = re.sub(r"\b(?:DLY|DAILY|H24)\b", " ", text)
    periods = PERIOD.findall(words)
    if re.sub(r"[,/&\s]|\bAND\b|\bFROM\b", "", PERIOD.sub(" ", words)):
        return (), text.strip()
    return tuple((_minutes(begin), _minutes(end)) for begin, end in periods), ""


def _minutes(clock: str) -> int:
    return int(clock[:2]) * 60 + int(clock[2:])


# Area.

DEGREES = r"\d{4}(?:\d{2}(?:\.\d+)?)?"
LONG_DEGREES = r"\d{5}(?:\d{2}(?:\.\d+)?)?"
CENTRE = re.compile(
    rf"\b(?:(?P<lat>{DEGREES})(?P<ns>[NS])[ /]?(?P<lon>{LONG_DEGREES})(?P<ew>[EW])"
    rf"|(?P<ns2>[NS])(?P<lat2>{DEGREES})[ /]?(?P<ew2>[EW])(?P<lon2>{LONG_DEGREES}))\b"
)
LEVEL = r"(?:FL\s?\d{2,3}|\d{1,5}\s?FT(?:\s?(?:AMSL|MSL|AGL))?|\d{1,5}\s?M\s(?:AMSL|MSL|AGL)|SFC|SURFACE|GND|UNL)"
MILES = r"(?P<radius>\d{1,4}(?:\.\d+)?)\s?(?P<unit>NM|KM)"
RADIUS = re.compile(
    rf"\b(?:{MILES.replace('radius', 'before').replace('unit', 'unit_before')}[\s-]*(?:RADIUS|RAD|RDS)\b"
    rf"|(?:RADIUS|RAD|RDS)(?:\s+OF)?\s+{MILES.replace('radius', 'after').replace('unit', 'unit_after')}"
    rf"|(?:WI|WITHIN)\s+{MILES}\b)"
    rf"(?:\s+(?:AT|CENTERED AT)?\s*(?P<level>FL\s?\d{{2,3}}|\d{{1,5}}\s?FT(?:\s?(?:AMSL|MSL|AGL))?)\b(?!\s?-))?"
)
SPAN = re.compile(rf"\b(?P<lower>{LEVEL})\s?(?:-|/|\sTO\s|\sUP TO\s)\s?(?P<upper>{LEVEL})\b")
AREA_PARTS = (CENTRE, RADIUS, SPAN)


def _area(text: str) -> Area:
    centre, span = CENTRE.search(text), SPAN.search(text)
    middle = _position(centre) if centre and len(CENTRE.findall(text)) == 1 else None
    rings = tuple(ring for match in RADIUS.finditer(text) if (ring := _ring(match)).radius_nm > 0.0)
    lower, upper = (_altitude_ft(span["lower"]), _altitude_ft(span["upper"])) if span else (None, None)
    if len(rings) > 1:
        # The altitudes beside the first circle are its own; the others reach lower.
        rings = tuple(ring if ring.altitude_ft else replace(ring, altitude_ft=lower) for ring in rings)
        lower = upper = None
    return Area(middle, rings, lower, upper)


def _ring(match: re.Match[str]) -> Ring:
    figure = match["before"] or match["after"] or match["radius"]
    unit = match["unit_before"] or match["unit_after"] or match["unit"]
    miles = float(figure) / (1.852 if unit == "KM" else 1.0)
    return Ring(miles, _altitude_ft(match["level"] or ""))


def _position(match: re.Match[str]) -> tuple[float, float] | None:
    """The centre in degrees, north and east positive; None for impossible figures."""
    latitude = _degrees(match["lat"] or match["lat2"], 2)
    longitude = _degrees(match["lon"] or match["lon2"], 3)
    if latitude is None or longitude is None or latitude > 90.0 or longitude > 180.0:
        return None
    south, west = "S" in (match["ns"], match["ns2"]), "W" in (match["ew"], match["ew2"])
    return -latitude if south else latitude, -longitude if west else longitude


def _degrees(digits: str, degree_digits: int) -> float | None:
    minutes, seconds = float(digits[degree_digits:degree_digits + 2]), float(digits[degree_digits + 2:] or 0.0)
    if minutes >= 60.0 or seconds >= 60.0:
        return None
    return float(digits[:degree_digits]) + minutes / 60.0 + seconds / 3600.0


def _altitude_ft(words: str) -> float | None:
    """An altitude or flight level in ft; None for the ground, for unlimited and for nothing."""
    if match := re.search(r"FL\s?(\d+)", words):
        return float(match[1]) * 100.0
    if match := re.search(r"(\d+)\s?FT", words):
        return float(match[1])
    if match := re.search(r"(\d+)\s?M\b", words):
        return float(match[1]) * FT_PER_M
    return None


def _either(first: float | None, second: float | None) -> float | None:
    return second if first is None else first


def _without(text: str, parts: tuple[re.Pattern[str], ...]) -> str:
    for part in parts:
        text = part.sub(" ", text)
    return " ".join(text.split())

"""Recorded flights as GPX (1.0, 1.1) and KML (2.2): points of tracks with position, time and altitude.

GPX: the track points, with `ele` and `time`.  KML: tracks (`gx:Track`: `when` and `gx:coord`), points with a time
stamp, and lines in a time span.  A line has no times of its own: they are spread by distance, and no rate follows.
Neither format says what its altitudes count from, so that whoever reads the file must.
"""

from lpv.core.errors import DomainError
from lpv.core.text import interval
from lpv.core.units import M_PER_FT
from lpv.facts import value
from lpv.track.clean import distance_ft
from lpv.track.records import (
    GEOMETRIC,
    HIGHEST_ALTITUDE_FT,
    LOWEST_ALTITUDE_FT,
    Faults,
    Reading,
    Recording,
    Remark,
    number,
    quoted,
    refuse,
    utc_s,
)
from lpv.track.xml import AGAIN, LONGEST_TEXT, Handler, Scanner

MAX_POINTS = int(value("recording_most_rows"))
FORBIDDEN = ("<!DOCTYPE", "<!ENTITY")
LONGEST_POINT = 80  # signs of one place in a line of KML


def guard(text: str, name: str) -> None:
    """DataError for a text with a document type or an entity: nothing of it is read."""
    for sign in FORBIDDEN:
        if sign in text:
            line = text[: text.index(sign)].count("\n") + 1
            raise refuse(name, sign + "...", "no document type and no entities", "Export the track without them.",
                         f"line {line}")


class Points:
    """Collects the points of one file, checked.

    altitude: what heights count from, one of `lpv.track.records.REFERENCES`
    """

    def __init__(self, name: str, altitude: str, most_points: int = MAX_POINTS) -> None:
        self.name, self.altitude, self.most_points = name, altitude, most_points
        self.faults = Faults(name)
        self.readings: list[Reading] = []
        self.decimals = 0
        self.others: list[list[object]] = []
        self.steady = self.full = False
        self._begins = False

    def begin(self) -> None:
        """A new segment of the track begins."""
        self._begins = bool(self.readings)

    def other(self, name: str, count: int = 1) -> None:
        """Elements that are not read."""
        for row in self.others:
            if row[0] == name:
                row[1] = int(str(row[1])) + count
                return
        self.others.append([name, count])

    def take(self, line: int, latitude: str, longitude: str, metres: str, time: str) -> None:
        """A point as it stands in the file: a reading, or its faults."""
        before = self.faults.count
        time_s = utc_s(plain(time), f"line {line}", self.faults)
        point = self.place(line, time_s, latitude, longitude, metres)
        if self.faults.count == before and point is not None:
            self.add(point)

    def place(self, line: int, time_s: float, latitude: str, longitude: str, metres: str) -> "Reading | None":
        """A reading at a time; None and its faults for what is none."""
        if len(self.readings) + self.faults.count >= self.most_points:
            if not self.full:
                self.faults.add(f"line {line}", f"more than {self.most_points} points", f"at most {self.most_points}",
                                AGAIN)
            self.full = True
            return None
        latitude_deg = self._degrees(line, "lat", latitude, 90.0)
        longitude_deg = self._degrees(line, "lon", longitude, 180.0)
        altitude_ft = self._altitude_ft(line, plain(metres))
        if latitude_deg is None or longitude_deg is None:
            return None
        for text in (latitude, longitude):
            self.decimals = max(self.decimals, len(text.strip().partition(".")[2]))
        geometric = self.altitude in GEOMETRIC
        return Reading(line, time_s, latitude_deg, longitude_deg, altitude_ft if geometric else None,
                       None if geometric else altitude_ft)

    def add(self, reading: Reading) -> None:
        """One more reading."""
        reading.begins = self._begins
        self.readings.append(reading)
        self._begins = False

    def recording(self) -> Recording:
        """What was read; DataError with every fault, each with its line."""
        if not self.faults.count and len(self.readings) < 2:
            self.faults.add("", f"{len(self.readings)} track points", "at least 2", "Check that it is a track.")
        self.faults.stop()
        remarks = [Remark("columns", f"{count} elements {name} are not read.") for name, count in self.others]
        if self.steady:
            remarks.append(Remark("no-times", "The line has no times of its own: they are spread by distance over its "
                                  "time span. No rate and no speed follows."))
        geometric, barometric = (self.altitude, "") if self.altitude in GEOMETRIC else ("", self.altitude)
        return Recording(self.name, geometric, barometric, tuple(self.readings), self.decimals, tuple(remarks),
                         self.steady)

    def _degrees(self, line: int, key: str, text: str, high: float) -> "float | None":
        degrees = number(text.strip())
        if degrees is not None and abs(degrees) <= high:
            return degrees
        self.faults.add(f"line {line}, {key}", quoted(text), interval(-high, high, "deg"), "Correct the point.")
        return None

    def _altitude_ft(self, line: int, text: str) -> "float | None":
        if not text:
            return None
        low, high = LOWEST_ALTITUDE_FT * M_PER_FT, HIGHEST_ALTITUDE_FT * M_PER_FT
        metres = number(text)
        if metres is not None and low <= metres <= high:
            return metres / M_PER_FT
        self.faults.add(f"line {line}, ele", quoted(text), interval(low, high, "m"), "Correct the point.")
        return None


def plain(text: str) -> str:
    """A text on one line without spaces around it, cut to what can be right."""
    return text.replace("\t", " ").replace("\r", " ").replace("\n", " ").strip(" ")[:LONGEST_TEXT]


class Gpx(Handler):
    """Hands the track points of a GPX file on."""

    roots = ("gpx",)

    def __init__(self, points: Points) -> None:
        self.points = points
        self._point: dict[str, str] | None = None
        self._line = 0

    def start(self, name: str, attributes: "dict[str, str]", line: int) -> None:
        if name == "trkseg":
            self.points.begin()
        elif name == "trkpt":
            self._point, self._line = dict(attributes), line
        elif name in ("wpt", "rtept"):
            self.points.other(name)

    def end(self, name: str, text: str, line: int) -> None:
        if self._point is None:
            return
        if name in ("ele", "time"):
            self._point[name] = text
        elif name == "trkpt":
            row = [self._point.get(key, "") for key in ("lat", "lon", "ele", "time")]
            self.points.take(self._line, row[0], row[1], row[2], row[3])
            self._point = None


class Kml(Handler):
    """Hands the points of tracks, time stamps and lines of a KML file on."""

    roots = ("kml",)

    def __init__(self, points: Points) -> None:
        self.points = points
        self._when: list[tuple[int, str]] = []
        self._coords: list[tuple[int, str]] = []
        self._inside: list[str] = []
        self._span = ["", ""]
        self._stamp = ""
        self._line: tuple[int, str] | None = None
        self._place: tuple[int, str] | None = None
        self._relative = False

    def longest(self, name: str) -> int:
        """A line may hold all the points that are read."""
        return MAX_POINTS * LONGEST_POINT if name.rpartition(":")[2] == "coordinates" else LONGEST_TEXT

    def start(self, name: str, attributes: "dict[str, str]", line: int) -> None:
        self._inside.append(name)
        if name == "Placemark":
            self._span, self._stamp, self._line, self._place, self._relative = ["", ""], "", None, None, False
        elif name == "Track":
            self._when, self._coords = [], []

    def end(self, name: str, text: str, line: int) -> None:
        self._inside.pop()
        parent = self._inside[-1] if self._inside else ""
        if name == "when" and parent == "Track":
            self._when.append((line, text))
        elif name == "when" and parent == "TimeStamp":
            self._stamp = text
        elif name == "coord":
            self._coords.append((line, text))
        elif name in ("begin", "end") and parent == "TimeSpan":
            self._span[0 if name == "begin" else 1] = text
        elif name == "coordinates" and parent == "LineString":
            self._line = (line, text)
        elif name == "coordinates" and parent == "Point":
            self._place = (line, text)
        elif name == "altitudeMode" and text.strip() in ("clampToGround", "relativeToGround"):
            self._relative = True
        elif name == "Track":
            self._track(line)
        elif name == "Placemark":
            self._placemark()

    def _track(self, line: int) -> None:
        if len(self._when) != len(self._coords):
            self.points.faults.add(f"line {line}", f"{len(self._when)} times and {len(self._coords)} places",
                                   "as many of each", "Export the track again.")
            return
        self.points.begin()
        for place, (at, coord) in enumerate(self._coords):
            parts = coord.split() + ["", "", ""]  # noqa: RUF005
            self.points.take(at, parts[1], parts[0], self._height(parts[2]), self._when[place][1])

    def _placemark(self) -> None:
        if self._place is not None and self._stamp:
            parts = plain(self._place[1]).split(",") + ["", "", ""]  # noqa: RUF005
            self.points.take(self._place[0], parts[1], parts[0], self._height(parts[2]), self._stamp)
        elif self._place is not None:
            self.points.other("Point without a time")
        if self._line is not None:
            self._spread(self._line[0], self._line[1])

    def _spread(self, line: int, text: str) -> None:
        """A line in its time span: its times are spread by distance."""
        faults = self.points.faults
        if not self._span[0] or not self._span[1]:
            self.points.other("LineString without a time span")
            return
        before = faults.count
        span = [utc_s(plain(time), f"line {line}", faults) for time in self._span]
        rows = []
        for part in text.split():
            cells = part.split(",") + ["", "", ""]  # noqa: RUF005
            rows.append(self.points.place(line, 0.0, cells[1], cells[0], self._height(cells[2])))
            if self.points.full:
                return
        known = [row for row in rows if row is not None]
        if faults.count > before or len(known) < 2:
            return
        lengths = [0.0]
        for place in range(1, len(known)):
            lengths.append(lengths[-1] + distance_ft(known[place - 1], known[place]))
        self.points.begin()
        self.points.steady = True
        for place, point in enumerate(known):
            share = lengths[place] / lengths[-1] if lengths[-1] else place / (len(known) - 1.0)
            point.time_s = span[0] + share * (span[1] - span[0])
            self.points.add(point)

    def _height(self, text: str) -> str:
        """Metres, none where they count from the ground, which nobody knows here."""
        return "" if self._relative else text


class XmlReader:
    """Reads the text of a GPX or KML file in pieces."""

    def __init__(self, text: str, name: str, altitude: str, kind: str, most_points: int = MAX_POINTS) -> None:
        self.points = Points(name, altitude, most_points)
        handler = self._handler(kind)
        self._scanner = Scanner(text, handler.roots, handler, self.points.faults)

    def _handler(self, kind: str) -> "Gpx | Kml":
        if kind not in ("gpx", "kml"):
            raise DomainError(f"kind of track: found {kind}; allowed: gpx, kml.")
        return Gpx(self.points) if kind == "gpx" else Kml(self.points)

    @property
    def count(self) -> int:
        """How many points were read."""
        return len(self.points.readings)

    def read(self, rows: int) -> bool:
        """So many more tags; whether there are more of them."""
        more = self._scanner.scan(4 * rows)
        return more and not self.points.full

    def recording(self) -> Recording:
        """What was read; DataError with every fault, each with its line."""
        return self.points.recording()

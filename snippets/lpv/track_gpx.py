"""Recorded flights as GPX (1.0 and 1.1): the track points, with position, time and `ele`.

GPX does not say what `ele` counts from, so that whoever reads the file must.  The parser is that of the standard
library, fed with text that was decoded before: what the file declares about its encoding has no effect, and a
document type, and with it every entity, is refused before anything is parsed.
"""

from typing import Any
from xml.parsers import expat

from lpv.errors import shown
from lpv.facts import value
from lpv.track_csv import NUMBER, utc_s
from lpv.track_records import (
    GEOMETRIC,
    HIGHEST_ALTITUDE_FT,
    LOWEST_ALTITUDE_FT,
    Faults,
    Reading,
    Recording,
    Remark,
    refuse,
)
from lpv.units import M_PER_FT

MOST_POINTS = int(value("recording_most_rows"))
DEEPEST = 32
LONGEST_TEXT = 100
FORBIDDEN = ("<!DOCTYPE", "<!ENTITY")


def read_gpx(text: str, name: str, altitude: str) -> Recording:
    """The recording in the text of a GPX file; DataError with every fault, each with its line.

    altitude: what `ele` counts from, one of `lpv.track_records.REFERENCES`
    """
    for sign in FORBIDDEN:
        if sign in text:
            line = text.count("\n", 0, text.index(sign)) + 1
            raise refuse(name, sign + "...", "no document type and no entities", "Export the track as plain GPX.",
                         f"line {line}")
    points = _Points(name, altitude in GEOMETRIC)
    points.parse(text)
    points.faults.stop()
    geometric, barometric = (altitude, "") if altitude in GEOMETRIC else ("", altitude)
    return Recording(name, geometric, barometric, tuple(points.found), points.decimals, points.remarks())


class _Stop(Exception):
    """Nothing more is read."""


class _Points:
    """Collects the track points of one file."""

    def __init__(self, name: str, geometric: bool) -> None:
        self.faults = Faults(name)
        self.found: list[Reading] = []
        self.decimals = 0
        self.others: dict[str, int] = {}
        self._geometric = geometric
        self._open: list[str] = []
        self._point: dict[str, str] | None = None
        self._line = 0
        self._begins = False
        self._text: list[str] = []
        self._parser = self._made()

    def _made(self) -> Any:
        parser = expat.ParserCreate("utf-8", " ")
        parser.buffer_text = True
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._characters
        parser.StartDoctypeDeclHandler = self._refused
        parser.EntityDeclHandler = self._refused
        return parser

    def parse(self, text: str) -> None:
        """Every point of the text; what is wrong goes to `faults`."""
        try:
            self._parser.Parse(text, True)
        except expat.ExpatError as error:
            self.faults.add(f"line {error.lineno}", expat.errors.messages[error.code], "well-formed XML",
                            "Export the track again.")
        except _Stop:
            pass
        if not self.faults.count and len(self.found) < 2:
            self.faults.add("", f"{len(self.found)} track points", "at least 2", "Is it the file of a track?")

    def remarks(self) -> tuple[Remark, ...]:
        """What the file holds and is not read."""
        return tuple(
            Remark("columns", f"{count} elements {name} are not read: only points of tracks are.")
            for name, count in self.others.items()
        )

    def _refused(self, *_: object) -> None:
        self._stop("a document type", "no document type and no entities")

    def _stop(self, found: str, allowed: str) -> None:
        line = self._parser.CurrentLineNumber
        self.faults.add(f"line {line}", found, allowed, "Export the track again, or cut the approach out.")
        raise _Stop

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        name = name.rpartition(" ")[2]
        if not self._open and name != "gpx":
            self._stop(f"the element {shown(name)}", "a file that begins with the element gpx")
        self._open.append(name)
        if len(self._open) > DEEPEST:
            self._stop(f"{len(self._open)} elements one in the other", f"at most {DEEPEST}")
        self._text = []
        if name == "trkseg":
            self._begins = bool(self.found)
        elif name == "trkpt":
            self._point, self._line = dict(attributes), self._parser.CurrentLineNumber
            if len(self.found) + self.faults.count >= MOST_POINTS:
                self._stop(f"more than {MOST_POINTS} points", f"at most {MOST_POINTS}")
        elif name in ("wpt", "rtept"):
            self.others[name] = self.others.get(name, 0) + 1

    def _characters(self, text: str) -> None:
        if self._point is not None and len(self._text) < LONGEST_TEXT:
            self._text.append(text[:LONGEST_TEXT])

    def _end(self, name: str) -> None:
        name = name.rpartition(" ")[2]
        self._open.pop()
        if self._point is not None and self._open and self._open[-1] == "trkpt" and name in ("ele", "time"):
            self._point[name] = "".join(self._text).strip()
        if name == "trkpt" and self._point is not None:
            self._take(self._point)
            self._point = None

    def _take(self, point: dict[str, str]) -> None:
        """A finished point as a reading, or its faults."""
        before = self.faults.count
        latitude, longitude = self._number(point, "lat", 90.0), self._number(point, "lon", 180.0)
        time_s = utc_s(point.get("time", ""), f"line {self._line}", self.faults)
        altitude_ft = self._altitude_ft(point.get("ele", ""))
        if self.faults.count > before:
            return
        self.found.append(Reading(
            self._line, time_s, latitude, longitude, altitude_ft if self._geometric else None,
            None if self._geometric else altitude_ft, self._begins))
        self.decimals = max(self.decimals, *(len(point[key].partition(".")[2]) for key in ("lat", "lon")))
        self._begins = False

    def _number(self, point: dict[str, str], key: str, high: float) -> float:
        text = point.get(key, "")
        if NUMBER.fullmatch(text) and abs(float(text)) <= high:
            return float(text)
        self.faults.add(f"line {self._line}, {key}", shown(text), f"{-high:g} to {high:g} deg", "Correct the point.")
        return 0.0

    def _altitude_ft(self, text: str) -> float | None:
        if not text:
            return None
        low, high = (limit * M_PER_FT for limit in (LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT))
        if NUMBER.fullmatch(text) and low <= float(text) <= high:
            return float(text) / M_PER_FT
        self.faults.add(f"line {self._line}, ele", shown(text), f"{low:g} to {high:g} m", "Correct the point.")
        return None

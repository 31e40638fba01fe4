"""Recorded flights as GPX (1.0 and 1.1): the track points, with position, time and `ele`.

GPX does not say what `ele` counts from, so that whoever reads the file must.  The parser is that of the standard
library, fed with text that was decoded before: what the file declares about its encoding has no effect, and a
document type, and with it every entity, is refused before anything is parsed.
"""

from typing import Any
from xml.parsers import expat

from lpv.track.records import Recording, quoted
from lpv.track.trackpoints import AGAIN, DEEPEST, LONGEST_TEXT, MOST_POINTS, Trackpoints, guard


def read_gpx(text: str, name: str, altitude: str) -> Recording:
    """The recording in the text of a GPX file; DataError with every fault, each with its line.

    altitude: what `ele` counts from, one of `lpv.track.records.REFERENCES`
    """
    guard(text, name)
    points = _Parsed(Trackpoints(name, altitude, MOST_POINTS))
    points.parse(text)
    return points.into.recording()


class _Stop(Exception):
    """Nothing more is read."""


class _Parsed:
    """Hands the track points of one file on."""

    def __init__(self, into: Trackpoints) -> None:
        self.into = into
        self._open: list[str] = []
        self._point: dict[str, str] | None = None
        self._line = 0
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
        """Every point of the text; what is wrong becomes a fault."""
        try:
            self._parser.Parse(text, True)
        except expat.ExpatError as error:
            self.into.faults.add(f"line {error.lineno}", expat.errors.messages[error.code], "well-formed XML",
                                 "Export the track again.")
        except _Stop:
            pass

    def _refused(self, *_: object) -> None:
        self._stop("a document type", "no document type and no entities")

    def _stop(self, found: str, allowed: str) -> None:
        self.into.faults.add(f"line {self._parser.CurrentLineNumber}", found, allowed, AGAIN)
        raise _Stop

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        name = name.rpartition(" ")[2]
        if not self._open and name != "gpx":
            self._stop(f"the element {quoted(name)}", "a file that begins with the element gpx")
        self._open.append(name)
        if len(self._open) > DEEPEST:
            self._stop(f"{len(self._open)} elements one in the other", f"at most {DEEPEST}")
        self._text = []
        if name == "trkseg":
            self.into.begin()
        elif name == "trkpt":
            self._point, self._line = dict(attributes), self._parser.CurrentLineNumber
            if self.into.is_full():
                self.into.refuse_more(self._line)
                raise _Stop
        elif name in ("wpt", "rtept"):
            self.into.other(name)

    def _characters(self, text: str) -> None:
        if self._point is not None and len(self._text) < LONGEST_TEXT:
            self._text.append(text[:LONGEST_TEXT])

    def _end(self, name: str) -> None:
        name = name.rpartition(" ")[2]
        self._open.pop()
        if self._point is not None and self._open and self._open[-1] == "trkpt" and name in ("ele", "time"):
            self._point[name] = "".join(self._text)
        if name == "trkpt" and self._point is not None:
            self.into.take(self._line, *(self._point.get(key, "") for key in ("lat", "lon", "ele", "time")))
            self._point = None

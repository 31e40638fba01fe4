"""The track points of a GPX file, given one by one by whatever parsed its XML: checked, and turned into readings."""

from lpv.core.units import M_PER_FT
from lpv.facts import value
from lpv.track.records import (
    GEOMETRIC,
    HIGHEST_ALTITUDE_FT,
    LOWEST_ALTITUDE_FT,
    Faults,
    Reading,
    Recording,
    Remark,
    is_digits,
    number,
    quoted,
    refuse,
    utc_s,
)

MOST_POINTS = int(value("recording_most_rows"))
DEEPEST = 32
LONGEST_TEXT = 100
FORBIDDEN = ("<!DOCTYPE", "<!ENTITY")
AGAIN = "Export the track again, or cut the approach out."


def guard(text: str, name: str) -> None:
    """DataError for a text with a document type or an entity: nothing of it is parsed."""
    for sign in FORBIDDEN:
        if sign in text:
            line = text[: text.index(sign)].count("\n") + 1
            raise refuse(name, sign + "...", "no document type and no entities", "Export the track as plain GPX.",
                         f"line {line}")


class Trackpoints:
    """Collects the track points of one file.

    altitude: what `ele` counts from, one of `lpv.track.records.REFERENCES`
    """

    def __init__(self, name: str, altitude: str, most_points: int = MOST_POINTS) -> None:
        self.name, self.altitude, self.most_points = name, altitude, most_points
        self.faults = Faults(name)
        self.found: list[Reading] = []
        self.decimals = 0
        self.others: list[list[object]] = []
        self.full = False
        self._begins = False

    def begin(self) -> None:
        """A new segment of the track begins."""
        self._begins = bool(self.found)

    def refuse(self, what: str, words: str) -> None:
        """A fault of the whole file, found by a browser: "xml" with a line, "root" with a name, or "deep"."""
        if what == "xml":
            self.faults.add(f"line {words}" if is_digits(words) else "", "XML that cannot be parsed", "well-formed XML",
                            "Export the track again.")
        elif what == "root":
            self.faults.add("", f"the element {quoted(words)}", "a file that begins with the element gpx", AGAIN)
        else:
            self.faults.add("", f"{DEEPEST + 1} elements one in the other", f"at most {DEEPEST}", AGAIN)

    def is_full(self) -> bool:
        """Whether no more points are taken."""
        return len(self.found) + self.faults.count >= self.most_points

    def refuse_more(self, line: int) -> None:
        """A fault: there are too many points."""
        self.full = True
        self.faults.add(f"line {line}", f"more than {self.most_points} points", f"at most {self.most_points}", AGAIN)

    def other(self, name: str, count: int = 1) -> None:
        """Elements that are not read."""
        for row in self.others:
            if row[0] == name:
                row[1] = int(str(row[1])) + count
                return
        self.others.append([name, count])

    def take(self, line: int, latitude: str, longitude: str, ele: str, time: str) -> None:
        """A point as it stands in the file: a reading, or its faults."""
        before = self.faults.count
        latitude_deg = self._degrees(line, "lat", latitude, 90.0)
        longitude_deg = self._degrees(line, "lon", longitude, 180.0)
        time_s = utc_s(_plain(time), f"line {line}", self.faults)
        altitude_ft = self._altitude_ft(line, _plain(ele))
        if self.faults.count > before:
            return
        geometric = self.altitude in GEOMETRIC
        self.found.append(Reading(
            line, time_s, latitude_deg, longitude_deg, altitude_ft if geometric else None,
            None if geometric else altitude_ft, self._begins))
        for text in (latitude, longitude):
            self.decimals = max(self.decimals, len(text.partition(".")[2]))
        self._begins = False

    def recording(self) -> Recording:
        """What was read; DataError with every fault, each with its line."""
        if not self.faults.count and len(self.found) < 2:
            self.faults.add("", f"{len(self.found)} track points", "at least 2", "Is it the file of a track?")
        self.faults.stop()
        remarks = [Remark("columns", f"{count} elements {name} are not read: only points of tracks are.")
                   for name, count in self.others]
        geometric, barometric = (self.altitude, "") if self.altitude in GEOMETRIC else ("", self.altitude)
        return Recording(self.name, geometric, barometric, tuple(self.found), self.decimals, tuple(remarks))

    def _degrees(self, line: int, key: str, text: str, high: float) -> float:
        found = number(text)
        if found is not None and abs(found) <= high:
            return found
        self.faults.add(f"line {line}, {key}", quoted(text), f"{-high:g} to {high:g} deg", "Correct the point.")
        return 0.0

    def _altitude_ft(self, line: int, text: str) -> "float | None":
        if not text:
            return None
        low, high = LOWEST_ALTITUDE_FT * M_PER_FT, HIGHEST_ALTITUDE_FT * M_PER_FT
        found = number(text)
        if found is not None and low <= found <= high:
            return found / M_PER_FT
        self.faults.add(f"line {line}, ele", quoted(text), f"{low:g} to {high:g} m", "Correct the point.")
        return None


def _plain(text: str) -> str:
    """A text on one line without spaces around it, cut to what can be right."""
    return text.replace("\t", " ").replace("\r", " ").replace("\n", " ").strip(" ")[:LONGEST_TEXT]

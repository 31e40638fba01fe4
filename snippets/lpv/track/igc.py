"""Recorded flights as IGC files: the B records, each with time, position, pressure altitude and altitude by GNSS.

    B 120000 5206343N 00006198W A 00587 00558

A second of the day, degrees and thousandths of minutes, A for a fix in three dimensions, metres.  Altitudes by GNSS
count from the ellipsoid, unless the file's record HFALG says the geoid.  Pressure altitudes count from 1013.25 hPa.
Source of the layout: FAI, technical specification for flight recorders, from memory.
"""

from lpv.core.units import M_PER_FT
from lpv.track.records import Faults, Reading, Recording, Remark, clock_s, is_digits, quoted

LENGTH = 35  # of a B record without extensions
DECIMALS = 5  # a thousandth of a minute is 0.000017 degrees
LONGEST_LINE = 400
HALF_DAY_S, DAY_S = 43200.0, 86400.0


class IgcReader:
    """Reads the text of an IGC file in pieces."""

    def __init__(self, text: str, name: str, most_rows: int) -> None:
        self.name, self.most_rows = name, most_rows
        self.faults = Faults(name)
        self.readings: list[Reading] = []
        self.count = self.flat = 0
        self._lines, self._at = text.split("\n"), 0
        self._reference = "ellipsoid"
        self._days_s = self._last_s = 0.0
        if text[:1] != "A":
            self.faults.add("line 1", quoted(text.split("\n", 1)[0]), "a file that begins with an A record",
                            "Is it an IGC file?")
            self.faults.stop()

    def read(self, rows: int) -> bool:
        """Read so many more lines; whether there are more of them."""
        for _ in range(rows):
            if self._at >= len(self._lines):
                return False
            row = self._lines[self._at].rstrip("\r ")
            self._at += 1
            if row[:5] == "HFALG" and "GEO" in row.upper():
                self._reference = "msl"
            if row[:1] != "B":
                continue
            self.count += 1
            if self.count > self.most_rows:
                self.faults.add(f"line {self._at}", f"over {self.most_rows} samples", f"at most {self.most_rows}",
                                "Cut the approach out.")
                return False
            self._take(self._at, row)
        return True

    def recording(self) -> Recording:
        """What was read; DataError with every fault, each with its line."""
        if len(self.readings) < 2 and not self.faults.count:
            self.faults.add("", f"{len(self.readings)} B records", "at least 2", "Is it the file of a flight?")
        self.faults.stop()
        what = f"{self.flat} samples without an altitude by GNSS, by the recorder's own mark."
        remarks = (Remark("no-altitude", what),)
        return Recording(self.name, self._reference, "pressure", tuple(self.readings), DECIMALS,
                         remarks if self.flat else ())

    def _take(self, line: int, row: str) -> None:
        """One B record as a reading, or its fault."""
        time_s, latitude = clock_s(row[1:7]), _degrees(row[7:15], 2, "NS", 90.0)
        longitude = _degrees(row[15:24], 3, "EW", 180.0)
        pressure_m, gnss_m = _metres(row[25:30]), _metres(row[30:35])
        fix = row[24:25]
        if not LENGTH <= len(row) <= LONGEST_LINE or fix not in ("A", "V") or (
                None in (time_s, latitude, longitude, pressure_m, gnss_m)):
            self.faults.add(f"line {line}", quoted(row), "B, time, latitude, longitude, A or V, two altitudes",
                            "Export the flight again.")
            return
        assert time_s is not None and latitude is not None and longitude is not None  # noqa: PT018
        if time_s < self._last_s - HALF_DAY_S:
            self._days_s += DAY_S
        self._last_s = time_s
        self.flat += 1 if fix == "V" else 0
        self.readings.append(Reading(
            line, self._days_s + time_s, latitude, longitude,
            None if fix == "V" or gnss_m is None else gnss_m / M_PER_FT,
            None if pressure_m is None else pressure_m / M_PER_FT))


def _degrees(text: str, degree_digits: int, sides: str, most: float) -> "float | None":
    """Degrees and thousandths of minutes with a side, as 5206343N; None for any other text."""
    digits, side = text[:-1], text[-1:]
    if len(digits) != degree_digits + 5 or not is_digits(digits) or side not in sides or not side:
        return None
    minutes = int(digits[degree_digits:]) / 1000.0
    degrees = int(digits[:degree_digits]) + minutes / 60.0
    if minutes >= 60.0 or degrees > most:
        return None
    return degrees if side == sides[0] else 0.0 - degrees


def _metres(text: str) -> "float | None":
    """Five digits, or a minus and four, as metres; None for any other text."""
    negative = text[:1] == "-"
    digits = text[1:] if negative else text
    if len(text) != 5 or not is_digits(digits):
        return None
    return -float(int(digits)) if negative else float(int(digits))

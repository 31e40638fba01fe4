"""What a recorded flight is: samples as they stand in the file, what was remarked about them, the faults of a file."""

from lpv.core.errors import DataError, Fault

# What an altitude may count from.  GNSS gives the first two, an altimeter the others.
GEOMETRIC = ("msl", "ellipsoid")
BAROMETRIC = ("indicated", "pressure")
REFERENCES = GEOMETRIC + BAROMETRIC
JOINED = ("procedure", "vectors")
IN_WORDS = {
    "msl": "above mean sea level, by GNSS",
    "ellipsoid": "above the ellipsoid, by GNSS",
    "indicated": "as indicated by the altimeter",
    "pressure": "pressure altitude",
}
LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT = -2000.0, 60_000.0
MOST_FAULTS = 20  # of one file that are told one by one


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
    """

    def __init__(
        self, name: str, geometric: str, barometric: str, readings: "tuple[Reading, ...]", decimals: int,
        remarks: "tuple[Remark, ...]" = (),
    ) -> None:
        self.name, self.geometric, self.barometric = name, geometric, barometric
        self.readings, self.decimals, self.remarks = readings, decimals, remarks


class Conditions:
    """What a recording cannot say by itself.

    temperature_c: at the airport; None: taken as standard, and said
    qnh_hpa:       altimeter setting, needed for pressure altitudes
    joined:        one of JOINED, which decides the course scale outside the PFAF
    minimum_ft:    decision altitude used; None: the chart's, and the operator's where an aircraft is given
    number:        which approach of the recording, from 1; None: the last
    """

    def __init__(
        self, temperature_c: "float | None" = None, qnh_hpa: "float | None" = None, joined: str = JOINED[0],
        minimum_ft: "float | None" = None, number: "int | None" = None,
    ) -> None:
        self.temperature_c, self.qnh_hpa, self.joined = temperature_c, qnh_hpa, joined
        self.minimum_ft, self.number = minimum_ft, number


class Faults:
    """Faults of one file, collected: the first ones in full, all of them counted."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.count = 0
        self._first: list[Fault] = []

    def add(self, key: str, found: str, allowed: str, action: str) -> None:
        """One more fault."""
        self.count += 1
        if len(self._first) < MOST_FAULTS:
            self._first.append(Fault(self.file, key, found, allowed, action))

    def error(self) -> DataError:
        """A DataError with the faults found so far."""
        more = self.count - len(self._first)
        rest = [Fault(self.file, "", f"{more} more faults", "none", "Correct the first ones and try again.")]
        return DataError(self._first + (rest if more else []))

    def stop(self) -> None:
        """DataError with the faults found so far, if there are any."""
        if self.count:
            raise self.error()


def refuse(file: str, found: str, allowed: str, action: str, key: str = "") -> DataError:
    """A DataError with one fault of a whole file."""
    return DataError([Fault(file, key, found, allowed, action)])

"""Reading a file of ARINC 424 records as a stream: one airport at a time, memory bounded whatever stands in it.

Only what an SBAS approach is made of is kept: the records of one airport, and the positions of fixes and
navigation aids.  Everything else is counted by kind, so that nothing is passed over in silence.

Source: ARINC Specification 424-18; the file's header as the FAA's CIFP has it.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import BinaryIO, NamedTuple

from lpv.core import airac
from lpv.core.errors import DataError, DomainError, Fault, shown
from lpv.fas.path_point_columns import RECORD_LENGTH

LINE_LIMIT = 1024
MOST_RECORDS = 20_000  # of one airport; the largest have some thousands
MOST_AIRPORTS = 50_000
MOST_POSITIONS = 400_000
MOST_FAULTS = 1000
TICK_LINES = 20_000
SHORTEST = 13  # columns that tell the kind of a record
KEPT = ("PA", "PC", "PF", "PG", "PN", "PP", "PS")  # airport, waypoint, approach, runway, NDB, path point, MSA
POSITIONS = ("D ", "DB", "EA")  # VHF navaid, NDB, waypoint


class Record(NamedTuple):
    """One line of the file: its number, from 1, and its text."""

    number: int
    text: str


@dataclass
class AirportRecords:
    """The records of one airport that approaches are made of, by kind ("PA", "PF"), in the order of the file."""

    ident: str
    second: bool = False
    records: dict[str, list[Record]] = field(default_factory=lambda: {kind: [] for kind in KEPT})
    count: int = 0

    def add(self, kind: str, record: Record) -> None:
        """Keeps a record; DataError beyond MOST_RECORDS."""
        self.count += 1
        if self.count > MOST_RECORDS:
            raise DataError([Fault(
                "", f"line {record.number}", f"more than {MOST_RECORDS} records of {self.ident}", "fewer",
                "This is no file of an ARINC 424 database.")])
        self.records[kind].append(record)


class Source:
    """A file of records that is read once, from its beginning to its end; `tick` is called now and then.

    airports() gives the records of each airport; after it, and while it runs, `positions` holds where the fixes
    read so far are, `cycle` the cycle of the header, `counts` what was read, by kind, and `faults` what was
    wrong with single lines.  Each airport stands in one piece; a second piece is a fault.
    """

    def __init__(
        self, stream: BinaryIO, name: str, wanted: str = "", tick: Callable[[], None] = lambda: None,
    ) -> None:
        self.stream = stream
        self.name = name
        self.wanted = wanted
        self.tick = tick
        self.cycle = ""
        self.announced = 0
        self.counts: Counter[str] = Counter()
        self.faults: list[Fault] = []
        self.positions: dict[str, str] = {}
        self._seen: set[str] = set()

    def fault(self, number: int, found: str, allowed: str, action: str) -> None:
        """Notes what is wrong with a line, the first MOST_FAULTS of them."""
        self.counts["faults"] += 1
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(Fault(self.name, f"line {number}", found, allowed, action))

    def airports(self) -> Iterator[AirportRecords]:
        """Each airport's records, complete, in the order of the file; DataError for a file of mixed cycles."""
        current: AirportRecords | None = None
        for number, line in _lines(self.stream):
            if number % TICK_LINES == 0:
                self.tick()
            kind = self._kind(number, line)
            if kind not in KEPT:
                continue
            ident = line[6:10].decode("ascii", "replace").rstrip()
            if current is None or ident != current.ident:
                if current is not None and current.count:
                    yield current
                current = self._begun(ident, number)
            self._keep(current, kind, number, line)
        if current is not None and current.count:
            yield current

    def _asked(self, ident: str) -> bool:
        return self.wanted in ("", ident)

    def _begun(self, ident: str, number: int) -> AirportRecords:
        second = ident in self._seen
        if second and self._asked(ident):
            self.fault(number, f"records of {ident} in a second place, not read", "one airport in one piece",
                       "Sort the file.")
        self._seen.add(ident)
        if len(self._seen) > MOST_AIRPORTS:
            raise DataError([Fault(self.name, f"line {number}", f"more than {MOST_AIRPORTS} airports", "fewer",
                                   "This is no file of an ARINC 424 database.")])
        return AirportRecords(ident, second)

    def _keep(self, current: AirportRecords, kind: str, number: int, line: bytes) -> None:
        if current.second or not self._asked(current.ident):
            return
        text = line.decode("ascii", "replace")
        if kind == "PF" and text[13:14] != "R":
            self.counts["approach records that are not RNAV"] += 1
            return
        try:
            current.add(kind, Record(number, text))
        except DataError as error:
            raise DataError([Fault(self.name, *_rest(fault)) for fault in error.faults]) from None

    def _kind(self, number: int, line: bytes) -> str:
        """Section and subsection of a record ("PF", "D "); "" for what is none, which is counted."""
        self.counts["lines"] += 1
        if not line:
            return self._counted("empty lines")
        if line.startswith(b"HDR"):
            self._header(number, line)
            return self._counted("header lines")
        if line[:1] not in (b"S", b"T") or not (line[1:4].isalpha() and line[1:4].isupper()):
            return self._counted("lines that are no records")
        if len(line) < SHORTEST:
            self.fault(number, f"{len(line)} columns", f"{RECORD_LENGTH} columns in a record", "Get the file again.")
            return self._counted("records of another length")
        section = line[4:6].decode("ascii", "replace")
        kind = section if section[1] != " " or section == "D " else section[0] + chr(line[12])
        if len(line) != RECORD_LENGTH:
            return self._odd(number, line, kind)
        self.counts["records"] += 1
        if kind in POSITIONS:
            self._position(kind, line)
        elif kind not in KEPT:
            self.counts["records of kinds not needed"] += 1
        return kind

    def _counted(self, what: str) -> str:
        self.counts[what] += 1
        return ""

    def _odd(self, number: int, line: bytes, kind: str) -> str:
        """A record of another length: of a kind that is needed it is kept, for its approach to be refused."""
        self.counts["records of another length"] += 1
        if kind in KEPT and self._asked(line[6:10].decode("ascii", "replace").rstrip()):
            self.fault(number, f"{len(line)} columns", f"{RECORD_LENGTH} columns in a record", "Get the file again.")
            return kind
        return ""

    def _position(self, kind: str, line: bytes) -> None:
        """Remembers where a fix is: section, region and identifier -> the text of its columns."""
        if line[21:22] not in (b"0", b"1"):
            return
        text = line.decode("ascii", "replace")
        where = text[32:51] if text[32:51].strip() else text[55:74]
        if len(self.positions) < MOST_POSITIONS:
            self.positions[position_key(kind, text[19:21], text[13:18])] = where
        else:
            self.counts["positions beyond the limit"] += 1

    def _header(self, number: int, line: bytes) -> None:
        if not line.startswith(b"HDR01"):
            return
        text = line.decode("ascii", "replace")
        try:
            cycle = airac.cycle(text[35:39]).ident
        except DomainError:
            self.fault(number, f"cycle {shown(text[35:39])}", "four digits in columns 36-39", "Get the file again.")
            return
        if self.cycle and cycle != self.cycle:
            raise DataError([Fault(self.name, f"line {number}", f"a header of cycle {cycle} after one of {self.cycle}",
                                   "one cycle in a file", "Take the two files apart.")])
        self.cycle = cycle
        self.announced = int(text[28:35]) if text[28:35].isdecimal() else 0


def position_key(section: str, region: str, ident: str) -> str:
    """The name under which a fix's position is remembered."""
    return f"{section:2}{region:2}{ident.rstrip()}"


def _rest(fault: Fault) -> tuple[str, str, str, str]:
    return fault.key, fault.found, fault.allowed, fault.action


def _lines(stream: BinaryIO) -> Iterator[tuple[int, bytes]]:
    """Each line's number and its bytes without its end; of a line longer than LINE_LIMIT only the beginning."""
    number = 0
    while part := stream.readline(LINE_LIMIT):
        number += 1
        whole = part
        while part and not part.endswith(b"\n"):
            part = stream.readline(LINE_LIMIT)
        if number == 1:
            whole = whole.removeprefix(b"\xef\xbb\xbf")
        yield number, whole.rstrip(b"\r\n")

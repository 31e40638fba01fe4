"""Reading a file of ARINC 424 records: once to learn where everything stands, then one airport at a time.

The first pass counts every record by kind, remembers the positions of fixes and navaids, and where in the file the
records of each airport are, whatever their order.  Then the airports come one by one, so that memory stays bounded.
Nothing is passed over in silence: what is not kept is counted.

Source: ARINC Specification 424-18; its header record as the FAA's CIFP has it.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import BinaryIO

from lpv.arinc.lines import (
    KEPT,
    SHORTEST,
    TAILORED,
    AirportRecords,
    Record,
    kind_of,
    lines_of,
    text_of,
)
from lpv.arinc.positions import Positions
from lpv.core import airac
from lpv.core.errors import DataError, DomainError, Fault, shown
from lpv.fas.path_point_columns import RECORD_LENGTH

MAX_AIRPORTS = 50_000
MAX_POSITIONS = 400_000
MAX_FAULTS = 1000
TICK_LINES = 20_000
PLACES = ("D ", "DB", "EA", "PC", "PI", "PN", "HC")  # kinds that give a position
APPROACHES = ("PF", "HF")


@dataclass
class _Piece:
    """Records of one airport that stand together: the offset and number of the first line, and how many bytes."""

    start: int
    line: int
    size: int = 0


class Source:
    """A file of records that can be read twice; `tick` is called now and then.

    wanted:   the one airport that is asked for, "" for all
    customer: whose tailored records are read in place of the standard ones, "" for nobody's

    index() reads it through; after that `positions` holds where fixes are, `cycle` the cycle of the header, `counts`
    what was read, by kind, and `faults` what was wrong with single lines.  airports() then gives the records of each
    airport that has an approach, in the order of the file.
    """

    def __init__(
        self, stream: BinaryIO, name: str, wanted: str = "", tick: Callable[[], None] = lambda: None,
        customer: str = "",
    ) -> None:
        self.stream = stream
        self.name = name
        self.wanted = wanted
        self.customer = customer
        self.tick = tick
        self.cycle = ""
        self.announced = 0
        self.counts: Counter[str] = Counter()
        self.kinds: Counter[str] = Counter()
        self.faults: list[Fault] = []
        self.positions = Positions(MAX_POSITIONS)
        self._pieces: dict[str, list[_Piece]] = {}
        self._with_approach: set[str] = set()
        self._indexed = False

    def fault(self, number: int, actual: str, allowed: str, action: str) -> None:
        """Notes what is wrong with a line, the first MAX_FAULTS of them."""
        self.counts["faults"] += 1
        if len(self.faults) < MAX_FAULTS:
            self.faults.append(Fault(self.name, f"line {number}", actual, allowed, action))

    def index(self) -> None:
        """The first pass, made once; DataError for a file of mixed cycles, or of too many airports."""
        if self._indexed:
            return
        self._indexed = True
        last: tuple[str, _Piece] | None = None
        for number, offset, line, length in lines_of(self.stream):
            if number % TICK_LINES == 0:
                self.tick()
            kind = self._kind(number, line)
            if kind not in KEPT or not self._asked(line):
                last = None
                continue
            key = kind[0] + line[6:10].decode("ascii", "replace")
            if last is None or last[0] != key:
                last = key, self._begun(key, number, offset)
            last[1].size = offset + length - last[1].start
            if kind in APPROACHES:
                self._with_approach.add(key)

    def airports(self) -> Iterator[AirportRecords]:
        """Each airport that has an approach, its records complete; index() first where that was not done."""
        self.index()
        for key, pieces in self._pieces.items():
            if key in self._with_approach:
                yield self._airport(key, pieces)

    def _airport(self, key: str, pieces: list[_Piece]) -> AirportRecords:
        records = AirportRecords(key[1:].rstrip(), key[0], self.customer)
        for piece in pieces:
            self.stream.seek(piece.start)
            lines = self.stream.read(piece.size).split(b"\n")
            for number, line in enumerate(lines, piece.line):
                line = line.rstrip(b"\r")
                kind = kind_of(line) if len(line) >= SHORTEST else ""
                if kind in KEPT:
                    self._keep(records, kind, Record(number, text_of(line)))
        return records

    def _keep(self, records: AirportRecords, kind: str, record: Record) -> None:
        try:
            records.add(kind, record)
        except DataError as error:
            raise DataError([Fault(self.name, *_rest(fault)) for fault in error.faults]) from None

    def _asked(self, line: bytes) -> bool:
        return self.wanted in ("", line[6:10].decode("ascii", "replace").rstrip())

    def _begun(self, key: str, number: int, offset: int) -> _Piece:
        piece = _Piece(offset, number)
        self._pieces.setdefault(key, []).append(piece)
        if len(self._pieces) > MAX_AIRPORTS:
            raise DataError([Fault(self.name, f"line {number}", f"more than {MAX_AIRPORTS} airports", "fewer",
                                   "This is not an ARINC 424 file.")])
        return piece

    def _kind(self, number: int, line: bytes) -> str:
        """Section and subsection of a record ("PF", "D "); "" for what is none, which is counted."""
        self.counts["lines"] += 1
        if not line:
            return self._counted("empty lines")
        if line.startswith(b"HDR"):
            self._header(number, line)
            return self._counted("header lines")
        if line[:1] not in (b"S", b"T") or not line[1:4].isalnum() or not line[1:4].isupper():
            lower = line.upper() != line and len(line) >= RECORD_LENGTH
            return self._counted("lower-case lines, not read" if lower else "lines that are not records")
        if len(line) < SHORTEST:
            self.fault(number, f"{len(line)} columns", f"{RECORD_LENGTH} columns in a record", "Get the file again.")
            return self._counted("records of another length")
        kind = kind_of(line)
        if (len(line) != RECORD_LENGTH and line[RECORD_LENGTH:].strip(b" \r") != b"") or len(line) < RECORD_LENGTH:
            return self._odd(number, line, kind)
        self.counts["records"] += 1
        self.kinds[kind] += 1
        if kind in PLACES:
            self._position(kind, line)
        return kind

    def _counted(self, what: str) -> str:
        self.counts[what] += 1
        return ""

    def _odd(self, number: int, line: bytes, kind: str) -> str:
        """A record of another length: of a kind that is needed it is kept, for its approach to be refused."""
        self.counts["records of another length"] += 1
        if kind in KEPT and self._asked(line):
            self.fault(number, f"{len(line)} columns", f"{RECORD_LENGTH} columns in a record", "Get the file again.")
            return kind
        return ""

    def _position(self, kind: str, line: bytes) -> None:
        """Remembers where a fix is; of a navaid without a position of its own that of its DME."""
        if line[21:22] not in (b"0", b"1"):
            return
        text = line.decode("ascii", "replace")
        if text[:1] == TAILORED and text[1:4] != self.customer:
            if kind not in KEPT:
                self.counts["tailored records, not read"] += 1
            return
        where = text[32:51] if text[32:51].strip() or kind != "D " else text[55:74]
        airport = "" if kind in ("D ", "DB", "EA") else text[6:10]
        region = text[10:12] if kind == "PI" else text[19:21]
        if not self.positions.add(kind, airport, region, text[13:18], where):
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
                                   "one cycle in a file", "Separate the two files.")])
        self.cycle = cycle
        self.announced = int(text[28:35]) if text[28:35].isdecimal() else 0


def _rest(fault: Fault) -> tuple[str, str, str, str]:
    return fault.key, fault.found, fault.allowed, fault.action

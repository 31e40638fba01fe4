"""The lines of a file of records, and those of one airport."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO, NamedTuple

from lpv.core.errors import DataError, Fault
from lpv.fas.path_point_columns import RECORD_LENGTH
from lpv.files.outside import LONGEST_LINE

LINE_LIMIT = 1024
PIECE = 1 << 20
MAX_PIPED = 2_000_000_000  # some times the whole world
MAX_RECORDS = 20_000  # of one airport; the largest have some thousands
SHORTEST = 13  # columns that tell the kind of a record
BYTE_ORDER_MARK = b"\xef\xbb\xbf"
# airport, waypoint, approach, runway, localizer, terminal arrival altitude, NDB, path point, safe altitude; heliports
KEPT = ("PA", "PC", "PF", "PG", "PI", "PK", "PN", "PP", "PS", "HA", "HF", "HP")
HELIPORT = "H"
TAILORED = "T"


class Record(NamedTuple):
    """One line of the file: its number, from 1, and its text."""

    number: int
    text: str


@dataclass
class AirportRecords:
    """The records of one airport or heliport that approaches are made of, by kind, in the order of the file.

    section:  "P" of an airport, "H" of a heliport
    customer: whose tailored records are kept beside the standard ones, "" for nobody's
    tailored: how many tailored records there are that are not kept
    """

    ident: str
    section: str = "P"
    customer: str = ""
    records: dict[str, list[Record]] = field(default_factory=lambda: {kind: [] for kind in KEPT})
    tailored: int = 0
    count: int = 0

    @property
    def is_heliport(self) -> bool:
        """Whether its records stand in the section of heliports."""
        return self.section == HELIPORT

    def add(self, kind: str, record: Record) -> None:
        """Keeps a record; DataError beyond MAX_RECORDS."""
        self.count += 1
        if self.count > MAX_RECORDS:
            raise DataError([Fault(
                "", f"line {record.number}", f"more than {MAX_RECORDS} records of {self.ident}", "fewer",
                "This is not an ARINC 424 file.")])
        if record.text[:1] != TAILORED or record.text[1:4] == self.customer:
            self.records[kind].append(record)
        else:
            self.tailored += 1


def kind_of(line: bytes) -> str:
    """Section and subsection of a record ("PF", "D ") of at least SHORTEST columns."""
    section = line[4:6].decode("ascii", "replace")
    return section if section[1] != " " or section == "D " else section[0] + chr(line[12])


def text_of(line: bytes) -> str:
    """The record as text, without blanks that stand behind its last column."""
    text = line.decode("ascii", "replace")
    return text[:RECORD_LENGTH] if text[RECORD_LENGTH:].strip() == "" else text


@contextmanager
def twice(stream: BinaryIO) -> Iterator[BinaryIO]:
    """A stream that can be read twice: what comes through a pipe is put by on the disk meanwhile."""
    if stream.seekable():
        yield stream
        return
    with tempfile.TemporaryFile() as file:
        while part := stream.read(PIECE):
            file.write(part)
            if file.tell() > MAX_PIPED:
                raise _no_records(stream, f"more than {MAX_PIPED} bytes through a pipe")
        file.seek(0)
        yield file


def _no_records(stream: BinaryIO, content: str, where: str = "") -> DataError:
    name = getattr(stream, "name", None)
    file = Path(name).name if isinstance(name, str) else "records"
    return DataError([Fault(
        file, where, content, "a file of an ARINC 424 database", "Check that it is the right file.")])


def lines_of(stream: BinaryIO) -> Iterator[tuple[int, int, bytes, int]]:
    """Each line's number, offset, bytes without its end (the beginning of one longer than LINE_LIMIT), and length.

    DataError for a line that does not end.
    """
    number, offset = 0, stream.tell()
    while part := stream.readline(LINE_LIMIT):
        number += 1
        line, length = part, len(part)
        while part and not part.endswith(b"\n"):
            part = stream.readline(LINE_LIMIT)
            length += len(part)
            if length > LONGEST_LINE:
                raise _no_records(stream, f"more than {LONGEST_LINE} bytes without an end", f"line {number}")
        if number == 1:
            mark = len(line) - len(line := line.removeprefix(BYTE_ORDER_MARK))
            offset, length = offset + mark, length - mark
        yield number, offset, line.rstrip(b"\r\n"), length
        offset += length

"""Recorded flights as text: what kind of file it is, what is refused unread, and one reader for all of them.

Tables are CSV (`lpv.track.tables`) or JSON rows, their columns named as here or assigned by whoever reads the file;
tracks are GPX, KML (`lpv.track.xml_tracks`) and IGC (`lpv.track.igc`).  Every reader works in pieces, so that a
browser can answer in between: `read(rows)` says whether there are more, `recording()` gives what was read.
"""

from lpv.core.errors import DataError
from lpv.core.text import trimmed_quantity
from lpv.facts import value
from lpv.track.igc import IgcReader
from lpv.track.records import IN_WORDS, REFERENCES, Recording, quoted, refuse
from lpv.track.tables import TableReader, csv_table, json_table
from lpv.track.xml_tracks import XmlReader, guard

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.track.tables import Columns

    AnyReader = TableReader | XmlReader | IgcReader

# The first bytes of files that are compressed: gzip, zip (also KMZ), bzip2, xz, zstandard.
COMPRESSED = (b"\x1f\x8b", b"PK\x03\x04", b"BZh", b"\xfd7zXZ", b"\x28\xb5\x2f\xfd")
STATED = "one of " + "; ".join([f"{key} ({IN_WORDS[key]})" for key in REFERENCES])
TABLES, JSON, TRACKS, IGC = (".csv", ".txt", ".tsv"), ".json", (".gpx", ".kml"), ".igc"
WITHOUT_COLUMNS = TRACKS + (IGC,)  # noqa: RUF005
ENDINGS = TABLES + (JSON,) + TRACKS + (IGC,)  # noqa: RUF005
MAX_ROWS = int(value("recording_most_rows"))


def kind_of(name: str, altitude: str) -> str:
    """The ending of a name, of those that are read; DataError for another, and for what is not stated as it must be.

    altitude: what the altitudes of a GPX or KML file count from; must be "" for the others, which say it
    """
    kind = ending_of(name)
    if kind not in ENDINGS:
        raise refuse(name, f"the ending {quoted(kind)}", ", ".join(ENDINGS), "Export the flight as one of them.")
    if kind not in TRACKS and altitude:
        raise refuse(name, f"altitude {quoted(altitude)} stated", "the column or the file says it",
                     "Leave the statement out.")
    if kind in TRACKS and altitude not in REFERENCES:
        raise refuse(name, f"altitude {quoted(altitude)} stated", STATED, "State what the altitudes count from.")
    return kind


def ending_of(name: str) -> str:
    """The ending of a file's name, from its last point on, in small letters; "" without one."""
    at = name.rfind(".")
    return name[at:].lower() if at > 0 and name[at:] != "." else ""


def reader_of(
    text: str, name: str, altitude: str = "", columns: "Columns | None" = None, most_rows: int = MAX_ROWS,
) -> "AnyReader":
    """The reader for the text of a file; DataError for one that cannot be begun.

    altitude: as `kind_of`;  columns: which column of a table is what, by the names of `lpv.track.tables`
    """
    kind = kind_of(name, altitude)
    if kind in TABLES:
        return TableReader(csv_table(text, name, columns), name, columns, most_rows)
    if kind == JSON:
        return TableReader(json_table(text, name), name, columns, most_rows)
    if kind in TRACKS:
        guard(text, name)
        return XmlReader(text, name, altitude, kind[1:], most_rows)
    return IgcReader(text, name, most_rows)


def read_text(
    text: str, name: str, altitude: str = "", columns: "Columns | None" = None, most_rows: int = MAX_ROWS,
) -> Recording:
    """The recording in the text of a file; DataError with every fault, each with its line."""
    reader = reader_of(text, name, altitude, columns, most_rows)
    while reader.read(most_rows):
        pass
    return reader.recording()


def too_large(name: str, most_mb: float) -> DataError:
    """The fault of a file that is not read because of its size."""
    most = trimmed_quantity(most_mb, "MB")
    return refuse(name, f"more than {most}", f"at most {most}", "Cut the approach out.")


def compressed(name: str) -> DataError:
    """The fault of a compressed file."""
    return refuse(name, "a compressed file", "a file that is not compressed", "Unpack it first.")


def no_text(name: str) -> DataError:
    """The fault of a file with bytes that are not text."""
    return refuse(name, "bytes that are not text", "UTF-8", "Export the flight again, as UTF-8.")

"""Recorded flights from files: what kind of file it is, bounds on what is read, and the text in it.

Nothing is read beyond `recording_most_mb`; compressed files are refused, not unpacked; a file must be UTF-8.
"""

from pathlib import Path

from lpv.errors import DataError
from lpv.facts import value
from lpv.track_cells import quoted
from lpv.track_csv import read_csv
from lpv.track_gpx import read_gpx
from lpv.track_records import IN_WORDS, REFERENCES, Faults, Recording, refuse

MOST_MB = value("recording_most_mb")
MOST_BYTES = int(MOST_MB * 1e6)
# The first bytes of files that are compressed: gzip, zip, bzip2, xz, zstandard.
COMPRESSED = (b"\x1f\x8b", b"PK\x03\x04", b"BZh", b"\xfd7zXZ", b"\x28\xb5\x2f\xfd")
STATED = "one of " + "; ".join(f"{key} ({words})" for key, words in IN_WORDS.items())


def read(path: Path | str, altitude: str = "") -> Recording:
    """The recording in a file, CSV or GPX by the ending of its name; DataError with every fault.

    altitude: what the altitudes of a GPX file count from; must be "" for CSV, whose header says it
    """
    path = Path(path)
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise refuse(path.name, error.strerror or "an error", "a file that can be read", "Check the name.") from error
    return read_bytes(data, path.name, altitude)


def read_bytes(data: bytes, name: str, altitude: str = "") -> Recording:
    """The recording in the bytes of a file called `name`; as `read`."""
    text = _text(data, name)
    kind = Path(name).suffix.lower()
    if kind == ".csv":
        if altitude:
            raise refuse(name, f"altitude {quoted(altitude)} stated", "the name of the column says it",
                         "Leave the statement out.")
        return read_csv(text, name)
    if kind == ".gpx":
        if altitude not in REFERENCES:
            raise refuse(name, f"altitude {quoted(altitude)} stated", STATED, "State what the altitudes count from.")
        return read_gpx(text, name, altitude)
    raise refuse(name, f"the ending {quoted(kind)}", ".csv or .gpx", "Export the flight as one of them.")


def _text(data: bytes, name: str) -> str:
    """The bytes as text, without a byte order mark; DataError for what is no text, or too much of it."""
    if len(data) > MOST_BYTES:
        raise refuse(name, f"more than {MOST_MB:g} MB", f"at most {MOST_MB:g} MB", "Cut the approach out.")
    if data.startswith(COMPRESSED):
        raise refuse(name, "a compressed file", "plain CSV or GPX", "Unpack it first.")
    if b"\0" in data:
        raise refuse(name, "bytes that are no text", "UTF-8", "Export the flight again, as UTF-8.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _lines_not_utf8(data, name) from None


def _lines_not_utf8(data: bytes, name: str) -> DataError:
    faults = Faults(name)
    for line, row in enumerate(data.split(b"\n"), 1):
        try:
            row.decode("utf-8")
        except UnicodeDecodeError as error:
            faults.add(f"line {line}", f"the byte {row[error.start]:#04x}", "UTF-8", "Export the flight as UTF-8.")
    return faults.error()

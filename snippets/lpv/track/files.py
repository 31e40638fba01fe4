"""Recorded flights from files on this computer: bounds on what is read, and the text in it.

Nothing is read beyond `recording_most_mb`; compressed files are refused, not unpacked; a file must be UTF-8.
"""

from pathlib import Path

from lpv.core.errors import DataError
from lpv.facts import value
from lpv.files.outside import os_fault
from lpv.track.readers import COMPRESSED, compressed, no_text, read_text, too_large
from lpv.track.records import Faults, Recording, refuse

MAX_MB = value("recording_most_mb")
MAX_BYTES = int(MAX_MB * 1e6)


def read(path: Path | str, altitude: str = "", columns: dict[str, str] | None = None) -> Recording:
    """The recording in a file, its kind by the ending of its name; DataError with every fault.

    altitude: what the altitudes of a GPX or KML file count from; must be "" for the others
    columns:  of a table with other names: ours -> its own (`lpv.track.tables`)
    """
    path = Path(path)
    try:
        with path.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except OSError as error:
        raise refuse(path.name, *os_fault(error)) from error
    return read_bytes(data, path.name, altitude, columns)


def read_bytes(data: bytes, name: str, altitude: str = "", columns: dict[str, str] | None = None) -> Recording:
    """The recording in the bytes of a file called `name`; as `read`."""
    return read_text(_text(data, name), name, altitude, columns)


def _text(data: bytes, name: str) -> str:
    """The bytes as text, without a byte order mark; DataError for what is no text, or too much of it."""
    if len(data) > MAX_BYTES:
        raise too_large(name, MAX_MB)
    if data.startswith(COMPRESSED):
        raise compressed(name)
    if b"\0" in data:
        raise no_text(name)
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

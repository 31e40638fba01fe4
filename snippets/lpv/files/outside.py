"""Files from outside, read within bounds and written whole: no device that never ends, no line without an end, and no
half file where the disk is full.
"""

import errno
import io
import os
import stat
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from lpv.core.errors import DataError, Fault

MAX_BYTES = 32_000_000  # of a table
WRONG_FILE = "Check that it is the right file."
LONGEST_LINE = 65_536
MAX_LINES = 20_000_000  # a file of the whole world has some millions


@contextmanager
def opened(path: Path) -> Iterator[BinaryIO]:
    """A file or pipe to read bytes from; DataError for a device, which need not end."""
    with open(path, "rb") as stream:
        kind = os.fstat(stream.fileno()).st_mode
        if not (stat.S_ISREG(kind) or stat.S_ISFIFO(kind) or stat.S_ISSOCK(kind)):
            raise _fault(path, "", "a device", "a file", "Check its name.")
        yield stream


def data_of(path: Path, most: int = MAX_BYTES) -> bytes:
    """The bytes of a file; DataError for a device, and for more of them than `most`."""
    with opened(path) as stream:
        data = stream.read(most + 1)
    if len(data) > most:
        raise _fault(path, "", f"more than {most} bytes", f"at most {most}", WRONG_FILE)
    return data


def text_of(path: Path, most: int = MAX_BYTES) -> str:
    """The text of a file without its byte order mark; DataError as `data_of`, and for what is not UTF-8."""
    data = data_of(path, most)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        raise _fault(path, f"line {line}", "bytes that are not UTF-8", "UTF-8 text", "Save it as UTF-8.") from None


def lines_of(stream: BinaryIO, name: str) -> Iterator[str]:
    """The lines of a stream with their ends; what is not UTF-8 is replaced.

    DataError for a line that does not end, and for lines without end.
    """
    number = 0
    text = io.TextIOWrapper(stream, "utf-8-sig", "replace")
    try:
        while line := text.readline(LONGEST_LINE):
            number += 1
            if (len(line) == LONGEST_LINE and not line.endswith("\n")) or number > MAX_LINES:
                excess = f"more than {MAX_LINES} lines" if number > MAX_LINES else f"{LONGEST_LINE} signs in one"
                raise _fault(Path(name), f"line {number}", excess, "lines of records", WRONG_FILE)
            yield line
    finally:
        text.detach()  # whoever opened the stream closes it


def write(path: Path, text: str, *, surely: bool = False, encoding: str = "utf-8") -> None:
    """Write a file aside and move it into place, so that neither a kill nor a full disk leaves half of it.

    surely: made sure of on the disk before, for what cannot be made again
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    moved = path.is_file() or not path.exists()  # a device or a pipe stays where it is
    aside = path.with_name(path.name + ".part") if moved else path
    try:
        with open(aside, "wb") as file:
            file.write(text.encode(encoding))
            if surely:
                file.flush()
                os.fsync(file.fileno())
        if moved:
            aside.replace(path)
    except OSError as error:
        with suppress(OSError):
            if moved:
                aside.unlink()
        raise OSError(error.errno, error.strerror, str(path)) from error


def os_error_text(error: OSError, writing: str = "") -> str:
    """What could not be read or written, why, and what to do; writing: the file, where the error does not name it."""
    actual, allowed, action = os_fault(error)
    return f"{error.filename or writing or 'output'}: found {actual}; allowed: {allowed}. {action}"


OS_FAULTS = {
    errno.ENOENT: ("no such file or folder", "one that is there", "Check its name."),
    errno.EISDIR: ("a folder", "a file", "Check its name."),
    errno.ENOTDIR: ("a file where a folder is meant", "a folder", "Check its name."),
    errno.EACCES: ("a file or folder without the right to it", "one with that right", "Change its rights."),
    errno.EPERM: ("a file or folder without the right to it", "one with that right", "Change its rights."),
    errno.EROFS: ("a place that cannot be written to", "one that can be", "Choose another place."),
    errno.ENOSPC: ("a disk that is full", "room for the file", "Make room."),
}


def os_fault(error: OSError) -> tuple[str, str, str]:
    """What was found, what is allowed and what to do, for an error of the system."""
    words = error.strerror or str(error)
    other = words[:1].lower() + words[1:], "what can be read or written", "Check its name and its rights."
    return OS_FAULTS.get(error.errno or 0, other)


def repeated(names: Iterable[str]) -> list[str]:
    """The names that are there more than once, in order: of two files of one name a report would lose one."""
    return [name for name, count in sorted(Counter(names).items()) if count > 1]


def _fault(path: Path, key: str, actual: str, allowed: str, action: str) -> DataError:
    return DataError([Fault(path.name, key, actual, allowed, action)])

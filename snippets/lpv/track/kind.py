"""What kind of file a recorded flight is in, and what is refused unread."""

from lpv.core.errors import DataError
from lpv.track.cells import quoted
from lpv.track.records import IN_WORDS, REFERENCES, refuse

# The first bytes of files that are compressed: gzip, zip, bzip2, xz, zstandard.
COMPRESSED = (b"\x1f\x8b", b"PK\x03\x04", b"BZh", b"\xfd7zXZ", b"\x28\xb5\x2f\xfd")
STATED = "one of " + "; ".join([f"{key} ({IN_WORDS[key]})" for key in REFERENCES])
CSV, GPX = ".csv", ".gpx"


def kind_of(name: str, altitude: str) -> str:
    """CSV or GPX by the ending of a name; DataError for another, and for what is not stated as it must be.

    altitude: what the altitudes of a GPX file count from; must be "" for CSV, whose header says it
    """
    kind = ending_of(name)
    if kind == CSV and altitude:
        raise refuse(name, f"altitude {quoted(altitude)} stated", "the name of the column says it",
                     "Leave the statement out.")
    if kind == GPX and altitude not in REFERENCES:
        raise refuse(name, f"altitude {quoted(altitude)} stated", STATED, "State what the altitudes count from.")
    if kind not in (CSV, GPX):
        raise refuse(name, f"the ending {quoted(kind)}", ".csv or .gpx", "Export the flight as one of them.")
    return kind


def ending_of(name: str) -> str:
    """The ending of a file's name, from its last point on, in small letters; "" without one."""
    at = name.rfind(".")
    return name[at:].lower() if at > 0 and name[at:] != "." else ""


def too_large(name: str, most_mb: float) -> DataError:
    """The fault of a file that is not read because of its size."""
    return refuse(name, f"more than {most_mb:g} MB", f"at most {most_mb:g} MB", "Cut the approach out.")


def compressed(name: str) -> DataError:
    """The fault of a compressed file."""
    return refuse(name, "a compressed file", "plain CSV or GPX", "Unpack it first.")


def no_text(name: str) -> DataError:
    """The fault of a file with bytes that are no text."""
    return refuse(name, "bytes that are no text", "UTF-8", "Export the flight again, as UTF-8.")

"""Hash and size of every file of a finished site, worked out once for all that lists them."""

import hashlib
import os
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

NAME_DIGITS = 8  # of a hash, where a file's address names its content


class Digest(NamedTuple):
    """The SHA-256 of a file, in hexadecimal digits, and its size in bytes."""

    sha256: str
    size: int


def digest(data: bytes) -> Digest:
    return Digest(hashlib.sha256(data).hexdigest(), len(data))


def digests(site: Path, known: Mapping[str, Digest] | None = None) -> dict[str, Digest]:
    """Place below a folder -> hash and size, of every file, in order.

    known: those that are worked out already
    """
    before = known or {}
    return {place: before.get(place) or digest((site / place).read_bytes()) for place in sorted(_places(site))}


def _places(site: Path) -> Iterator[str]:
    for folder, _, names in os.walk(site):
        below = os.path.relpath(folder, site).replace(os.sep, "/")
        yield from names if below == "." else (f"{below}/{name}" for name in names)

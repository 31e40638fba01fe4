"""Hash and size of every file of a finished site, worked out once for all that lists them."""

import hashlib
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple


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
    places = sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    before = known or {}
    return {place: before.get(place) or digest((site / place).read_bytes()) for place in places}

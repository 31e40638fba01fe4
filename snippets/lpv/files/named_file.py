"""Data files whose name becomes the address of a page: read as by `lpv.files.toml_reader`, with their name checked.

The record has a field `slug`, which takes the file's name without its ending.
"""

import dataclasses
import re
from pathlib import Path
from typing import Any, TypeVar

from lpv.core.errors import DataError, Fault
from lpv.files import toml_reader as tomlfile

SLUG = "[a-z0-9]+(-[a-z0-9]+)*"

Record = TypeVar("Record")


def read(path: Path, record: type[Record]) -> Record:
    """The file as a record with its slug; DataError with every fault of its name and of what it holds."""
    faults = name_faults(path.stem)
    try:
        loaded = tomlfile.read_file(path, record)
    except DataError as error:
        raise DataError([*faults, *error.faults]) from error
    if faults:
        raise DataError(faults)
    return _with_slug(loaded, path.stem)


def read_text(text: str, name: str, record: type[Record]) -> Record:
    """The text of a data file as a record with the slug of `name`; DataError with every fault."""
    return _with_slug(tomlfile.read_text(text, name, record), Path(name).stem)


def _with_slug(loaded: Record, slug: str) -> Record:
    named: Any = loaded
    same: Record = dataclasses.replace(named, slug=slug)
    return same


def name_faults(stem: str) -> list[Fault]:
    """What is wrong with the name of a file, given without its ending."""
    if re.fullmatch(SLUG, stem):
        return []
    return [Fault(f"{stem}.toml", "", "a file name that cannot be a page address", "a to z, 0 to 9, single hyphens",
                  "Rename the file.")]

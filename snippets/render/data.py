"""The data files of a build, read once."""

from functools import cache
from pathlib import Path

from lpv.approach import Approach, read_all


@cache
def approaches(docs: Path) -> tuple[Approach, ...]:
    """All approaches of docs/approaches/, in the order of their file names."""
    return tuple(read_all(docs / "approaches"))

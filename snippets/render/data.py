"""The data files that pages take as examples, read once."""

from functools import cache
from pathlib import Path

from lpv import aircraft as aircraft_files
from lpv.aircraft import Aircraft
from lpv.approach import Approach, read, read_all

DOCS = Path(__file__).resolve().parents[2] / "docs"
MOST_EXAMPLES = 5


@cache
def examples(docs: Path = DOCS) -> tuple[Approach, ...]:
    """The first approaches of docs/approaches/ in the order of file names, as many as a page can show."""
    return tuple(read(path) for path in sorted((docs / "approaches").glob("*.toml"))[:MOST_EXAMPLES])


@cache
def drafts(docs: Path = DOCS) -> tuple[Approach, ...]:
    """The drafts beside them: read the same way, never published as briefings."""
    return tuple(read_all(docs / "approaches" / "drafts"))


def example() -> Approach:
    """The approach that pages take as their example: the first one with a glidepath."""
    return next(approach for approach in examples() if approach.identity.level_of_service == "LPV")


@cache
def aircraft(docs: Path = DOCS) -> tuple[Aircraft, ...]:
    """The first types of docs/aircraft/ in the order of file names, as many as a page can show."""
    return tuple(aircraft_files.read_all(docs / "aircraft")[:MOST_EXAMPLES])


def example_aircraft() -> Aircraft:
    """The type that pages take as their example: the first one; LookupError if there is none."""
    if not aircraft():
        raise LookupError("docs/aircraft/ holds no aircraft file; the pages need at least one as their example")
    return aircraft()[0]

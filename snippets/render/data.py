"""The data files that pages take as examples, read once."""

from functools import cache
from itertools import islice
from pathlib import Path

from lpv import aircraft as aircraft_files
from lpv.aircraft import Aircraft
from lpv.approach import Approach, read, read_all

DOCS = Path(__file__).resolve().parents[2] / "docs"
MOST_EXAMPLES = 5


@cache
def examples(docs: Path = DOCS) -> tuple[Approach, ...]:
    """The first approaches of docs/approaches/ in the order of file names, as many as a page can show.

    Files that are still to be filled from the chart are passed over.
    """
    found = map(read, sorted((docs / "approaches").glob("*.toml")))
    return tuple(islice((approach for approach in found if not approach.chart.to_be_filled), MOST_EXAMPLES))


@cache
def drafts(docs: Path = DOCS) -> tuple[Approach, ...]:
    """The drafts beside them: read the same way, never published as briefings."""
    return tuple(read_all(docs / "approaches" / "drafts"))


def example() -> Approach:
    """The approach that pages take as their example: the first LPV one; LookupError if there is none."""
    found = [approach for approach in examples() if approach.identity.level_of_service == "LPV"]
    if not found:
        raise LookupError("docs/approaches/ holds no LPV approach filled from its chart; pages need one as an example")
    return found[0]


@cache
def aircraft(docs: Path = DOCS) -> tuple[Aircraft, ...]:
    """The first types of docs/aircraft/ in the order of file names, as many as a page can show."""
    return tuple(aircraft_files.read_all(docs / "aircraft")[:MOST_EXAMPLES])


def example_aircraft() -> Aircraft:
    """The type that pages take as their example: the first one; LookupError if there is none."""
    if not aircraft():
        raise LookupError("docs/aircraft/ holds no aircraft file; the pages need at least one as their example")
    return aircraft()[0]

"""A mistake planted in a case: the case afterwards, the mistake in words, and the findings that must come of it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from lpv.core.errors import DomainError
from lpv.drill.case import Case, Graded, Pick, with_sides
from lpv.setup.records import NAMES


@dataclass(frozen=True)
class Planted:
    """One mistake in a case.

    case:     with the mistake in it
    words:    what is wrong, one sentence
    expected: (name, grade) of every finding that the checks have to give because of it
    """

    case: Case
    words: str
    expected: frozenset[Graded]


Plant = Callable[[Case, Pick], Planted]


@dataclass(frozen=True)
class Mistake:
    """A kind of mistake.

    what:   what is planted, in words
    subtle: whether it is a subtle one
    plant:  plants it; raises DomainError where the mistake makes no sense on an approach or in a type
    """

    what: str
    subtle: bool
    plant: Plant


def one_side(pick: Pick) -> tuple[str, ...]:
    """The side that a mistake is made on."""
    return (pick.choose("side of the mistake", NAMES),)


def both_sides(pick: Pick) -> tuple[str, ...]:
    """Both sides, whatever the pick."""
    return NAMES


def where(names: Sequence[str]) -> str:
    """The sides as the beginning of a sentence."""
    return "Both sides" if len(names) == 2 else names[0].capitalize() + " side"


def on_sides(
    case: Case, names: Sequence[str], words: str, graded: Sequence[Graded], alike: Sequence[str] = (),
    **changes: object,
) -> Planted:
    """A mistake in what some sides have set.

    graded: (key, grade) of the findings about each of these sides
    alike:  what `lpv.setup.checks` finds different between the sides if only one has the mistake
    """
    expected = {(f"{key} {name}", grade) for key, grade in graded for name in names}
    if len(names) == 1:
        expected |= {(f"set-sides {item}", "resolve") for item in alike}
    return Planted(with_sides(case, names, **changes), f"{where(names)}: {words}", frozenset(expected))


def needs(holds: bool, why_not: str) -> None:
    """DomainError with the reason unless the mistake makes sense here."""
    if not holds:
        raise DomainError(f"it makes no sense here: {why_not}.")

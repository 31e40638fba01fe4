"""What a drill of numbers asks, and a kind of such questions."""

from collections.abc import Callable
from dataclasses import dataclass

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.drill.case import Pick


@dataclass(frozen=True)
class Question:
    """What is asked, and what counts.

    words:   the question
    answer:  the number, in `unit`; for a choice its place in `choices`
    low, high: how far below and above the answer still counts as right
    why:     what the tolerance rests on
    because: how one gets there, in a sentence
    teaches: address of the section that teaches it
    choices: what can be chosen; () where a number is asked
    points:  of each choice; () where a number is asked
    """

    words: str
    unit: str
    answer: float
    low: float
    high: float
    why: str
    because: str
    teaches: str
    choices: tuple[str, ...] = ()
    points: tuple[float, ...] = ()


Ask = Callable[[Approach, Aircraft, Pick], Question]


@dataclass(frozen=True)
class Kind:
    """A kind of number: what it is, in words, and the function that asks for it."""

    what: str
    ask: Ask

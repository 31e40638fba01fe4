"""A flow for one printed page: steps in their order, with a box to tick for each side.

The card has the class and the id that docs/assets/card.css prints alone when the address ends in #card.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from lpv_site.briefing.card import CAUTION

BOX = "☐"


@dataclass(frozen=True)
class Step:
    """One line of a flow.

    do:         what to do or compare, in our own words
    per_side:   whether each side has its own box, or both share one
    """

    do: str
    per_side: bool = False


def flow_card(name: str, when: str, steps: Sequence[Step]) -> str:
    """The link that prints the card, and the card.

    name, when and what the steps say are HTML of our own; text from data goes through `escape` before.
    """
    body = "".join(_row(number, step) for number, step in enumerate(steps, 1))
    return (
        '<p class="hb-print"><a href="#card">Print this card</a> on one page: A5 or half letter.</p>\n\n'
        f'<section class="hb-card" id="card" aria-label="{name}" data-search-exclude>\n'
        f'<p class="hb-card-name">{name}</p>\n<p>{when}</p>\n'
        '<table class="hb-card-grid"><thead><tr><th scope="col">step</th><th scope="col">left</th>'
        f'<th scope="col">right</th></tr></thead><tbody>{body}</tbody></table>\n'
        f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p>\n</section>\n'
    )


def _row(number: int, step: Step) -> str:
    boxes = f"<td>{BOX}</td><td>{BOX}</td>" if step.per_side else f'<td colspan="2">{BOX}</td>'
    return f'<tr><th scope="row">{number} {step.do}</th>{boxes}</tr>'

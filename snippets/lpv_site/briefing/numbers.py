"""The numbers behind the flying sections of a briefing and behind its card, one place for each.

Every function takes an approach as its file holds it.  Where the approach lies outside the domain of a
computation the function raises DomainError; `said` and `titled` turn that into words on the page.
"""

import re
from collections.abc import Callable, Sequence
from functools import lru_cache

from lpv.approach.record import Approach
from lpv.approach.schema import KINDS, Identity, Minima
from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.core.text import clock, number, quantity
from lpv.crosscheck.check import crosscheck
from lpv.crosscheck.coded import FROM_THE_CHART
from lpv.decide import final_path
from lpv.decide.climb import climb_gradient_ft_per_nm
from lpv.decide.final_path import distance_at_altitude_nm, pfaf_distance_nm
from lpv.decide.last_mile import seconds_to_minimum
from lpv.decide.lines import best_row, rows_of
from lpv.facts import value
from lpv_site.figures.figure import set_aside
from lpv_site.text.table import html_table
from lpv_site.text.text import escape
from lpv_site.text.validity import notice

NOT_COMPUTABLE = "not computable"
LONG_DECIMALS = re.compile(r"-?\d+\.\d{3,}")


def titled(title: str, anchor: str, body: Callable[[], str]) -> str:
    """A section with its heading and id; where it cannot be computed it says so and why."""
    try:
        text = body()
    except DomainError as error:
        text = f"This cannot be computed for this approach. {escape(_shortened(str(error)))}\n"
    return f"## {title} {{ #{anchor} data-search-exclude }}\n\n{text}"


def _shortened(message: str) -> str:
    """An error's words with their long decimals rounded."""
    return LONG_DECIMALS.sub(lambda match: number(float(match[0]), 0.01), message)


def computed_text(compute: Callable[[], str]) -> str:
    """The text, or in words that it cannot be computed for this approach."""
    try:
        return compute()
    except DomainError:
        return NOT_COMPUTABLE


def numbers_table(headers: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """A table of numbers, right aligned, escaped; set aside, since Markdown takes long over so many cells."""
    return f'<div class="hb-numbers">{set_aside(html_table(headers, rows))}</div>\n'


@lru_cache(maxsize=4)
def crosschecked(approach: Approach) -> tuple[Finding, ...]:
    """What the cross-check of chart, database and computation finds: told on the page and on its card."""
    return tuple(crosscheck(approach))


def binding_row(approach: Approach) -> Minima:
    """The row that binds on the line of the approach's level of service, for any category; DomainError for none."""
    row = best_row(approach)
    if row is None:
        awaited = f"; they are {FROM_THE_CHART}" if is_awaited(approach, "minima") else ""
        raise DomainError(f"{approach.identity.level_of_service} minima: found none{awaited}.")
    return row


def is_awaited(approach: Approach, key: str) -> bool:
    """Whether a key of the chart is still to be filled from it, so that nothing may be said about it."""
    return key in approach.chart.to_be_filled


def minimum_kind(approach: Approach) -> str:
    """DA or MDA, of the line of the approach's level of service."""
    return KINDS[approach.identity.level_of_service]


def minima_in_words(approach: Approach) -> tuple[str, str, str]:
    """The minima of the level of service as (line, DA or MDA, every row's altitude in words).

    Rows of several categories stand with them; where none is in the file the words send to the chart.
    """
    level = approach.identity.level_of_service
    rows = rows_of(approach, level)
    if not rows:
        return level, minimum_kind(approach), FROM_THE_CHART if is_awaited(approach, "minima") else "none printed"
    texts = [quantity(row.altitude_ft, "ft") + (f" ({row.categories})" if len(rows) > 1 else "") for row in rows]
    return level, minimum_kind(approach), " · ".join(texts)


def whose_climb(approach: Approach) -> str:
    """Whose the gradient is that `climb_ft_per_nm` gives, in words."""
    if is_awaited(approach, "missed.climb_gradient_ft_per_nm"):
        return f"{standard_climb(approach)}; whether the chart asks for more is {FROM_THE_CHART}"
    missed = approach.chart.missed
    published = missed is not None and missed.climb_gradient_ft_per_nm == climb_gradient_ft_per_nm(approach)
    return "published" if published else f"{standard_climb(approach)}, none higher published"


def minimum_distance_nm(approach: Approach) -> float:
    """Distance before the threshold at which the descent reaches the minimum that binds (see `binding_row`)."""
    return distance_at_altitude_nm(approach, binding_row(approach).altitude_ft)


def pfaf_to_minimum(approach: Approach, ground_speed_kt: float) -> str:
    """Time from the PFAF down to the minimum, as m:ss."""
    minimum_ft = binding_row(approach).altitude_ft
    return clock(seconds_to_minimum(approach, pfaf_distance_nm(approach), minimum_ft, ground_speed_kt))


def scale_places(approach: Approach) -> list[tuple[str, float]]:
    """Where the scale is told (see `lpv.decide.final_path.scale_places`), the minimum that binds among the places."""
    row = best_row(approach)
    return final_path.scale_places(approach, row.altitude_ft if row else None, minimum_kind(approach))


def standard_climb(approach: Approach) -> str:
    """Whose standard counts where the chart prints no climb gradient."""
    if approach.identity.rule == "FAA":
        return "the FAA's standard"
    return f"{quantity(value('missed_gradient_icao_percent'), '%', 0.1)}, ICAO's standard, from memory"


def in_force(who: Identity) -> str:
    """From when to when the data hold; the page's script warns in it once they are out of date."""
    return notice(who.cycle)

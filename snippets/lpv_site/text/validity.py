"""From when to when data hold, as a notice in which the page's script (docs/assets/validity.js) warns."""

from collections import Counter
from collections.abc import Iterable

from lpv.core import airac
from lpv_site.text.text import escape

QUIET = " data-quiet"  # stays where it is, and is only shown when it warns


def notice(cycle: str, words: str = "", attributes: str = "") -> str:
    """The notice for one cycle; words: what is of it, before "Data of cycle"."""
    dates = airac.cycle(cycle)
    return _paragraph(dates.effective, dates.expiry, f"{words}Data of cycle {escape(cycle)}, in force {dates.held}.",
                      attributes)


def notices(cycles: Iterable[str]) -> str:
    """A notice for each cycle among those of a list of approaches, with how many are of it, the newest first."""
    counted = sorted(Counter(filter(None, cycles)).items(), key=lambda item: -airac.cycle(item[0]).effective)
    alone = len(counted) == 1
    return "".join(notice(cycle, "" if alone else f"{_approaches(count)}. ") for cycle, count in counted)


def quiet_notice(cycles: Iterable[str]) -> str:
    """One notice for figures of several approaches: it warns as soon as those of one are out of date."""
    ordered = sorted(set(cycles), key=lambda cycle: airac.cycle(cycle).effective)
    if not ordered:
        return ""
    words = f"The figures of approaches that are offered here are of cycle {escape(', '.join(ordered))}."
    return _paragraph(airac.cycle(ordered[-1]).effective, airac.cycle(ordered[0]).expiry, words, QUIET)


def _approaches(count: int) -> str:
    return f"{count} approaches" if count != 1 else "1 approach"


def _paragraph(effective: int, expiry: int, words: str, attributes: str) -> str:
    return (
        f'<p class="hb-validity" data-from="{airac.iso(effective)}" data-until="{airac.iso(expiry)}"{attributes}>'
        f"{words}</p>\n"
    )

"""Rules of the cross-check: the missed approach, its words against its altitude and its fixes."""

import re
from collections.abc import Iterator

from lpv.approach.record import Approach
from lpv.approach.schema import Fix, Missed
from lpv.core.consequence import grade_of
from lpv.core.findings import Finding, not_compared
from lpv.core.text import feet, number, quantity
from lpv.crosscheck.statements import finding, one_sided, within
from lpv.facts import value

READ_AGAIN = "Read the missed approach from the chart in force."
# Numbers from 100 on that are no course: what a text of a missed approach says of altitudes.
NUMBER = re.compile(r"(?<![\d.°])(\d{1,2},\d{3}|\d{3,5})(?![\d.,]*\d|°)", re.ASCII)


def last_fix(approach: Approach) -> Fix | None:
    """The fix at which the missed approach ends: its hold, else its last fix; None without one."""
    fixes = [fix for fix in approach.chart.fixes if fix.serves("missed", "missed hold")]
    return next((fix for fix in fixes if fix.serves("missed hold")), fixes[-1] if fixes else None)


def altitude(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitude of the missed approach against that of the fix at which it ends."""
    key, what = "missed-altitude", "missed approach altitude"
    missed, end = approach.chart.missed, last_fix(approach)
    if missed is None:
        yield one_sided(key, what, database="" if end is None else end.name)
    elif end is None or end.altitude_ft is None:
        yield not_compared(key, what, "missing in the chart part", chart=feet(missed.altitude_ft),
                           computed="no fix with an altitude at its end")
    else:
        yield finding(
            key, grade_of("altitude", missed.altitude_ft - end.altitude_ft), what,
            chart=feet(missed.altitude_ft), computed=f"{end.altitude_rule} {feet(end.altitude_ft)} at {end.name}",
            why="In the missed approach only this altitude keeps you clear, and traffic may hold above it.",
            action=READ_AGAIN,
        )


def words(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The text of the missed approach names its altitude, and the fix at which it ends."""
    missed, end = approach.chart.missed, last_fix(approach)
    if missed is None:
        return
    yield _altitude_in(missed)
    if end is not None:
        named = re.search(rf"\b{re.escape(end.name)}\b", missed.instruction.upper(), re.ASCII)
        yield finding(
            "missed-fix", "ok" if named else "resolve", "missed approach fix in the text",
            chart=missed.instruction, computed=end.name, why="Crews fly the text and read it back.",
            action=READ_AGAIN,
        )


def _altitude_in(missed: Missed) -> Finding:
    """The altitude against the nearest number of the text."""
    key, what = "missed-text", "missed approach altitude in the text"
    numbers = [float(number.replace(",", "")) for number in NUMBER.findall(missed.instruction)]
    if not numbers:
        return not_compared(key, what, "not read", chart=missed.instruction, computed=feet(missed.altitude_ft))
    nearest_ft = min(numbers, key=lambda number: abs(number - missed.altitude_ft))
    return finding(
        key, grade_of("altitude", nearest_ft - missed.altitude_ft), what, chart=missed.instruction,
        computed=feet(missed.altitude_ft), why="Crews fly the text and read it back.", action=READ_AGAIN,
    )


def climb(approach: Approach, on: int | None) -> Iterator[Finding]:
    """A climb gradient that a chart would print: more than the standard one, and not more than a design allows."""
    missed = approach.chart.missed
    if missed is None or missed.climb_gradient_ft_per_nm is None:
        return
    low, high = value("missed_gradient_ft_per_nm"), value("missed_gradient_highest_ft_per_nm")
    printed = missed.climb_gradient_ft_per_nm
    yield finding(
        "climb-gradient", "ok" if within(printed, low, high) else "resolve", "range of the climb gradient",
        chart=f"{quantity(printed, 'ft/NM')}", computed=f"over {number(low)}, at most {quantity(high, 'ft/NM')}",
        why="With none printed the standard applies; a steeper one may be beyond the aircraft.", action=READ_AGAIN,
    )


RULES = (altitude, words, climb)

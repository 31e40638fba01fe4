"""Check values as a table that fits a phone: expected, computed, difference, source."""

from collections.abc import Iterable

from lpv.core.text import exact, first_digit, number, printed, with_unit
from lpv.facts.sources import SOURCES
from lpv_site.checks.checks import Result
from lpv_site.text.text import escape


def source_text(key: str, place: str = "") -> str:
    """A source as one line of words: publisher, document, edition, date, place."""
    return ", ".join(escape(part) for part in (*SOURCES[key], place) if part)


def check_table(results: Iterable[Result]) -> str:
    """An HTML table of check values with what the handbook computes for each."""
    head = "".join(f"<th>{name}</th>" for name in ("expected", "computed", "difference"))
    bodies = "".join(map(_rows, results))
    return f'<table class="hb-checks" markdown="0"><thead><tr>{head}</tr></thead>{bodies}</table>\n'


def _rows(result: Result) -> str:
    """A check in three rows: what, the values, the source; on a phone four columns are too narrow for words."""
    case = result.case
    expected = printed(str(case.expected)) if hasattr(case.expected, "as_tuple") else str(case.expected)
    if result.difference is None or case.tolerance is None:
        computed, difference = escape(result.computed), "equal"
    else:
        places = max(0, -int(case.expected.as_tuple().exponent)) if hasattr(case.expected, "as_tuple") else 0
        computed = number(float(result.computed), 10.0 ** -min(places + 2, 9))
        difference = f"{first_digit(result.difference)}<br><small>within {exact(float(case.tolerance))}</small>"
    reason = f" Tolerance: {escape(case.reason)}." if case.reason else ""
    source = f"{source_text(case.source, case.place)} · {case.status}.{reason}"
    return (
        f'<tbody><tr><th colspan="3" scope="rowgroup">{escape(case.what)}</th></tr>'
        f"<tr><td>{escape(with_unit(expected, case.unit))}</td><td>{computed}</td><td>{difference}</td></tr>"
        f'<tr><td colspan="3"><small>{source}</small></td></tr></tbody>'
    )

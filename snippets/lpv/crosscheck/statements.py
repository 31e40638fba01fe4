"""Findings put together, and numbers as text in them."""

from lpv.core.course import course_tenths_text, variation_text
from lpv.core.findings import Finding, not_compared
from lpv.core.units import M_PER_FT

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade, Reason


NOISE = 1e-9  # rounding noise of numbers that should be equal


def _number(value: float, places: int) -> str:
    return f"{round(value, places) + 0.0:.{places}f}"


def ft(value: float) -> str:
    """Whole feet."""
    return _number(value, 0) + " ft"


def tenths_ft(value: float) -> str:
    """Feet and tenths, without a tenth of zero."""
    return _number(value, 1).removesuffix(".0") + " ft"


def length(value_ft: float, rule: str) -> str:
    """A length in ft; for a chart by other rules than the FAA's in metres, with the feet behind."""
    return ft(value_ft) if rule == "FAA" else f"{_number(value_ft * M_PER_FT, 0)} m ({ft(value_ft)})"


def nm(value: float) -> str:
    """Nautical miles and hundredths."""
    return _number(value, 2) + " NM"


def metres(value: float) -> str:
    """Metres and tenths, without a tenth of zero."""
    return _number(value, 1).removesuffix(".0") + " m"


def degrees(value: float) -> str:
    """An angle to 0.01 degree."""
    return _number(value, 2) + "°"


def course(value: float) -> str:
    """A course to a tenth, north 360.0°."""
    return course_tenths_text(value) + "°"


def variation(value: float) -> str:
    """A variation with its side, E13.2°."""
    return variation_text(value) + "°"


def given(value: str | None) -> str:
    """A text, or a word for none."""
    return value or "none"


def finding(
    key: str, grade: "Grade", what: str, *, chart: str = "", database: str = "", computed: str = "", why: str,
    action: str, about: str = "",
) -> Finding:
    """A Finding whose action stands only where there is something to do."""
    return Finding(key, grade, what, chart, database, computed, why, "" if grade == "ok" else action, about)


def compared(
    key: str, what: str, chart: str, database: str, *, why: str, action: str, grade: "Grade" = "stop", about: str = "",
) -> Finding:
    """A Finding for two texts that must be the same: ok if they are, else `grade`."""
    return finding(
        key, "ok" if chart == database else grade, what, chart=chart, database=database, why=why, action=action,
        about=about,
    )


def one_sided(
    key: str, what: str, *, chart: str = "", database: str = "", computed: str = "", action: str = "", about: str = "",
) -> Finding:
    """A Finding for what one part of the file lacks: not compared, with what the other part has.

    What neither part has is missing in the chart part.
    """
    reason: Reason = "missing in the database part" if chart else "missing in the chart part"
    return not_compared(
        key, what, reason, chart, database, computed, action=action or "Compare it yourself.", about=about)


def unsurveyed(key: str, what: str, *, chart: str = "", database: str = "", action: str) -> Finding:
    """A Finding for what the surveyed runway would settle, where the file does not state it: not compared."""
    return not_compared(
        key, what, "not stated", chart, database, why="The file states nothing of the runway as surveyed.",
        action=action)


def within(value: float, low: float, high: float) -> bool:
    """Whether a number lies in a range, both ends included, rounding noise aside."""
    return low - NOISE <= value <= high + NOISE


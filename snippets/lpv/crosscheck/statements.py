"""Findings put together."""

from lpv.core.findings import Finding, not_compared

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade, Reason


NOISE = 1e-9  # rounding noise of numbers that should be equal


def or_none(value: str | None) -> str:
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
        key, what, "not stated", chart, database, why="The file has no surveyed runway.",
        action=action)


def within(value: float, low: float, high: float) -> bool:
    """Whether a number lies in a range, both ends included, rounding noise aside."""
    return low - NOISE <= value <= high + NOISE

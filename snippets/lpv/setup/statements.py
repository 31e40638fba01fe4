"""Findings of the set-up check, put together."""

from lpv.core.findings import Finding, not_compared

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade


def agrees(key: str, what: str, chart: str, about: str = "", computed: str = "") -> Finding:
    """An item that is set as it should be."""
    return Finding(key, "ok", what, chart=chart, computed=computed, about=about)


def differs(
    key: str, grade: "Grade", what: str, chart: str, why: str, action: str, about: str, computed: str = ""
) -> Finding:
    """An item that is not: what is set, what it should be, why it matters, what to do."""
    return Finding(key, grade, what, chart=chart, computed=computed, why=why, action=action, about=about)


def not_stated(key: str, what: str, about: str, chart: str = "") -> Finding:
    """An item that nobody has read from the cockpit."""
    return not_compared(key, what, "not stated", chart, why="Nobody has entered what is set.",
                        action="Read it from the cockpit and enter it.", about=about)

"""Whether data are in force on a day: one answer for plan, cross-check, set-up and pages."""

from lpv.core import airac

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade


class Currency:
    """Whether a data cycle is in force on a day.

    grade: ok, stop (another cycle is in force) or not compared (no cycle, or no day);  reason: in words
    in_force: number of the cycle in force on the day, "" where no day is stated
    """

    def __init__(self, grade: "Grade", reason: str, in_force: str) -> None:
        self.grade, self.reason, self.in_force = grade, reason, in_force


def currency(cycle: "str | None", day: "int | None") -> Currency:
    """Whether a cycle is the one in force on a day (day number as in `lpv.core.airac`); its DomainErrors."""
    if day is None:
        return Currency("not compared", "No day is stated.", "")
    in_force = airac.cycle_ident(day)
    if cycle is None:
        return Currency("not compared", "No data cycle is stated.", in_force)
    if airac.in_force(cycle, day):
        return Currency("ok", f"Cycle {cycle} is in force on {airac.iso(day)}.", in_force)
    when = "has ended" if airac.expiry_ordinal(cycle) <= day else "is not yet in force"
    return Currency("stop", f"Cycle {cycle} {when} on {airac.iso(day)}; in force is {in_force}.", in_force)

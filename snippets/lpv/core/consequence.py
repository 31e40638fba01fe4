"""How serious an error is by what it does to the aircraft, not by what is wrong: one table for every check.

Each scale gives the size of an error, in its unit, from which it is a note, to resolve, a stop.  The numbers are facts
(`lpv.facts.consequence`, and for altitudes the limit of the cross-check in `lpv.facts.crosscheck`, above which the
grade begins): limits that this handbook sets, for want of a published one.
"""

from lpv.core.errors import in_range
from lpv.facts import FACTS, value_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade

# Scale -> unit, what it is an error of, and the first part of the keys of its limits.
SCALES = {
    "minimum": ("ft", "height at which the decision is made", "consequence_minimum"),
    "altitude": ("ft", "altitude of a segment, a hold or the missed approach", "limit_altitude"),
    "cold": ("ft", "altitude of the missed approach, where nobody has decided about cold", "consequence_cold"),
}


def grade_of(scale: str, error: float) -> "Grade":
    """The grade of an error of this size, whatever its sign; ok below the least that has a grade.

    scale: one of SCALES;  error: in its unit, -1e6 to 1e6.  KeyError for another scale, DomainError outside.
    """
    unit, _, first = SCALES[scale]
    size = abs(in_range("error", error, -1e6, 1e6, unit))
    for grade in ("stop", "resolve", "note"):
        key = f"{first}_{grade}_{unit}"
        if key in FACTS and (size > value_of(key) if first.startswith("limit_") else size >= value_of(key)):
            return grade
    return "ok"

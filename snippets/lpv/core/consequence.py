"""How serious an error is by what it does to the aircraft, not by what is wrong: one table for every check.

Each scale gives the size of an error, in its unit, from which it is a note, to resolve, a stop.  The numbers are facts
(`lpv.facts.consequence`): limits that this handbook sets, for want of a published one.
"""

from lpv.core.errors import in_range
from lpv.facts import value

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade

# Scale -> what it is an error of; its limits are the facts consequence_<scale>_<grade>_<unit>.
SCALES = {
    "minimum": ("ft", "height at which the decision is made"),
    "altitude": ("ft", "altitude of a segment, a hold or the missed approach"),
}


def grade_of(scale: str, error: float) -> "Grade":
    """The grade of an error of this size, whatever its sign; ok below the least that is a note.

    scale: one of SCALES;  error: in its unit, within 1e6.  KeyError for another scale, DomainError outside.
    """
    unit = SCALES[scale][0]
    size = abs(in_range("error", error, -1e6, 1e6, unit))
    for grade in ("stop", "resolve", "note"):
        if size >= value(f"consequence_{scale}_{grade}_{unit}"):
            return grade
    return "ok"

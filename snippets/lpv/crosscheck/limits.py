"""How large a difference may be before the cross-check says note, resolve or stop: one table.

The numbers are facts (`lpv.facts.crosscheck`); the page of limits prints LIMITS as it stands.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lpv.facts import FACTS, Fact

if TYPE_CHECKING:
    from lpv.core.findings import Grade

# Differences of printed numbers end in rounding noise of this order; it never decides a grade.
NOISE = 1e-9


@dataclass(frozen=True)
class Limit:
    """One quantity with the differences above which a finding is a note, to resolve, or a stop.

    key:    first part of the facts' keys
    what:   the quantity
    unit:   unit of the limits
    reason: why they are what they are
    note, resolve, stop: the limits as facts, None where that grade does not occur
    """

    key: str
    what: str
    unit: str
    reason: str

    def fact(self, grade: str) -> Fact | None:
        """The limit of a grade as a fact, None if the quantity has no such grade."""
        return FACTS.get(f"limit_{self.key}_{grade}_{self.unit.lower()}")

    @property
    def note(self) -> Fact | None:
        """Above this it is a note."""
        return self.fact("note")

    @property
    def resolve(self) -> Fact | None:
        """Above this it is to be resolved."""
        return self.fact("resolve")

    @property
    def stop(self) -> Fact | None:
        """Above this it is a stop."""
        return self.fact("stop")


LIMITS = (
    Limit("glidepath", "glidepath angle, chart against database", "deg",
          "An angle is printed to 0.01 degree, so any difference is one of the data. From 0.05 degree on it is "
          "another path: 32 ft at 6 NM."),
    Limit("tch", "threshold crossing height, chart against database", "ft",
          "Charts round to a whole foot. Ten feet are a good part of the 20 to 50 ft that wheels should have."),
    Limit("course", "final course, chart against the segment and the variation of record", "deg",
          "Course and variation may each be rounded by half a degree. A final course that is more than three "
          "degrees off is another course."),
    Limit("variation", "variation of record, against the magnetic model", "deg",
          "Variation drifts: a degree is worth knowing. Five degrees are a wrong sign or another place."),
    Limit("runway_course", "magnetic final course, against the runway number", "deg",
          "A runway number is rounded by up to five degrees and lags behind the variation. Beyond thirty "
          "degrees the approach would not be straight in."),
    Limit("across", "fix of the final segment, beside the final course", "NM",
          "A position is printed to 0.01 arc second or so; a twentieth of a mile is no rounding. 0.3 NM is "
          "full scale at the start of a long final."),
    Limit("leg_course", "course of a leg, printed against positions", "deg",
          "Printed in whole degrees, with a variation that is rounded too."),
    Limit("leg_distance", "length of a leg, printed against positions", "NM",
          "Printed to a tenth, and adjusted so that the profile adds up."),
    Limit("fix_altitude", "altitude at a fix, chart against database", "ft",
          "Both are copies of one number. From half of a 100-ft step on, obstacle clearance is in question."),
    Limit("path_rounded", "minimum altitude at a fix, against straight and barometric path", "ft",
          "Minimum altitudes are rounded to 100 ft. Between the two paths the curvature explains everything."),
    Limit("path_exact", "altitude printed as on the path, against straight and barometric path", "ft",
          "Printed in whole feet; distances and the earth's radius are rounded."),
    Limit("curvature", "straight path above the barometric path at a fix", "ft",
          "One division of an altimeter: the crew sees it and should expect it."),
    Limit("hat", "minimum less the elevation it counts from, against the printed height", "ft",
          "All three are printed in whole feet."),
    Limit("length", "length offset, against FPAP and printed runway", "m",
          "The length offset has a step of 8 m. A hundred metres are another runway or threshold."),
)
BY_KEY = {limit.key: limit for limit in LIMITS}


def grade_difference(key: str, difference: float) -> "Grade":
    """ "stop", "resolve", "note" or "ok" for a difference (of either sign) in the limit's unit."""
    names: tuple[Grade, ...] = ("stop", "resolve", "note")
    for name in names:
        limit = BY_KEY[key].fact(name)
        if limit is not None and abs(difference) > float(limit.value) + NOISE:
            return name
    return "ok"

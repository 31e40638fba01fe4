"""How serious a difference is: the one table for cross-check, set-up and drills.

A limit says what a difference does to the flight, in feet, metres or degrees: above it the difference is a note, to
resolve, or a stop.  "altitude" holds for every altitude that is flown: at a fix, in the missed approach, a setting of
the altimeter or a correction for cold, each as the feet by which the aircraft would be too low or too high.

The numbers are facts (`lpv.facts.crosscheck`); the page of limits prints LIMITS as it stands.  Runs on the phone too.
"""

from lpv.facts import FACTS, Fact

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade

# Differences of printed numbers end in rounding noise of this order; it never decides a grade.
NOISE = 1e-9
GRADED: "tuple[Grade, ...]" = ("stop", "resolve", "note")


class Limit:
    """One quantity with the differences above which a finding is a note, to resolve, or a stop.

    key:    first part of the facts' keys
    what:   the quantity
    unit:   unit of the limits
    reason: why they are what they are
    note, resolve, stop: the limits as facts, None where that grade does not occur
    """

    def __init__(self, key: str, what: str, unit: str, reason: str) -> None:
        self.key, self.what, self.unit, self.reason = key, what, unit, reason
        self.note, self.resolve, self.stop = self.fact("note"), self.fact("resolve"), self.fact("stop")

    def fact(self, grade: str) -> "Fact | None":
        """The limit of a grade as a fact, None if the quantity has no such grade."""
        return FACTS.get(f"limit_{self.key}_{grade}_{self.unit.lower()}")


LIMITS = (
    Limit("altitude", "an altitude to be flown, against the correct one", "ft",
          "Fix, missed approach, altimeter setting, correction for cold: each is feet above what is below. A copied "
          "number has no tolerance; from half of a 100-ft step on, obstacle clearance is in question."),
    Limit("glidepath", "glidepath angle, chart against database", "deg",
          "An angle is printed to 0.01 degree, so any difference is in the data. From 0.05 degree on it is "
          "another path: 32 ft at 6 NM."),
    Limit("tch", "threshold crossing height, chart against database", "ft",
          "Charts round to a whole foot. Ten feet are a large share of the 20 to 50 ft of wheel clearance."),
    Limit("geoid", "height of the threshold in the database, against elevation and geoid", "m",
          "The whole glidepath rests on it. The model is good to about half a meter; five meters are 16 ft."),
    Limit("elevation", "elevation of the threshold, chart against survey and record", "ft",
          "Charts round to a whole foot, the record to 0.1 m. Ten feet here move the crossing height by ten feet."),
    Limit("threshold_along", "LTP before or behind the surveyed threshold", "m",
          "Positions are written to 0.3 m. Thirty meters along move the glidepath five feet, and the touchdown too."),
    Limit("threshold_across", "LTP beside the surveyed threshold", "m",
          "Ten meters across are a third of a narrow runway's width. An offset approach may aim beside it on purpose: "
          "find out whether this is one."),
    Limit("runway_bearing", "final course, against the bearing of the runway", "deg",
          "A coded bearing is rounded by half a degree. More is an offset approach or another course; a stop beyond "
          "the greatest offset that the rules allow."),
    Limit("fpap", "FPAP short of the runway's far end, or of its least distance", "m",
          "The full-scale angle opens with it: 300 m short of 9023 ft make 2.2 degrees of 2."),
    Limit("course_width", "course half-width at the threshold, against its formula", "m",
          "The field has steps of 0.25 m. Ten meters change what a dot means by a tenth."),
    Limit("course", "final course, chart against the segment and the variation of record", "deg",
          "Course and variation may each be rounded by half a degree. A final course that is more than three "
          "degrees off is another course."),
    Limit("course_shown", "final course, as the aircraft shows it against the chart", "deg",
          "Half a degree is rounding. More is a note only if the cycle is in force, the true course agrees and the "
          "variation of the day explains it."),
    Limit("variation", "variation of record, against the magnetic model", "deg",
          "Variation drifts: a degree is worth knowing. Five degrees mean a wrong sign or another place."),
    Limit("variation_year", "variation of record, against the model of its own year", "deg",
          "Rounded by half a degree, and the model is good for a quarter. More is a wrong value or a wrong year."),
    Limit("runway_course", "magnetic final course, against the runway number", "deg",
          "A runway number is rounded by up to five degrees and lags behind the variation. Beyond thirty "
          "degrees the approach would not be straight in."),
    Limit("across", "fix of the final segment, beside the final course", "NM",
          "A position is printed to 0.01 arc second or so; a twentieth of a mile is no rounding. 0.3 NM is as much "
          "as full scale at the start of a long final."),
    Limit("leg_course", "course of a leg, against positions", "deg",
          "Printed in whole degrees, with a variation that is rounded too."),
    Limit("leg_course_copy", "course of a leg, chart against database", "deg",
          "Both copy the same number."),
    Limit("leg_distance", "length of a leg, against positions", "NM",
          "Printed to a tenth, and adjusted so that the profile adds up."),
    Limit("leg_distance_copy", "length of a leg, chart against database", "NM",
          "Both copy the same number."),
    Limit("path_rounded", "minimum altitude at a fix, against straight and barometric path", "ft",
          "Minimum altitudes are rounded to 100 ft. Anything between the two paths comes from the earth's curvature."),
    Limit("path_exact", "altitude printed as on the path, against straight and barometric path", "ft",
          "Printed in whole feet; distances and the earth's radius are rounded."),
    Limit("curvature", "straight path above the barometric path at a fix", "ft",
          "One division of an altimeter: the crew sees it, and should expect it."),
    Limit("hat", "minimum less the elevation it counts from, against the printed height", "ft",
          "All three are printed in whole feet."),
    Limit("length", "length offset, against FPAP and printed runway", "m",
          "The length offset has a step of 8 m. Three steps mean another runway or threshold."),
    Limit("runway_length", "length of the runway or of its displacement, chart against survey", "ft",
          "Surveys are rounded and repeated; 200 ft mean another runway, or a moved threshold."),
)
BY_KEY = {limit.key: limit for limit in LIMITS}


def grade_difference(key: str, difference: float) -> "Grade":
    """ "stop", "resolve", "note" or "ok" for a difference (of either sign) in the limit's unit."""
    for name in GRADED:
        limit = BY_KEY[key].fact(name)
        if limit is not None and abs(difference) > float(limit.value) + NOISE:
            return name
    return "ok"



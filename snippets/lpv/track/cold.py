"""What cold did to a recorded approach: whether altitude at the PFAF and minimum were corrected for it.

The altimeter reads too much in cold.  Judged is the true altitude at the PFAF against the charted one, since that is
what an addition keeps; an addition that was rounded, or a path captured above it, is no fault.  The additions are the
FAA's for all segments (`lpv.plan.cold`), asked for where the chart prints a temperature for them.  Without a stated
temperature nothing is said.
"""

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.facts import value
from lpv.track.against import charted_ft, da_ft
from lpv.track.flown import Flown, Moment
from lpv.track.points import Point
from lpv.track.words import feet, whole

NEVER_DOWN_FT = 0.5  # half of a whole foot: what a minimum in whole feet may lack


class AtFix:
    """The PFAF, passed in cold.

    charted_ft:   its altitude on the chart
    corrected_ft: with the FAA's addition; None where the chart does not ask for one at this temperature
    lower_ft:     how much lower than charted the aircraft truly was; negative where it was higher
    sure:         whether that is more than the recording's uncertainty
    """

    def __init__(
        self, name: str, at: Point, charted_ft: float, corrected_ft: "float | None", lower_ft: float, sure: bool,
    ) -> None:
        self.name, self.at, self.charted_ft, self.corrected_ft = name, at, charted_ft, corrected_ft
        self.lower_ft, self.sure = lower_ft, sure


def at_pfaf(flown: Flown) -> "AtFix | None":
    """The PFAF in cold; None where no temperature is stated, it is not cold, or the recording does not tell."""
    passed, fix = flown.passed_distance(flown.scales.pfaf_nm), flown.approach.pfaf
    if not _is_told(flown) or passed is None or passed.gap_s or fix.altitude_ft is None or passed.at.true_ft is None:
        return None
    temperature_c = flown.levels.temperature_c
    corrected_ft = None
    if flown.approach.is_cold(temperature_c):
        corrected_ft = fix.altitude_ft + segment_addition_ft(_height_ft(flown, fix.altitude_ft), temperature_c)
    lower_ft = fix.altitude_ft - passed.at.true_ft
    sure = lower_ft > flown.path_uncertainty_ft(passed.at)
    return AtFix(fix.name, passed.at, fix.altitude_ft, corrected_ft, lower_ft, sure)


def explains_low(flown: Flown, at: Point) -> bool:
    """Whether low at the PFAF is the charted altitude on the altimeter, in cold that nobody asked to correct.

    That is so where the chart asks for no addition: the path is then met inside the PFAF, and nobody did wrong.
    """
    found = at_pfaf(flown)
    if found is None or found.corrected_ft is not None or at.indicated_ft is None:
        return False
    return at.indicated_ft >= found.charted_ft - value("altimeter_ground_check_ft")


def _is_told(flown: Flown) -> bool:
    """Cold by the chart, or under `recording_cold_c`; without a stated temperature nobody knows."""
    levels = flown.levels
    cold = levels.temperature_c < value("recording_cold_c") or flown.approach.is_cold(levels.temperature_c)
    return levels.temperature_stated and cold


def minimum_asked_ft(flown: Flown) -> "float | None":
    """The corrected DA, not under the operator's own; None where the chart asks for no correction, or has no line."""
    altitude_ft = charted_ft(flown.approach, flown.aircraft)
    levels = flown.levels
    if altitude_ft is None or not levels.temperature_stated or not flown.approach.is_cold(levels.temperature_c):
        return None
    addition_ft = minimum_addition_ft(_height_ft(flown, altitude_ft), levels.temperature_c)
    return da_ft(flown.approach, flown.aircraft, altitude_ft + addition_ft)


def _height_ft(flown: Flown, altitude_ft: float) -> float:
    """Above the airport, which additions count from."""
    return max(0.0, altitude_ft - flown.approach.airport_ft)


def cold_moments(flown: Flown) -> "list[Moment]":
    """The PFAF in cold, in words and judged where the chart asks for an addition."""
    found = at_pfaf(flown)
    if found is None or (found.corrected_ft is None and not found.sure):
        return []
    read = "the altimeter read" if flown.levels.barometric else "the altimeter should have read"
    where = (f"{found.name} is charted at {feet(found.charted_ft)}; {read} {feet(found.at.indicated_ft or 0.0)}, "
             f"at {degrees_c(flown.levels.temperature_c)} truly {feet(found.at.true_ft or 0.0)}")
    lower = f"{where}, {feet(found.lower_ft)} lower."
    if found.corrected_ft is None:
        return [Moment("cold", found.at, f"Cold: {lower} {_not_asked(flown)}")]
    if found.sure:
        addition_ft = found.corrected_ft - found.charted_ft
        return [Moment("cold", found.at, f"Cold, and no addition that keeps the charted altitude: {lower} The FAA's "
                       f"rule adds {feet(addition_ft)}: {feet(found.corrected_ft)}.", False)]
    return [Moment("cold", found.at, f"Cold, corrected: {where}, not lower than charted.", True)]


def cold_minimum(flown: Flown) -> "list[Moment]":
    """The minimum taken, against the corrected one, where the altimeter passed it."""
    asked_ft = minimum_asked_ft(flown)
    if asked_ft is None or flown.minimum_ft is None or flown.minimum is None:
        return []
    good = flown.minimum_ft >= asked_ft - NEVER_DOWN_FT
    taken = f"{feet(flown.minimum_ft)}{'' if flown.minimum_stated else ', as no other is stated'}"
    return [Moment("cold minimum", flown.minimum.at, "The minimum in cold: corrected by the FAA's rule "
                   f"{feet(asked_ft)}; taken as used {taken}.", good)]


def in_words(flown: Flown) -> str:
    """The PFAF in cold in a few words; "" where nothing is said of cold."""
    found = at_pfaf(flown)
    if found is None:
        return ""
    lower = f"truly {feet(found.lower_ft)} lower than charted at {found.name}" if found.sure else ""
    if found.corrected_ft is None:
        return lower
    return f"not corrected: {lower}" if lower else "corrected"


def degrees_c(temperature_c: float) -> str:
    """A temperature with a true minus sign."""
    return f"{whole(temperature_c)} °C".replace("-", "\u2212")


def _not_asked(flown: Flown) -> str:
    """Why no addition is asked for, and who decides then."""
    limit_c = flown.approach.cold_c
    if limit_c is not None:
        return f"The chart asks for an addition only at {degrees_c(limit_c)} and below."
    if flown.approach.rule == "FAA":
        return "The chart prints no temperature for it; in extreme cold a crew may still ask (FAA)."
    return "The chart prints no temperature for it: from when to add, the State and the operator say."

"""How far the altitude of a recording can be believed, in feet and against the scale of the path."""

from dataclasses import dataclass

from lpv.approach.record import Approach
from lpv.track.levels import levels_of
from lpv.track.records import GEOMETRIC, Conditions, Recording
from lpv.track.target import Target

STANDARD_DAY = Conditions(temperature_c=15.0, qnh_hpa=1013.25)
DOTS_FULL_SCALE = 2.0


@dataclass(frozen=True)
class Uncertainty:
    """Either way, about nineteen times in twenty: in feet, and in dots of the path where the aircraft then is."""

    height_ft: float
    dots: float


def altitude_uncertainty(
    approach: Approach, reference: str, altitude_ft: float, distance_nm: float, given: Conditions = STANDARD_DAY,
) -> Uncertainty:
    """The uncertainty of a recorded altitude on an LPV approach, without the noise of the samples.

    reference: one of `lpv.track.records.REFERENCES`;  distance_nm: before the threshold
    """
    target = Target(approach)
    both = (reference, "") if reference in GEOMETRIC else ("", reference)
    height_ft = levels_of(Recording("", *both, (), 6), target, given).uncertainty_ft(altitude_ft)
    return Uncertainty(height_ft, DOTS_FULL_SCALE * height_ft / target.path_ft(distance_nm))

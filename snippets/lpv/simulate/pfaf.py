"""Why a simulated flight crosses the PFAF above or below its charted altitude, in words with the figures.

Three things do it: the SBAS path is straight while charted altitudes follow the curved earth, the altimeter hangs on
the temperature, and a path that is met from below is captured before it is reached.
"""

from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.core.text import feet, trimmed_quantity
from lpv.core.units import FT_PER_NM
from lpv.path.temperature import path_met_distance_nm
from lpv.simulate.records import Flight, Sample
from lpv.simulate.report import summary

WORTH_TELLING_FT = 1.0
ON_PATH_FT = 20.0
LEVEL_FT = 10.0


def why_not_charted(flight: Flight, approach: Approach) -> str:
    """One or two sentences; "" where altimeter and true altitude are the charted one, or the PFAF is not reached.

    DomainError for a temperature or altitudes outside what `lpv.path.temperature` takes.
    """
    at, charted_ft = summary(flight).pfaf, approach.pfaf.altitude_ft
    if at is None or charted_ft is None:
        return ""
    off_ft = at.indicated_ft - charted_ft
    if abs(off_ft) < WORTH_TELLING_FT:
        return _truly(at, charted_ft)
    side = f"{feet(abs(off_ft))} {'above' if off_ft > 0.0 else 'below'} the charted altitude on the altimeter"
    return f"{side}: {_reason(flight, approach, at, charted_ft)}"


def _truly(at: Sample, charted_ft: float) -> str:
    lower_ft = charted_ft - at.altitude_ft
    if abs(lower_ft) < ON_PATH_FT:
        return ""
    side = "lower, in cold air" if lower_ft > 0.0 else "higher, in hot air"
    return f"At the charted altitude on the altimeter, in fact {feet(abs(lower_ft))} {side}."


def _reason(flight: Flight, approach: Approach, at: Sample, charted_ft: float) -> str:
    if at.state.vertical == "captured":
        if at.source != "SBAS":
            return f"on the glidepath of the {at.source}."
        if abs(at.path_ft) < ON_PATH_FT:
            return f"on the glidepath. {_path_reads_more(at, charted_ft)}"
        if _captured_level(flight, charted_ft):
            inside_ft = (at.along_nm - _met_nm(flight, approach, charted_ft)) * FT_PER_NM
            return (f"flown level, the glidepath would be met {feet(inside_ft)} inside the FAF; captured from "
                    "below, it starts the descent a little earlier, before the fix.")
    side = "above" if at.path_ft > 0.0 else "below"
    return f"{feet(abs(at.path_ft))} {side} the glidepath."


def _captured_level(flight: Flight, charted_ft: float) -> bool:
    """Whether the path was captured at the charted altitude of the PFAF."""
    captured = summary(flight).path_captured
    return captured is not None and abs(captured.indicated_ft - charted_ft) < LEVEL_FT


def _path_reads_more(at: Sample, charted_ft: float) -> str:
    higher_ft, air_ft = at.altitude_ft - charted_ft, at.indicated_ft - at.altitude_ft
    text = f"The straight glidepath is {feet(higher_ft)} above the charted altitude, which follows the curved earth"
    if abs(air_ft) < WORTH_TELLING_FT:
        return text + "."
    return f"{text}; {'cold adds' if air_ft > 0.0 else 'heat takes off'} {feet(abs(air_ft))} on the altimeter."


def _met_nm(flight: Flight, approach: Approach, charted_ft: float) -> float:
    chart, coded = approach.chart, approach.segment
    if coded.gpa_deg <= 0.0:
        raise DomainError(f"glidepath angle: found {trimmed_quantity(coded.gpa_deg, 'deg')}; "
                          "allowed: an approach with a glidepath.")
    return path_met_distance_nm(
        charted_ft, chart.threshold_elevation_ft, coded.tch_ft, coded.gpa_deg, flight.scenario.story.temperature_c,
        chart.airport_elevation_ft)

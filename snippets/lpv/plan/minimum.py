"""Planning: the minimum to set for a line of minima: printed, additions of the day, operator's floors."""

from lpv.approach.record import Approach
from lpv.approach.schema import Minima
from lpv.core.errors import DomainError
from lpv.core.units import M_PER_FT, M_PER_SM
from lpv.decide.minima import Minimum, minimum_to_use
from lpv.decide.visibility import visibility_for_rvr_sm
from lpv.plan.case import Case
from lpv.plan.cold import is_cold, minimum_ft


def minimum_of(case: Case, row: Minima) -> Minimum:
    """The minimum to set for a line: printed, additions, operator's floors.

    The operator's addition to an MDA is put on top, so that a go-around does not go below it.  The height is
    the one without the cold correction: that is how high the aircraft then truly is.
    DomainError where the chart prints no visibility, or a value lies outside the tables.
    """
    flight, operator, cold_ft = case.scenario.flight, case.aircraft.operator, cold_addition_ft(case, row)
    height_ft = operator.lowest_da_above_tdze_ft if row.kind == "DA" else 0.0
    found = minimum_to_use(
        row.altitude_ft, printed_visibility_sm(row), _base_ft(case.approach, row),
        flight.remote_addition_ft or 0.0, cold_ft, flight.visibility_addition_sm or 0.0,
        height_ft, operator.lowest_visibility_sm, flight.zone_not_clear and row.kind == "DA",
    )
    added_ft = operator.above_mda_ft if row.kind == "MDA" else 0.0
    altitude_from, visibility_from = found.altitude_from, found.visibility_from
    if added_ft:
        altitude_from += f", plus the operator's {added_ft:.0f} ft above an MDA"
    if row.visibility_sm is None and row.visibility_m is None:
        visibility_from = visibility_from.replace("printed visibility", "printed RVR by the table of 14 CFR 91.175(h)")
    return Minimum(
        found.altitude_ft + added_ft, found.hat_ft + added_ft - cold_ft, found.visibility_sm, altitude_from,
        visibility_from,
    )


def _base_ft(approach: Approach, row: Minima) -> float:
    """What heights count from: the airport for circling, else the touchdown zone, or the threshold without one."""
    chart = approach.chart
    return chart.airport_elevation_ft if row.line == "circling" else chart.touchdown_zone_ft


def cold_addition_ft(case: Case, row: Minima) -> float:
    """The addition to a minimum at a cold-temperature airport, at and below its temperature; else 0.

    Height above the airport; AIM 7-3-5 (FAA).  Where the list of cold temperature airports marks segments
    and the final one is not among them, nothing is added.
    """
    flight = case.scenario.flight
    if not is_cold(case.approach, flight.temperature_c):
        return 0.0
    if flight.cold_segments and "final" not in flight.cold_segments:
        return 0.0
    return minimum_ft(case.approach, row, flight.temperature_c)


def printed_visibility_sm(row: Minima) -> float:
    """The printed visibility in SM; RVR in ft by the table of 14 CFR 91.175(h). DomainError for none."""
    if row.visibility_sm is not None:
        return row.visibility_sm
    if row.rvr_ft is not None:
        return visibility_for_rvr_sm(row.rvr_ft)
    if row.visibility_m is not None:
        return row.visibility_m / M_PER_SM
    if row.rvr_m is not None:
        return visibility_for_rvr_sm(row.rvr_m / M_PER_FT)
    raise DomainError(f"line {row.line}: found no visibility; allowed: one of visibility and RVR.")

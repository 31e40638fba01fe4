"""The schedule of a type on an approach, made of their records for `lpv.intercept.schedule`."""

from lpv.aircraft.record import CLEAN, Aircraft
from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.intercept.schedule import Descent, Schedule, Slowed


def descent(approach: Approach) -> Descent:
    """Where the glidepath of an approach is; DomainError on LP, and without an altitude at the PFAF."""
    pfaf_ft = approach.pfaf.altitude_ft
    if pfaf_ft is None:
        raise DomainError("altitude of the FAF: found none; allowed: a number.")
    return Descent(pfaf_distance_nm(approach), pfaf_ft, approach.chart.airport_elevation_ft, *glidepath(approach))


def slowed(aircraft: Aircraft, weight_lb: float) -> Slowed:
    """How a type slows down at a weight: from the limit speed of its first step.  DomainError as `vref_kt`."""
    steps, first_limit_kt = aircraft.energy_steps(weight_lb, 0.0), aircraft.schedule[0].limit_kt
    brake = aircraft.speed_brake
    return Slowed(
        [step.label for step in aircraft.schedule], steps,
        steps[0].target_kt if first_limit_kt is None else first_limit_kt, aircraft.drag_rows(CLEAN),
        aircraft.flying.spool_up_s, 0.0 if brake is None else brake.adds_kt_per_s,
        0.0 if brake is None else brake.lowest_ft)


def planned(
    approach: Approach, aircraft: Aircraft, weight_lb: float, tailwind_kt: float = 0.0, late_nm: float = 0.0,
) -> Schedule:
    """The schedule of a type at a weight on an approach, every step so much nearer to the threshold than its file says.

    DomainError as `descent` and `slowed`.
    """
    return Schedule(descent(approach), slowed(aircraft, weight_lb), tailwind_kt, late_nm)

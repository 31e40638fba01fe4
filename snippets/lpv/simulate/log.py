"""Samples and judged gates of a simulated flight, made from its point mass and its modes."""

import math

from lpv.core.errors import DomainError
from lpv.core.units import FPS_PER_KT, FT_PER_NM, degrees_360
from lpv.decide.stabilised import DONE, Gate, Item, evaluate
from lpv.decide.stabilised import State as Judged
from lpv.modes.annunciation import announce
from lpv.modes.rules import Rules
from lpv.modes.state import FLYING, State, source
from lpv.simulate.guides import Guide
from lpv.simulate.point_mass import Orders, Point, between, drag_kt_per_s, motion_of
from lpv.simulate.records import JudgedGate, Sample
from lpv.simulate.setting import Setting

POWER_SET_WITHIN_KT = 5.0
GATE_MOST_DOTS = 10.0  # of lpv.decide.stabilised


def sample(
    setting: Setting, time_s: float, point: Point, state: State, orders: Orders, configuration: str,
    autopilot: str = "", leg: Guide | None = None,
) -> Sample:
    """The sample of one moment; leg: what the FMS flies along; autopilot: as in Sample."""
    motion = motion_of(point, setting.air)
    at, sbas, shown = (point.along_ft, point.across_ft), setting.guides["SBAS"], setting.shown(state, leg)
    return Sample(
        time_s, point.along_ft / FT_PER_NM, point.across_ft, point.altitude_ft,
        setting.air.indicated_ft(point.altitude_ft),
        degrees_360(math.degrees(point.heading) + setting.course_deg),
        degrees_360(math.degrees(math.atan2(motion.right, motion.ahead)) + setting.course_deg),
        math.degrees(point.bank), point.airspeed_kt, orders.speed_kt,
        math.hypot(motion.ahead, motion.right) / FPS_PER_KT, point.climb_fps * 60.0,
        motion.airspeed / FPS_PER_KT, point.thrust, drag_kt_per_s(point, orders),
        sbas.above_ft(*at, point.altitude_ft), sbas.course_dots(*at),
        _path_dots(setting, point),
        shown.course_dots(*at) if shown else None, _shown_path_dots(setting, point, state),
        shown.course_scale_ft(point.along_ft / FT_PER_NM) if shown else None,
        source(state, FLYING, setting.aircraft.rules), configuration, autopilot, state,
        annunciated(state, setting.aircraft.rules, autopilot),
    )


def annunciated(state: State, rules: Rules, autopilot: str) -> tuple[str, ...]:
    """What a crew is shown of the modes and, where it is annunciated, of the autopilot."""
    return announce(state, rules) + ((f"autopilot: {autopilot}",) if autopilot else ())


def _path_dots(setting: Setting, point: Point) -> float:
    dots = setting.guides["SBAS"].path_dots(point.along_ft, point.across_ft, point.altitude_ft)
    if dots is None:
        raise DomainError("glidepath deviation: found none; allowed: an approach with a glidepath.")
    return dots


def _shown_path_dots(setting: Setting, point: Point, state: State) -> float | None:
    guide = setting.path_guide(state)
    return guide.path_dots(point.along_ft, point.across_ft, point.altitude_ft) if guide else None


def judged(setting: Setting, gate: Gate, at_gate: Sample, configured: bool) -> JudgedGate:
    """A gate judged on a sample.

    Guidance has to be captured, course and path.  Deviations are those shown; one that is not shown is not met.
    Speed counts from VREF at published gates, from the last target of the schedule at the operator's own.  Power counts
    as set within 5 kt of the target speed; briefings and checklists are taken as complete.
    """
    done = [DONE[2]]
    if configured:
        done.append(DONE[0])
    if abs(at_gate.airspeed_kt - at_gate.target_kt) <= POWER_SET_WITHIN_KT:
        done.append(DONE[1])
    items = evaluate(gate, Judged(
        gate.height_ft, at_gate.airspeed_kt, setting.vref_kt if gate.source else setting.speeds_kt[-1],
        -at_gate.climb_fpm, _dots(at_gate.shown_course_dots), _dots(at_gate.shown_path_dots),
        at_gate.bank_deg, tuple(done),
    ))
    return JudgedGate(gate, at_gate, (*items, guidance_item(at_gate.state)))


def guidance_item(state: State) -> Item:
    """Whether course and path are captured on the flying side."""
    missing = [name for name, mode in (("course", state.lateral), ("glidepath", state.vertical)) if mode != "captured"]
    captured = " and ".join(missing) + " not captured" if missing else "both captured"
    return Item("guidance", "course and glidepath captured", captured, not missing)


def _dots(shown: float | None) -> float | None:
    return None if shown is None else between(-GATE_MOST_DOTS, shown, GATE_MOST_DOTS)

"""What can happen next in a simulated flight, and when it does.

Everything is a margin: a number for a state of the point mass that is negative until the thing happens.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from lpv.aircraft.schema import WIND_NOT_COUNTED
from lpv.core.text import feet
from lpv.core.units import FT_PER_NM
from lpv.modes.autopilot import ENGAGED
from lpv.modes.machine import step
from lpv.modes.state import followed_source, vertical_source
from lpv.simulate.descent import Descent, slowing_ft
from lpv.simulate.guides import Guide
from lpv.simulate.point_mass import Point, motion_of, turn_ends_beside_ft, without_wind
from lpv.simulate.run import Run

CLOSE_DOTS = 0.2  # a course this close is captured, whatever turn onto it there is left to fly
CLEARLY_BESIDE_FT = 100.0
SAME_TIME_S = 1e-9
LEVELLED_FT = 20.0


@dataclass(frozen=True)
class Watch:
    """Something that can happen: `act` is due once the margin is no longer negative."""

    margin: Callable[[Point], float]
    act: Callable[[], None]


def watches(run: Run) -> list[Watch]:
    """Everything that can happen next; of two things at the same time the first in this list comes first."""
    return [*_heights(run), *_event(run), *_schedule(run), *_modes(run), *_legs(run), *_missed(run)]


def next_timer_s(run: Run) -> float:
    """The next time at which something happens by the clock; infinity if nothing does."""
    moving_s = run.set_at_s[run.moved] if run.moved < len(run.set_at_s) else math.inf
    return min(_event_due_s(run), moving_s, math.inf if run.rotation_s is None else run.rotation_s)


def _by_the_clock(run: Run, due_s: float) -> Callable[[Point], float]:
    return lambda _: 0.0 if run.time_s >= due_s - SAME_TIME_S else -1.0


def _event_due_s(run: Run) -> float:
    if not run.pending:
        return math.inf
    event = run.pending[0]
    if event.time_s is not None:
        return event.time_s
    return math.inf if event.after_s is None else run.happened_s + event.after_s


def _event(run: Run) -> list[Watch]:
    """The next event of the scenario, by the clock or by a place."""
    if not run.pending:
        return []
    event = run.pending[0]
    if event.distance_nm is not None:
        at_ft = event.distance_nm * FT_PER_NM
        return [Watch(lambda point: at_ft - point.along_ft, run.happen)]
    if event.across_nm is not None:
        right_ft = event.across_nm * FT_PER_NM
        return [Watch(_passing(run, lambda point: point.across_ft - right_ft), run.happen)]
    if event.altitude_ft is not None:
        level_ft, air = event.altitude_ft, run.setting.air
        return [Watch(_passing(run, lambda point: air.indicated_ft(point.altitude_ft) - level_ft), run.happen)]
    return [Watch(_by_the_clock(run, _event_due_s(run)), run.happen)]


def _legs(run: Run) -> list[Watch]:
    """The end of the coded leg that the FMS lateral mode flies; the fixes of the descent and their speed limits."""
    at_route = [Watch(run.route.margin, run.sequence)] if run.route and run.leg else []
    return [*_fixes(run, run.descent), *at_route] if run.descent is not None else at_route


def _fixes(run: Run, descent: Descent) -> list[Watch]:
    """The next fix of a descent, and the next speed limit in time to slow down to it."""
    air, orders, watching = run.setting.air, run.orders, []
    limit = next((bound for bound in reversed(descent.bounds) if (bound.speed_kt or math.inf) < orders.speed_kt), None)
    if descent.bounds:
        next_ft = descent.bounds[-1].to_go_ft
        watching.append(Watch(lambda point: next_ft - descent.to_go_ft(point), run.pass_fix))
    if limit is not None:
        watching.insert(0, Watch(
            lambda point: slowing_ft(point, orders, air, limit.speed_kt or 0.0) + limit.to_go_ft
            - descent.to_go_ft(point),
            lambda: run.slow_for(limit)))
    return watching


def _to_fly(run: Run, at_ft: float, limit_kt: float = math.inf) -> Callable[[Point], float]:
    """Margin of a distance to fly to the threshold, at no more than a speed.

    The distance is along the final course, or along the coded legs to the PFAF and on.
    """
    route, pfaf_ft = run.route, run.setting.pfaf_nm * FT_PER_NM
    if route is None or run.leg is None:
        return lambda point: min(at_ft - point.along_ft, limit_kt - point.airspeed_kt)
    return lambda point: min(at_ft - route.to_go_ft(point) - pfaf_ft, limit_kt - point.airspeed_kt)


def _passing(run: Run, beyond: Callable[[Point], float]) -> Callable[[Point], float]:
    """The margin of passing a value in either direction, from the side on which the waiting began."""
    key = f"waiting {len(run.pending)}"
    if key not in run.sides:
        run.sides[key] = math.copysign(1.0, beyond(run.point))
    side = run.sides[key]
    return lambda point: -side * beyond(point)


def _schedule(run: Run) -> list[Watch]:
    """Speed and configuration by the distance to the PFAF, the rotation of a go-around by the clock."""
    watching, steps, pfaf_ft = [], run.setting.steps, run.setting.pfaf_nm * FT_PER_NM
    if run.rotation_s is not None:
        watching.append(Watch(_by_the_clock(run, run.rotation_s), run.rotate))
    if run.moved < len(run.set_at_s):
        watching.append(Watch(_by_the_clock(run, run.set_at_s[run.moved]), run.have_moved))
    if run.state.phase == "missed":
        return watching
    if run.next_speed < len(steps):
        begins_ft = pfaf_ft + steps[run.next_speed].before_pfaf_nm * FT_PER_NM
        watching.append(Watch(_to_fly(run, begins_ft), run.set_speed))
    if len(run.set_at_s) < len(steps):
        row = steps[len(run.set_at_s)]
        from_ft = pfaf_ft + row.before_pfaf_nm * FT_PER_NM
        watching.append(Watch(_to_fly(run, from_ft, row.limit_kt or math.inf), run.configure))
    return watching


def _modes(run: Run) -> list[Watch]:
    """What the modes wait for: the course, the path, the PFAF."""
    watching = []
    if _matters(run, "arming distance reached"):
        watching.append(Watch(lambda point: _near_margin(run, point), lambda: run.apply("arming distance reached")))
    if _matters(run, "course reached"):
        watching.append(Watch(lambda point: _course_margin(run, point), lambda: run.apply("course reached")))
    if _matters(run, "path reached from below"):
        watching.append(Watch(
            lambda point: _path_margin(run, point, -1.0), lambda: run.apply("path reached from below")))
    if _matters(run, "path reached from above"):
        watching.append(Watch(
            lambda point: _path_margin(run, point, 1.0), lambda: run.apply("path reached from above")))
    if _matters(run, "PFAF passed"):
        watching.append(Watch(_to_fly(run, run.setting.pfaf_nm * FT_PER_NM), lambda: run.apply("PFAF passed")))
    return watching


def _matters(run: Run, event: str) -> bool:
    return step(run.state, event, run.rules) != run.state


def _course_margin(run: Run, point: Point) -> float:
    """Whether the course is close enough to be captured, at an angle at which it is; later by the type's lag.

    The lag is counted on a straight track, as flown before a capture: what was so that long ago, at this speed.
    """
    setting, capture = run.setting, run.setting.aircraft.capture
    if capture.lag_s:
        motion = motion_of(point, setting.air)
        point = point._replace(
            along_ft=point.along_ft + motion.ahead * capture.lag_s,
            across_ft=point.across_ft - motion.right * capture.lag_s)
    guide = setting.guides[followed_source(run.state, run.rules)]
    off_deg = math.degrees(abs(math.remainder(point.heading - guide.turn_rad, 2.0 * math.pi)))
    dots = CLOSE_DOTS if capture.lateral_dots is None else capture.lateral_dots
    margin = dots - abs(guide.course_dots(point.along_ft, point.across_ft))
    if capture.lateral == "by turn lead":
        margin = max(margin, _lead_margin(run, point, guide))
    return min(margin, capture.largest_intercept_deg - off_deg)


def _near_margin(run: Run, point: Point) -> float:
    """Whether the aircraft is within the distance at which its type arms, on a track that the type takes."""
    setting, capture = run.setting, run.setting.aircraft.capture
    if capture.arms_within_nm is None:
        return -1.0
    margin_nm = capture.arms_within_nm - setting.distance_nm(point, str(capture.arms_within_of))
    if capture.arms_within_deg is None:
        return margin_nm
    motion = motion_of(point, setting.air)
    return min(margin_nm, capture.arms_within_deg - abs(math.degrees(math.atan2(motion.right, motion.ahead))))


def _lead_margin(run: Run, point: Point, guide: Guide) -> float:
    """Whether the turn onto the course, begun now, ends on it or beyond it.

    Within full scale also while flying away from the course.  A type that does not count the wind takes heading and
    airspeed for track and ground speed.
    """
    motion = motion_of(point, run.setting.air)
    if run.setting.aircraft.capture.lead_wind == WIND_NOT_COUNTED:
        motion = without_wind(point, motion)
    ends_ft = turn_ends_beside_ft(point, motion, guide, run.setting.limits)
    beside_ft = guide.beside_ft(point.along_ft, point.across_ft)
    late_ft = -math.copysign(1.0, beside_ft) * ends_ft
    if abs(beside_ft) <= guide.course_scale_ft(point.along_ft / FT_PER_NM):
        late_ft = max(late_ft, abs(ends_ft) - abs(beside_ft) - 1.0)
    return late_ft / FT_PER_NM


def _path_margin(run: Run, point: Point, side: float) -> float:
    """Whether the path is close enough to be captured, coming from below (-1) or from above (1)."""
    guide, band = run.setting.guides[vertical_source(run.state, run.rules)], run.setting.aircraft.capture.vertical_dots
    before, dots = (guide.path_dots(at.along_ft, at.across_ft, at.altitude_ft) for at in (run.point, point))
    if before is None or dots is None:
        return -1.0
    if abs(before) > band or "path" not in run.sides:
        run.sides["path"] = math.copysign(1.0, before)
    margin = band - abs(dots) if run.sides["path"] == side else -1.0
    return min(margin, _beside_margin(run, point, guide))


def _beside_margin(run: Run, point: Point, guide: Guide) -> float:
    """Whether the course is near enough for a path that is captured on its own; always once it is captured."""
    bound = run.setting.aircraft.capture.vertical_lateral_dots
    if run.state.lateral == "captured" or bound is None:
        return 1.0
    return bound - abs(guide.course_dots(point.along_ft, point.across_ft))


def _heights(run: Run) -> list[Watch]:
    """Gates and the minimum by the altimeter, the ground, and a course that is flown through."""
    if run.state.phase == "missed":
        return []
    ground_ft, air = run.setting.approach.chart.threshold_elevation_ft, run.setting.air
    watching = [
        Watch(lambda point: ground_ft - point.altitude_ft, run.land),
        Watch(lambda point: _through_margin(run, point), run.pass_through),
    ]
    lowest_ft = run.setting.aircraft.flying.autopilot_lowest_ft
    if run.autopilot == ENGAGED and lowest_ft is not None and "autopilot low" not in run.passed:
        watching.append(Watch(lambda point: ground_ft + lowest_ft - point.altitude_ft, run.autopilot_too_low))
    if run.gates_left:
        gate = run.gates_left[0]
        gate_ft = run.setting.gate_altitude_ft(gate)
        watching.append(Watch(lambda point: gate_ft - air.indicated_ft(point.altitude_ft), run.judge))
    if "minimum" not in run.passed:
        minimum_ft = run.setting.minimum_ft
        watching.append(Watch(
            lambda point: minimum_ft - air.indicated_ft(point.altitude_ft),
            lambda: run.once("minimum", f"The altimeter shows the minimum, {feet(minimum_ft)}")))
    return watching


def _through_margin(run: Run, point: Point) -> float:
    """Whether the final course is passed without being captured, from where the aircraft was clearly beside it."""
    if run.orders.course is not None:
        run.sides.pop("course", None)
    elif abs(run.point.across_ft) >= CLEARLY_BESIDE_FT:
        run.sides["course"] = math.copysign(1.0, run.point.across_ft)
    return -run.sides["course"] * point.across_ft if "course" in run.sides else -1.0


def _missed(run: Run) -> list[Watch]:
    """After a go-around: the lowest point, the missed approach point, the altitude to climb to."""
    if run.state.phase != "missed":
        return []
    watching = []
    if "lowest" not in run.passed and run.rotation_s is None:
        watching.append(Watch(lambda point: point.climb_fps, lambda: run.once("lowest", "Lowest point")))
    if "missed approach point" not in run.passed:
        watching.append(Watch(lambda point: -point.along_ft, run.begin_missed))
    if "lowest" in run.passed and "level" not in run.passed:
        top_ft = run.orders.altitude_ft - LEVELLED_FT
        watching.append(Watch(lambda point: min(point.altitude_ft - top_ft, -point.along_ft), run.level_off))
    return watching

"""Energy on an approach: how fast an aircraft slows down, level and on a path, and what a schedule makes of it.

Along the flight path an aircraft of mass m obeys  m dV/dt = T - D + m g sin(c)  with c the angle below the horizon at
which it moves through the air.  A type is described by the deceleration at idle in level flight, a = (D - T) / m, for
each configuration and indicated airspeed; it is that of the true airspeed, since drag and weight hang on the
indicated one.  Everything else follows: on a path it slows by a - g sin(c), and gains speed where that is negative.

Distances are before the threshold in NM, speeds in kt, angles in degrees down, decelerations in kt/s.  The wind is
steady along the way; `shear_kt_per_s` has what a changing one adds.
"""

import math

from lpv.core.errors import DomainError, above, in_range
from lpv.core.units import FT_PER_NM, M_PER_FT, MPS_PER_KT, STANDARD_GRAVITY_MPS2

GRAVITY_KT_PER_S = STANDARD_GRAVITY_MPS2 / MPS_PER_KT
GRAVITY_FPS2 = STANDARD_GRAVITY_MPS2 / M_PER_FT
FPS_PER_KT = FT_PER_NM / 3600.0
# v dv/ds = -a, with v in kt, s in NM and a in kt/s: v1^2 = v0^2 - 2 * 3600 a s
KT2_PER_NM = 7200.0
STEP_NM = 0.01
STEEPEST_DEG = 15.0
MOST_EXTRA_KT_PER_S = 5.0
EARLIEST_NM, LATEST_NM = -15.0, 30.0  # how far a schedule is shifted in the search for its latest place
HALVINGS = 13  # of a search: to a hundredth of a mile, or of a knot
ON_SPEED_KT = 0.5


def _level(level_kt_per_s: float) -> float:
    return in_range("deceleration in level flight", level_kt_per_s, 0.0, 10.0, "kt/s")


def gravity_kt_per_s(angle_deg: float) -> float:
    """What gravity adds to the speed, kt/s, on a path of 0 to 15 deg down through the air: g sin(c)."""
    in_range("path angle", angle_deg, 0.0, STEEPEST_DEG, "deg")
    return GRAVITY_KT_PER_S * math.sin(math.radians(angle_deg))


def path_deceleration_kt_per_s(level_kt_per_s: float, angle_deg: float) -> float:
    """Deceleration at idle on a path, kt/s: a - g sin(c); negative where the aircraft gains speed.

    level_kt_per_s: in level flight at idle, 0 to 10;  angle_deg: down through the air, 0 to 15; DomainError outside
    """
    return _level(level_kt_per_s) - gravity_kt_per_s(angle_deg)


def steepest_held_deg(level_kt_per_s: float) -> float:
    """Angle down through the air, deg, at which idle just holds the speed: asin(a / g); steeper gains speed."""
    return math.degrees(math.asin(_level(level_kt_per_s) / GRAVITY_KT_PER_S))


def air_angle_deg(ground_angle_deg: float, true_airspeed_kt: float, tailwind_kt: float) -> float:
    """Angle down through the air, deg, of a path over the ground: the same descent, at the airspeed.

    sin(c) = (V cos + tailwind) tan(path) / V, with the cosine of these small angles as 1.  Steeper with a tailwind.
    ground_angle_deg: 0 to 10; true_airspeed_kt: 30 to 600; tailwind_kt: -150 to 150; DomainError outside, and for a
    headwind as strong as the airspeed
    """
    in_range("path angle", ground_angle_deg, 0.0, 10.0, "deg")
    in_range("true airspeed", true_airspeed_kt, 30.0, 600.0, "kt")
    in_range("tailwind", tailwind_kt, -150.0, 150.0, "kt")
    ground_kt = above("ground speed", true_airspeed_kt + tailwind_kt, 1.0, "kt")
    return math.degrees(math.asin(ground_kt / true_airspeed_kt * math.tan(math.radians(ground_angle_deg))))


def energy_height_ft(height_ft: float, true_airspeed_kt: float) -> float:
    """Height, ft, at which all energy would be height: h + V^2 / 2g, for 0 to 1000 kt and -2000 to 60 000 ft."""
    in_range("height", height_ft, -2000.0, 60000.0, "ft")
    in_range("true airspeed", true_airspeed_kt, 0.0, 1000.0, "kt")
    return height_ft + (true_airspeed_kt * FPS_PER_KT) ** 2 / (2.0 * GRAVITY_FPS2)


def energy_rate_fps(level_kt_per_s: float, true_airspeed_kt: float) -> float:
    """How fast energy height is lost at idle, ft/s, whatever the path: V a / g."""
    in_range("true airspeed", true_airspeed_kt, 0.0, 1000.0, "kt")
    return true_airspeed_kt * FPS_PER_KT * _level(level_kt_per_s) / GRAVITY_KT_PER_S


def shear_kt_per_s(tailwind_growth_kt_per_1000_ft: float, sink_rate_fpm: float) -> float:
    """Airspeed lost to a wind that changes on the way down, kt/s: tailwind gained per 1000 ft down, times the descent.

    tailwind_growth_kt_per_1000_ft: -200 to 200, positive: more tailwind, or less headwind, lower down;
    sink_rate_fpm: 0 to 6000; DomainError outside
    """
    in_range("change of wind", tailwind_growth_kt_per_1000_ft, -200.0, 200.0, "kt")
    in_range("rate of descent", sink_rate_fpm, 0.0, 6000.0, "ft/min")
    return tailwind_growth_kt_per_1000_ft * sink_rate_fpm / 60000.0


def slowing_distance_nm(from_kt: float, to_kt: float, deceleration_kt_per_s: float) -> float:
    """Distance over the ground, NM, in which a ground speed falls to another at a constant rate: (v0^2 - v1^2) / 2a.

    from_kt: to_kt to 1000; to_kt: 1 to 1000; deceleration: 0.01 to 10 kt/s; DomainError outside
    """
    in_range("speed to slow down to", to_kt, 1.0, 1000.0, "kt")
    in_range("speed to slow down from", from_kt, to_kt, 1000.0, "kt")
    in_range("deceleration", deceleration_kt_per_s, 0.01, 10.0, "kt/s")
    return (from_kt**2 - to_kt**2) / (KT2_PER_NM * deceleration_kt_per_s)


def level_deceleration_kt_per_s(rows: "list[tuple[float, float]]", airspeed_kt: float) -> float:
    """Deceleration in level flight at idle, kt/s, at an indicated airspeed: a straight line between the rows.

    rows: (airspeed kt, deceleration kt/s), speeds rising; outside them the nearest row holds.  DomainError without any.
    """
    if not rows:
        raise DomainError("rows of drag: found none; allowed: at least one.")
    if airspeed_kt <= rows[0][0]:
        return rows[0][1]
    for number in range(1, len(rows)):
        (slow_kt, slow), (fast_kt, fast) = rows[number - 1], rows[number]
        if airspeed_kt <= fast_kt:
            return slow + (airspeed_kt - slow_kt) / (fast_kt - slow_kt) * (fast - slow)
    return rows[-1][1]


class Step:
    """One step of a schedule of speed and configuration.

    begins_nm: before the threshold, where its target speed is taken and its configuration asked for
    target_kt: indicated airspeed to slow down to;  limit_kt: highest speed to begin moving it at
    takes_s:   from then until it has moved;  rows: drag once it has, as `level_deceleration_kt_per_s`
    """

    def __init__(
        self, begins_nm: float, target_kt: float, limit_kt: float, takes_s: float, rows: "list[tuple[float, float]]",
    ) -> None:
        self.begins_nm = in_range("distance of a step", begins_nm, -60.0, 60.0, "NM")
        self.target_kt = in_range("speed of a step", target_kt, 40.0, 400.0, "kt")
        self.limit_kt = above("limit speed of a step", limit_kt, 0.0, "kt")
        self.takes_s = in_range("time of a step", takes_s, 0.0, 120.0, "s")
        self.rows = rows

    def later(self, shift_nm: float) -> "Step":
        """The same step, so much nearer to the threshold."""
        return Step(self.begins_nm - shift_nm, self.target_kt, self.limit_kt, self.takes_s, self.rows)


class Course:
    """The way flown: level to the PFAF, then down a path to the threshold.

    pfaf_nm: 0.1 to 50;  angle_deg: of the path over the ground, 0 to 10
    true_per_indicated: true over indicated airspeed, 0.8 to 2;  tailwind_kt: -100 to 100
    """

    def __init__(self, pfaf_nm: float, angle_deg: float, true_per_indicated: float, tailwind_kt: float) -> None:
        self.pfaf_nm = in_range("distance of the FAF", pfaf_nm, 0.1, 50.0, "NM")
        self.angle_deg = in_range("path angle", angle_deg, 0.0, 10.0, "deg")
        self.true_per_indicated = in_range("true over indicated airspeed", true_per_indicated, 0.8, 2.0)
        self.tailwind_kt = in_range("tailwind", tailwind_kt, -100.0, 100.0, "kt")

    def air_angle_deg(self, distance_nm: float, airspeed_kt: float) -> float:
        """Angle down through the air at a distance: 0 outside the PFAF."""
        if distance_nm > self.pfaf_nm:
            return 0.0
        return air_angle_deg(self.angle_deg, airspeed_kt * self.true_per_indicated, self.tailwind_kt)


class Moment:
    """One moment on the way.

    distance_nm, airspeed_kt, time_s: where, how fast (indicated), since the beginning
    moved:      how many steps of the schedule have finished moving
    rate_kt_per_s: deceleration that idle gives there, of true airspeed; negative: it gains speed
    """

    def __init__(
        self, distance_nm: float, airspeed_kt: float, time_s: float, moved: int, rate_kt_per_s: float,
    ) -> None:
        self.distance_nm, self.airspeed_kt, self.time_s = distance_nm, airspeed_kt, time_s
        self.moved, self.rate_kt_per_s = moved, rate_kt_per_s


def slow_down(
    rows: "list[tuple[float, float]]", steps: "list[Step]", from_nm: float, first_kt: float, course: Course,
    extra_kt_per_s: float = 0.0, extra_to_nm: float = 0.0,
) -> "list[Moment]":
    """The way from `from_nm` to the threshold, a moment every hundredth of a mile.

    Idle while faster than the target; at the target, thrust holds it where idle would lose speed, and where idle gains
    speed the aircraft accelerates.  A configuration begins to move at its place, or once the speed is under its limit.
    rows: drag before the first step; steps: in the order flown; from_nm: 0.1 to 60; first_kt: 40 to 400
    extra_kt_per_s: drag besides, such as a speed brake, 0 to 5, out to where it is stowed, extra_to_nm.  DomainError
    outside.
    """
    _check(steps, from_nm, first_kt, course, extra_kt_per_s)
    factor, tail = course.true_per_indicated, course.tailwind_kt
    distance, airspeed, time_s = from_nm, first_kt, 0.0
    ends_s: list[float] = []  # when each step that has begun will have moved
    moments = []
    while True:
        if len(ends_s) < len(steps) and _begins(steps[len(ends_s)], distance, airspeed):
            ends_s.append(max(time_s, ends_s[-1] if ends_s else 0.0) + steps[len(ends_s)].takes_s)
        moved = len([end for end in ends_s if end <= time_s])
        drag = steps[moved - 1].rows if moved else rows
        level = level_deceleration_kt_per_s(drag, airspeed) + (extra_kt_per_s if distance >= extra_to_nm else 0.0)
        rate = level - gravity_kt_per_s(course.air_angle_deg(distance, airspeed))
        moments.append(Moment(distance, airspeed, time_s, moved, rate))
        if distance <= 0.0:
            return moments
        step = min(STEP_NM, distance)
        before = airspeed * factor + tail
        slowed = (math.sqrt(max(0.0, before**2 - KT2_PER_NM * rate * step)) - tail) / factor
        airspeed = _next(airspeed, slowed, _target(steps, distance, first_kt))
        time_s += step / (before + airspeed * factor + tail) * 2.0 * 3600.0
        distance = 0.0 if step < STEP_NM else round(distance - step, 9)


def _begins(step: Step, distance_nm: float, airspeed_kt: float) -> bool:
    return distance_nm <= step.begins_nm + STEP_NM / 1000.0 and airspeed_kt <= step.limit_kt


def _target(steps: "list[Step]", distance_nm: float, first_kt: float) -> float:
    begun = [step.target_kt for step in steps if step.begins_nm >= distance_nm - STEP_NM / 1000.0]
    return begun[-1] if begun else first_kt


def _next(airspeed_kt: float, idle_kt: float, target_kt: float) -> float:
    """The airspeed after a step: what idle gives, but not under the target nor, by thrust, under what is flown."""
    if idle_kt > airspeed_kt:
        return idle_kt
    return max(idle_kt, min(airspeed_kt, target_kt))


def _check(steps: "list[Step]", from_nm: float, first_kt: float, course: Course, extra_kt_per_s: float) -> None:
    in_range("beginning of the way", from_nm, 0.1, 60.0, "NM")
    in_range("first speed", first_kt, 40.0, 400.0, "kt")
    in_range("extra drag", extra_kt_per_s, 0.0, MOST_EXTRA_KT_PER_S, "kt/s")
    farthest_nm, slowest_kt = 60.0, first_kt
    for step in steps:
        in_range("distance of a step", step.begins_nm, -60.0, farthest_nm, "NM")
        farthest_nm, slowest_kt = step.begins_nm, min(slowest_kt, step.target_kt)
    above("ground speed", slowest_kt * course.true_per_indicated + course.tailwind_kt, 1.0, "kt")


def moment_at(moments: "list[Moment]", distance_nm: float) -> Moment:
    """The last moment at or outside a distance before the threshold; DomainError before the first moment."""
    in_range("distance before the threshold", distance_nm, 0.0, moments[0].distance_nm, "NM")
    low, high = 0, len(moments) - 1
    while low < high:
        middle = (low + high + 1) // 2
        if moments[middle].distance_nm >= distance_nm:
            low = middle
        else:
            high = middle - 1
    return moments[low]


def reached_nm(moments: "list[Moment]", airspeed_kt: float) -> "float | None":
    """Distance before the threshold, NM, at which the airspeed has come down; None if it never does."""
    for moment in moments:
        if moment.airspeed_kt <= airspeed_kt + 1e-9:
            return moment.distance_nm
    return None


def ready(moments: "list[Moment]", steps: "list[Step]", gate_nm: float, settled_s: float = 0.0) -> bool:
    """Whether every step has moved and the last target is reached, within half a knot, at a distance.

    settled_s: for how long before, so that the thrust can have come up to what the path asks for
    """
    at = moment_at(moments, gate_nm)
    return _ready(at, steps) and all(
        _ready(moment, steps) for moment in moments if at.time_s - settled_s <= moment.time_s <= at.time_s)


def _ready(at: Moment, steps: "list[Step]") -> bool:
    return at.moved == len(steps) and at.airspeed_kt <= steps[-1].target_kt + ON_SPEED_KT


def latest_shift_nm(
    rows: "list[tuple[float, float]]", steps: "list[Step]", from_nm: float, first_kt: float, course: Course,
    gate_nm: float, settled_s: float = 0.0,
) -> "float | None":
    """How much nearer to the threshold, NM, the whole schedule may begin and still be ready at a distance.

    Negative where it must begin sooner; None if beginning 15 NM sooner does not do either.  Arguments as `slow_down`;
    the way begins where the first step does, if that is farther out.  Found by halving.
    """
    def is_ready(shift_nm: float) -> bool:
        shifted = [step.later(shift_nm) for step in steps]
        begins_nm = min(60.0, max(from_nm, shifted[0].begins_nm, gate_nm + STEP_NM))
        return ready(slow_down(rows, shifted, begins_nm, first_kt, course), shifted, gate_nm, settled_s)

    soonest_nm = max(EARLIEST_NM, steps[0].begins_nm - 60.0)
    return _last_true(is_ready, soonest_nm, LATEST_NM)


def latest_last_step_nm(
    rows: "list[tuple[float, float]]", steps: "list[Step]", from_nm: float, first_kt: float, course: Course,
    gate_nm: float, settled_s: float = 0.0,
) -> "float | None":
    """The last place, NM before the threshold, at which the last step alone may begin; None if there is none.

    Not farther out than where the step before it begins.
    """
    def is_ready(begins_nm: float) -> bool:
        moved = list(steps)
        moved[-1] = steps[-1].later(steps[-1].begins_nm - begins_nm)
        return ready(slow_down(rows, moved, from_nm, first_kt, course), moved, gate_nm, settled_s)

    farthest_nm = steps[-2].begins_nm if len(steps) > 1 else from_nm
    found = _last_true(lambda nearer_nm: is_ready(farthest_nm - nearer_nm), 0.0, farthest_nm)
    return None if found is None else farthest_nm - found


def fastest_kt(
    rows: "list[tuple[float, float]]", steps: "list[Step]", from_nm: float, highest_kt: float, course: Course,
    gate_nm: float, settled_s: float = 0.0, extra_kt_per_s: float = 0.0, extra_to_nm: float = 0.0,
) -> "float | None":
    """The highest first speed, kt, up to highest_kt, from which a schedule is ready at a distance.

    None if the last target, as the first speed, is too fast: there is no time to move what is left.
    highest_kt: from the last target to 400;  the rest as `slow_down`.  Found by halving.
    """
    def is_ready(first_kt: float) -> bool:
        way = slow_down(rows, steps, from_nm, first_kt, course, extra_kt_per_s, extra_to_nm)
        return ready(way, steps, gate_nm, settled_s)

    return _last_true(is_ready, steps[-1].target_kt, highest_kt)


def _last_true(holds: "object", low: float, high: float) -> "float | None":
    """The greatest value, by halving, at which something holds that holds below and not above; None if not at low."""
    if not holds(low):  # type: ignore[operator]
        return None
    if holds(high):  # type: ignore[operator]
        return high
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        if holds(middle):  # type: ignore[operator]
            low = middle
        else:
            high = middle
    return low

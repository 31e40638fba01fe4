"""Energy on an approach: how fast an aircraft slows down, level and on a path, and what a schedule makes of it.

Along the flight path an aircraft of mass m obeys  m dV/dt = T - D + m g sin(c)  with c the angle below the horizon at
which it moves through the air.  A type is described by the deceleration at idle in level flight, a = (D - T) / m, for
each configuration and indicated airspeed; it is that of the true airspeed, since drag and weight hang on the
indicated one.  Everything else follows: on a path it slows by a - g sin(c), and gains speed where that is negative.

Distances are before the threshold in NM, speeds in kt, angles in degrees down, decelerations in kt/s.  The wind is
steady along the way; `shear_kt_per_s` has what a changing one adds.  A way begins 0.1 to 60 NM out, its steps -60 to
60 NM out and within 120 s; it is flown with more than 1 kt over the ground.  DomainError outside.
"""

import math

from lpv.core.errors import DomainError, above, in_range
from lpv.core.units import FPS_PER_KT, M_PER_FT, MPS_PER_KT, STANDARD_GRAVITY_MPS2

GRAVITY_KT_PER_S = STANDARD_GRAVITY_MPS2 / MPS_PER_KT
GRAVITY_FPS2 = STANDARD_GRAVITY_MPS2 / M_PER_FT
# v dv/ds = -a, with v in kt, s in NM and a in kt/s: v1^2 = v0^2 - 2 * 3600 a s
KT2_PER_NM = 7200.0
STEP_NM = 0.01
NEAR_NM, NEAR_KT, NEAR_S = 1e-6, 1e-6, 1e-6  # as good as there
STEEPEST_DEG = 15.0
MAX_EXTRA_KT_PER_S = 5.0
EARLIEST_NM, LATEST_NM = -15.0, 30.0  # how far a schedule is shifted in the search for its latest place
FOUND_KT, FOUND_NM = 0.05, 0.03  # as near as a search finds a speed, or a distance on a coarse way
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
    """How fast energy height is lost at idle, ft/s, whatever the path: V a / g; airspeed 0 to 1000 kt."""
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
    slow_kt, slow = rows[0]
    if airspeed_kt <= slow_kt:
        return slow
    for fast_kt, fast in rows:
        if airspeed_kt <= fast_kt:
            return slow + (airspeed_kt - slow_kt) / (fast_kt - slow_kt) * (fast - slow)
        slow_kt, slow = fast_kt, fast
    return slow


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
    step_nm: how finely the way is worked out, 0.001 to 0.25;  gate_nm: where a moment is wanted besides, 0: nowhere
    """

    def __init__(
        self, pfaf_nm: float, angle_deg: float, true_per_indicated: float, tailwind_kt: float,
        step_nm: float = STEP_NM, gate_nm: float = 0.0,
    ) -> None:
        self.pfaf_nm = in_range("distance of the FAF", pfaf_nm, 0.1, 50.0, "NM")
        self.angle_deg = in_range("path angle", angle_deg, 0.0, 10.0, "deg")
        self.true_per_indicated = in_range("true over indicated airspeed", true_per_indicated, 0.8, 2.0)
        self.tailwind_kt = in_range("tailwind", tailwind_kt, -100.0, 100.0, "kt")
        self.step_nm, self.gate_nm = in_range("step of the way", step_nm, 0.001, 0.25, "NM"), gate_nm
        self._on_path_kt_per_s = GRAVITY_KT_PER_S * math.tan(math.radians(angle_deg))

    def air_angle_deg(self, distance_nm: float, airspeed_kt: float) -> float:
        """Angle down through the air at a distance: 0 outside the PFAF."""
        if distance_nm > self.pfaf_nm:
            return 0.0
        return air_angle_deg(self.angle_deg, airspeed_kt * self.true_per_indicated, self.tailwind_kt)

    def gravity_kt_per_s(self, distance_nm: float, airspeed_kt: float) -> float:
        """What gravity adds to the speed at a distance, kt/s: g sin(c) by `air_angle_deg`, without the angle itself."""
        if distance_nm > self.pfaf_nm:
            return 0.0
        true_kt = airspeed_kt * self.true_per_indicated
        return self._on_path_kt_per_s * (true_kt + self.tailwind_kt) / true_kt


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
    extra_kt_per_s: float = 0.0, extra_to_nm: float = 0.0, to_nm: float = 0.0,
) -> "list[Moment]":
    """The way from `from_nm` to the threshold, or to to_nm before it, a moment at every step of the course.

    Idle while faster than the target; at the target, thrust holds it where idle would lose speed, and where idle gains
    speed the aircraft accelerates.  A configuration begins to move at its place, or once the speed is under its limit.
    rows: drag before the first step; steps: in the order flown; from_nm: 0.1 to 60; first_kt: 40 to 400
    extra_kt_per_s: drag besides, such as a speed brake, 0 to 5, out to where it is stowed, extra_to_nm.  DomainError
    outside.
    """
    _check(steps, from_nm, first_kt, course, extra_kt_per_s)
    return _Way(rows, steps, from_nm, first_kt, course, extra_kt_per_s, extra_to_nm).fly(to_nm)


class _Way:
    """A way that is being flown: what it was begun with, as `slow_down`, and how far it has come.

    ends_s: when each step that has begun will have moved;  aimed: how many target speeds have been taken
    """

    def __init__(
        self, rows: "list[tuple[float, float]]", steps: "list[Step]", from_nm: float, first_kt: float, course: Course,
        extra_kt_per_s: float, extra_to_nm: float,
    ) -> None:
        self.rows, self.steps, self.course, self.first_kt = rows, steps, course, first_kt
        self.extra_kt_per_s, self.stowed_nm = extra_kt_per_s, extra_to_nm
        self.distance_nm, self.airspeed_kt, self.time_s, self.moved, self.aimed = from_nm, first_kt, 0.0, 0, 0
        self.ends_s = []  # type: list[float]

    def turned(self, steps: "list[Step]") -> "_Way":
        """The same way so far, to be flown on with other steps than those that have not begun."""
        other = _Way(
            self.rows, steps, self.distance_nm, self.first_kt, self.course, self.extra_kt_per_s, self.stowed_nm)
        other.airspeed_kt, other.time_s, other.ends_s = self.airspeed_kt, self.time_s, list(self.ends_s)
        other.moved, other.aimed = self.moved, self.aimed
        return other

    def fly(self, to_nm: float) -> "list[Moment]":
        """Fly on to a distance; a moment at every step.  A step ends where something begins or has moved."""
        course, steps, ends_s, moments = self.course, self.steps, self.ends_s, []
        factor, tail, pfaf_nm, stowed_nm = course.true_per_indicated, course.tailwind_kt, course.pfaf_nm, self.stowed_nm
        # No step goes past the PFAF, the gate, the place where one begins or where the speed brake is stowed.
        stops_nm = sorted([pfaf_nm, course.gate_nm, stowed_nm, to_nm] + [step.begins_nm for step in steps])
        distance, airspeed, time_s, moved, aimed = (
            self.distance_nm, self.airspeed_kt, self.time_s, self.moved, self.aimed)
        while True:
            begun = len(ends_s)
            if begun < len(steps) and distance <= steps[begun].begins_nm + NEAR_NM and (
                    airspeed <= steps[begun].limit_kt + NEAR_KT):
                ends_s.append(max(time_s, ends_s[-1] if ends_s else 0.0) + steps[begun].takes_s)
                begun += 1
            while moved < begun and ends_s[moved] <= time_s + NEAR_S:
                moved += 1
            rate = level_deceleration_kt_per_s(steps[moved - 1].rows if moved else self.rows, airspeed)
            if distance > stowed_nm + NEAR_NM:
                rate += self.extra_kt_per_s
            if distance <= pfaf_nm + NEAR_NM:
                rate -= course.gravity_kt_per_s(pfaf_nm, airspeed)
            moments.append(Moment(distance, airspeed, time_s, moved, rate))
            left_nm = distance - to_nm
            if left_nm <= 0.0:
                break
            while aimed < len(steps) and steps[aimed].begins_nm >= distance - NEAR_NM:
                aimed += 1
            while stops_nm and distance - stops_nm[-1] <= NEAR_NM:
                stops_nm.pop()
            before, step = airspeed * factor + tail, course.step_nm
            if stops_nm and distance - stops_nm[-1] < step:
                step = distance - stops_nm[-1]
            target_kt = steps[aimed - 1].target_kt if aimed else self.first_kt
            if moved < begun:  # nor past the time at which the next will have moved
                step = max(NEAR_NM, min(step, (ends_s[moved] - time_s) * before / 3600.0))
            waits = begun < aimed and airspeed > steps[begun].limit_kt + NEAR_KT
            down_to_kt = max(target_kt, steps[begun].limit_kt) if waits else target_kt
            if airspeed > down_to_kt + NEAR_KT and rate > 0.0:  # nor under the target, or a limit that is waited for
                down_to = down_to_kt * factor + tail
                step = max(NEAR_NM, min(step, (before * before - down_to * down_to) / (KT2_PER_NM * rate)))
            slowed = (math.sqrt(max(0.0, before * before - KT2_PER_NM * rate * step)) - tail) / factor
            # Thrust holds the target, and what is flown where that is slower; where idle gains speed nothing holds it.
            if slowed <= airspeed:
                slowed = max(slowed, min(airspeed, target_kt))
            airspeed = slowed
            time_s += step / (before + airspeed * factor + tail) * 2.0 * 3600.0
            distance = to_nm if step >= left_nm else round(distance - step, 9)
        self.distance_nm, self.airspeed_kt, self.time_s = distance, airspeed, time_s
        self.moved, self.aimed = moved, aimed
        return moments


def _check(steps: "list[Step]", from_nm: float, first_kt: float, course: Course, extra_kt_per_s: float) -> None:
    in_range("beginning of the way", from_nm, 0.1, 60.0, "NM")
    in_range("first speed", first_kt, 40.0, 400.0, "kt")
    in_range("extra drag", extra_kt_per_s, 0.0, MAX_EXTRA_KT_PER_S, "kt/s")
    farthest_nm, slowest_kt = 60.0, first_kt
    for step in steps:
        in_range("distance of a step", step.begins_nm, -60.0, farthest_nm, "NM")
        farthest_nm, slowest_kt = step.begins_nm, min(slowest_kt, step.target_kt)
    above("ground speed", slowest_kt * course.true_per_indicated + course.tailwind_kt, 1.0, "kt")


def moment_at(moments: "list[Moment]", distance_nm: float) -> Moment:
    """The last moment at or outside a distance before the threshold; DomainError before the first moment."""
    return moments[_place_at(moments, distance_nm)]


def _place_at(moments: "list[Moment]", distance_nm: float) -> int:
    in_range("distance before the threshold", distance_nm, 0.0, moments[0].distance_nm, "NM")
    low, high = 0, len(moments) - 1
    while low < high:
        middle = (low + high + 1) // 2
        if moments[middle].distance_nm >= distance_nm - NEAR_NM:
            low = middle
        else:
            high = middle - 1
    return low


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
    place = _place_at(moments, gate_nm)
    since_s = moments[place].time_s - settled_s
    if not is_ready(moments[place], steps):
        return False
    while place >= 0 and is_ready(moments[place], steps):
        if moments[place].time_s <= since_s + NEAR_S:
            return True
        place -= 1
    if place < 0 or moments[place].moved < len(steps):
        return place < 0
    # Between two moments the speed comes down evenly.
    before, after, last_kt = moments[place], moments[place + 1], steps[-1].target_kt + ON_SPEED_KT
    share = (before.airspeed_kt - last_kt) / (before.airspeed_kt - after.airspeed_kt)
    return before.time_s + share * (after.time_s - before.time_s) <= since_s + NEAR_S


def is_ready(at: Moment, steps: "list[Step]") -> bool:
    """Whether at a moment every step has moved and the last target is reached, within half a knot."""
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
        way = slow_down(rows, shifted, begins_nm, first_kt, course, to_nm=gate_nm)
        return ready(way, shifted, gate_nm, settled_s)

    soonest_nm = max(EARLIEST_NM, steps[0].begins_nm - 60.0)
    return _last_true(is_ready, soonest_nm, LATEST_NM, min(FOUND_NM, course.step_nm))


def latest_last_step_nm(
    rows: "list[tuple[float, float]]", steps: "list[Step]", from_nm: float, first_kt: float, course: Course,
    gate_nm: float, settled_s: float = 0.0,
) -> "float | None":
    """The last place, NM before the threshold, at which the last step alone may begin; None if there is none.

    Not farther out than where the step before it begins.
    """
    farthest_nm = steps[-2].begins_nm if len(steps) > 1 else from_nm
    if farthest_nm < gate_nm:
        return None
    _check(steps, from_nm, first_kt, course, 0.0)
    before = _Way(rows, steps[:-1], from_nm, first_kt, course, 0.0, 0.0)
    flown = before.fly(farthest_nm) if farthest_nm < from_nm else []

    def is_ready(nearer_nm: float) -> bool:
        moved = list(steps)
        moved[-1] = steps[-1].later(steps[-1].begins_nm - farthest_nm + nearer_nm)
        return ready(flown + before.turned(moved).fly(gate_nm), moved, gate_nm, settled_s)

    beyond_nm = _last_true(is_ready, 0.0, farthest_nm - gate_nm, min(FOUND_NM, course.step_nm))
    return None if beyond_nm is None else farthest_nm - beyond_nm


def fastest_kt(
    rows: "list[tuple[float, float]]", steps: "list[Step]", from_nm: float, highest_kt: float, course: Course,
    gate_nm: float, settled_s: float = 0.0, extra_kt_per_s: float = 0.0, extra_to_nm: float = 0.0,
) -> "float | None":
    """The highest first speed, kt, up to highest_kt, from which a schedule is ready at a distance.

    None if the last target, as the first speed, is too fast: there is no time to move what is left.
    highest_kt: from the last target to 400;  the rest as `slow_down`.  Found by halving.
    """
    def is_ready(first_kt: float) -> bool:
        way = slow_down(rows, steps, from_nm, first_kt, course, extra_kt_per_s, extra_to_nm, gate_nm)
        return ready(way, steps, gate_nm, settled_s)

    return _last_true(is_ready, steps[-1].target_kt, highest_kt, FOUND_KT)


def _last_true(holds: "object", low: float, high: float, within: float) -> "float | None":
    """The greatest value, by halving, at which something holds that holds below and not above; None if not at low."""
    if not holds(low):  # type: ignore[operator]
        return None
    if holds(high):  # type: ignore[operator]
        return high
    while high - low > within:
        middle = (low + high) / 2.0
        if holds(middle):  # type: ignore[operator]
            low = middle
        else:
            high = middle
    return low

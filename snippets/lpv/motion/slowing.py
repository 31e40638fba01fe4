"""Slowing down along the way to the runway, by a schedule of speeds.

Distances are before the threshold.  Airspeeds are indicated; the ground speed is
airspeed times a constant factor for true airspeed, plus a steady tailwind (negative:
headwind).  The deceleration is constant in level flight, and another constant on the
path from the PFAF on.  Configuration acts only through these two figures.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from lpv.core.errors import DomainError, above, in_range

STEP_NM = 0.01
# v dv/ds = -a, with v in kt, s in NM and a in kt/s: v1^2 = v0^2 - 2 * 3600 a s
KT2_PER_NM = 7200.0


@dataclass(frozen=True)
class Moment:
    """Where the aircraft is, how fast it then flies, and since when it has been on its way."""

    distance_nm: float
    airspeed_kt: float
    time_s: float


def slowing_distance_nm(from_kt: float, to_kt: float, deceleration_kt_per_s: float) -> float:
    """Distance over the ground, NM, in which a ground speed falls to another at a constant rate.

    from_kt: to_kt to 1000; to_kt: 1 to 1000; deceleration: 0.01 to 10 kt/s; DomainError outside
    Source: (v0^2 - v1^2) / 2a
    """
    in_range("speed to slow down to", to_kt, 1.0, 1000.0, "kt")
    in_range("speed to slow down from", from_kt, to_kt, 1000.0, "kt")
    in_range("deceleration", deceleration_kt_per_s, 0.01, 10.0, "kt/s")
    return (from_kt**2 - to_kt**2) / (KT2_PER_NM * deceleration_kt_per_s)


def slow_down(
    schedule: Sequence[tuple[float, float]], first_kt: float, pfaf_nm: float, level_kt_per_s: float,
    path_kt_per_s: float, true_per_indicated: float, tailwind_kt: float,
) -> list[Moment]:
    """The way from the first step of a schedule to the threshold, a moment every hundredth of a mile.

    schedule: (distance before the threshold, NM; airspeed to slow down to, kt), in the
        order flown: distances at most 60 NM and falling, speeds 40 to 400 kt and not rising
    first_kt: airspeed at the first step, 40 to 400;  pfaf_nm: 0.1 to 50
    level_kt_per_s, path_kt_per_s: deceleration outside and inside the PFAF, 0 to 10 kt/s
    true_per_indicated: 0.8 to 2;  tailwind_kt: -100 to 100, and less headwind than airspeed
    Raises DomainError outside.
    """
    _check(schedule, first_kt, pfaf_nm, true_per_indicated, tailwind_kt)
    for deceleration in (level_kt_per_s, path_kt_per_s):
        in_range("deceleration", deceleration, 0.0, 10.0, "kt/s")
    distance, airspeed, time_s = schedule[0][0], first_kt, 0.0
    moments = [Moment(distance, airspeed, time_s)]
    while distance > 0.0:
        target = [kt for begins, kt in schedule if begins >= distance - STEP_NM / 1000.0][-1]
        step = min(STEP_NM, distance)
        rate = level_kt_per_s if distance > pfaf_nm else path_kt_per_s
        before = airspeed * true_per_indicated + tailwind_kt
        slowed = math.sqrt(max(0.0, before**2 - KT2_PER_NM * rate * true_per_indicated * step))
        airspeed = min(airspeed, max(target, (slowed - tailwind_kt) / true_per_indicated))
        after = airspeed * true_per_indicated + tailwind_kt
        time_s += step / (before + after) * 2.0 * 3600.0
        distance = 0.0 if step < STEP_NM else round(distance - step, 9)
        moments.append(Moment(distance, airspeed, time_s))
    return moments


def _check(
    schedule: Sequence[tuple[float, float]], first_kt: float, pfaf_nm: float,
    true_per_indicated: float, tailwind_kt: float,
) -> None:
    if not schedule:
        raise DomainError("schedule: found no step; allowed: at least one.")
    in_range("first speed", first_kt, 40.0, 400.0, "kt")
    in_range("distance of the FAF", pfaf_nm, 0.1, 50.0, "NM")
    in_range("true over indicated airspeed", true_per_indicated, 0.8, 2.0)
    in_range("tailwind", tailwind_kt, -100.0, 100.0, "kt")
    farthest_nm, fastest_kt = 60.0, 400.0
    for distance_nm, speed_kt in schedule:
        in_range("distance of a step", distance_nm, -60.0, farthest_nm, "NM")
        in_range("speed of a step", speed_kt, 40.0, fastest_kt, "kt")
        farthest_nm, fastest_kt = distance_nm, speed_kt
    above("distance of the first step", schedule[0][0], 0.0, "NM")
    slowest_kt = min(first_kt, schedule[-1][1])
    above("ground speed", slowest_kt * true_per_indicated + tailwind_kt, 1.0, "kt")


def reached_nm(moments: Sequence[Moment], airspeed_kt: float) -> float | None:
    """Distance before the threshold, NM, at which the airspeed has come down; None if it never does."""
    slow = (moment.distance_nm for moment in moments if moment.airspeed_kt <= airspeed_kt + 1e-9)
    return next(slow, None)


def moment_at(moments: Sequence[Moment], distance_nm: float) -> Moment:
    """The last moment at or outside a distance before the threshold; DomainError before the first moment."""
    in_range("distance before the threshold", distance_nm, 0.0, moments[0].distance_nm, "NM")
    return moments[bisect_right(moments, -distance_nm, key=lambda moment: -moment.distance_nm) - 1]

"""The end of a recorded approach: below the minimum, the threshold, the runway, the go-around.

A recording does not hold what was in sight.  So continuing below the minimum is said and not judged; a go-around from
lower than the minimum and what a go-around loses is judged, since it is the crew's to say that it began visually.
"""

from lpv.core.text import feet, nautical_miles
from lpv.core.units import FT_PER_NM
from lpv.decide.climb import climb_remembered
from lpv.facts import remembered, value
from lpv.path.deviation import missed_first_leg_full_scale_ft
from lpv.track.flown import FlownApproach, Moment, seconds
from lpv.track.level_flight import level_flight
from lpv.track.moments import distance, highest_sink
from lpv.track.noise import SURELY
from lpv.track.points import Point
from lpv.track.verdicts import OUTSIDE, TOO_CLOSE, WITHIN, Comparison, in_gap, off_course, off_path

CREW = "Only the crew can say whether the runway was in sight."
MIN_CLIMB_NM = 0.3  # over which a gradient can be told


def below_minimum(flown: FlownApproach) -> "tuple[Point, ...]":
    """The samples from the minimum down to the lowest, the runway, or the end."""
    if flown.minimum is None or flown.minimum.gap_s:
        return ()
    begin_s = flown.minimum.at.time_s
    return tuple([point for point in flown.coming_in if point.time_s > begin_s])


def _continued(flown: FlownApproach) -> "list[Moment]":
    """That the approach was continued below the minimum, and how it was flown from there to the threshold."""
    rows = [point for point in below_minimum(flown) if point.indicated_ft is not None]
    if not rows or flown.went_around:
        return []
    moments = [Moment("continued", rows[0], f"Continued below the minimum. {CREW}")]
    moments += highest_sink(flown, [point for point in rows if point.sink_fpm is not None], "sink below the minimum",
                            "below the minimum")
    return moments + _path_below(flown, rows)


def _path_below(flown: FlownApproach, rows: "list[Point]") -> "list[Moment]":
    """The farthest from the path between the minimum and the threshold."""
    known = [point for point in rows if point.path_dots is not None and point.along_nm >= 0.0]
    if not known:
        return []
    at = max(known, key=lambda point: abs(point.path_dots or 0.0))
    compared = flown.compare_path(at)
    return [Moment("path below the minimum", at, f"From the minimum to the threshold, farthest from the glidepath "
                   f"here: {off_path(at)}, uncertain by {feet(flown.path_uncertainty_ft(at))}.", (compared,))]


# The go-around


def _lowest(flown: FlownApproach) -> "list[Moment]":
    """The lowest point of a go-around against the minimum less what a go-around loses."""
    at = flown.lowest
    if at.indicated_ft is None or not flown.climbed_away:
        return []
    if flown.ground is not None:
        return [Moment("touch and go", at, f"On the runway here, as far as a recording shows; then it climbs by "
                       f"{feet(flown.climb_ft)}: a touch-and-go, or a low pass.")]
    what = f"Lowest, {feet(at.indicated_ft)} on the altimeter"
    compared = ()  # type: tuple[Comparison, ...]
    if flown.minimum_ft is not None:
        apart_ft = at.indicated_ft - flown.minimum_ft
        what += f", {feet(abs(apart_ft))} {'above' if apart_ft >= 0.0 else 'below'} the minimum"
        compared = (lowest_against_minimum(flown),)
    after = " It reached runway level: a balked landing, or a touch-and-go." if flown.touched else ""
    text = f"{what}; then it climbs by {feet(flown.climb_ft)}: a go-around.{after}{_loss_words(flown, compared)}"
    return [Moment("go-around", at, text, compared)] + _climb_began(flown)  # noqa: RUF005


def _loss_words(flown: FlownApproach, compared: "tuple[Comparison, ...]") -> str:
    if not compared or flown.target.kind != "DA":
        return ""
    loss_ft, half_ft = flown.target.height_loss_ft(_sink_before_fpm(flown))
    whose = (f"This type loses {feet(loss_ft)} from that descent" if flown.target.aircraft
             else f"Without a type, a loss of 0 to {feet(loss_ft + half_ft)} stays open")
    crew = f" {CREW}" if compared[0].verdict in (OUTSIDE, TOO_CLOSE) else ""
    return f" {whose}.{crew}"


def lowest_against_minimum(flown: FlownApproach) -> Comparison:
    """The lowest altitude against a DA less the loss of a go-around, or against an MDA."""
    loss_ft, unsure_ft = (0.0, 0.0) if flown.target.kind == "MDA" else (
        flown.target.height_loss_ft(_sink_before_fpm(flown)))
    total_ft = (flown.reading_uncertainty_ft(flown.lowest) ** 2 + _between_samples_ft(flown) ** 2) ** 0.5 + unsure_ft
    return Comparison("lowest altitude", "ft", flown.lowest.indicated_ft, total_ft,
                      (flown.minimum_ft or 0.0) - loss_ft, None, flown.reason)


def _sink_before_fpm(flown: FlownApproach) -> float:
    """The rate of descent from which the go-around was begun: over the window before the lowest point."""
    begin_s = flown.lowest.time_s - 2.0 * flown.noise.window_s
    rates = [point.sink_fpm for point in flown.coming_in if point.sink_fpm is not None and point.time_s >= begin_s]
    return max([0.0] + rates)  # noqa: RUF005


def _between_samples_ft(flown: FlownApproach) -> float:
    """How much lower than the lowest sample it may have been between two: half an interval down and up again."""
    return _sink_before_fpm(flown) / 60.0 * flown.noise.interval_s / 2.0


def _climb_began(flown: FlownApproach) -> "list[Moment]":
    """When the descent was stopped, counted from the minimum."""
    passed = flown.minimum
    if passed is None or passed.gap_s:
        return []
    after_s = flown.lowest.time_s - passed.at.time_s
    return [Moment("climb", flown.lowest, f"The climb begins {seconds(after_s)} after the minimum was passed, "
                   f"{distance(flown.lowest.along_nm)} before the threshold.")]


def _missed(flown: FlownApproach) -> "list[Moment]":
    """The go-around against the chart: its gradient, its course to the missed approach point, its altitude."""
    if not flown.went_around or flown.lowest.indicated_ft is None:
        return []
    return _gradient(flown) + _course(flown) + _altitude(flown)


def _gradient(flown: FlownApproach) -> "list[Moment]":
    """Height gained over the distance flown, from the lowest point to nearly the missed approach altitude."""
    rows = [point for point in flown.after if point.true_ft is not None and point.indicated_ft is not None
            and point.part == flown.lowest.part]
    asked_ft = flown.target.missed_ft(flown.levels.temperature_c if flown.levels.temperature_stated else None)
    top_ft = max([point.indicated_ft or 0.0 for point in rows])
    if asked_ft is not None:
        top_ft = min(top_ft, asked_ft)
    top_ft -= value("recording_altitude_ft")
    climb = []
    for point in rows:
        climb.append(point)
        if (point.indicated_ft or 0.0) >= top_ft:
            break
    flown_nm = _length_nm(climb)
    if flown_nm < MIN_CLIMB_NM:
        return []
    first, last = climb[0], climb[-1]
    gained_ft = (last.true_ft or 0.0) - (first.true_ft or 0.0)
    unsure = SURELY * (first.height_noise_ft**2 + last.height_noise_ft**2) ** 0.5 / flown_nm
    compared = Comparison("gradient of the missed approach", "ft/NM", gained_ft / flown_nm, unsure,
                          flown.target.missed_gradient_ft_per_nm(), None, flown.reason)
    basis = climb_remembered(flown.target.approach)
    standard = f"; ICAO's standard{basis}" if basis else ""
    return [Moment("gradient", last, f"Missed approach: {feet(gained_ft)} gained in {nautical_miles(flown_nm)} from "
                   f"the lowest point, {compared.recorded()}{standard}.", (compared,))]


def _length_nm(rows: "list[Point]") -> float:
    """Distance flown, over steps of at least five seconds, so that the noise of positions does not add up."""
    total_nm, last = 0.0, rows[0]
    for point in rows[1:]:
        if point.time_s - last.time_s >= 5.0 or point is rows[-1]:
            across_nm = (point.across_ft - last.across_ft) / FT_PER_NM
            total_nm += ((point.along_nm - last.along_nm) ** 2 + across_nm**2) ** 0.5
            last = point
    return total_nm


def _course(flown: FlownApproach) -> "list[Moment]":
    """The course between the lowest point and the threshold: no turn begins before the missed approach point."""
    rows = [point for point in flown.after if point.along_nm >= 0.0 and point.part == flown.lowest.part]
    if len(rows) < 2:
        return []
    at = max(rows, key=lambda point: abs(point.across_ft))
    half_ft = missed_first_leg_full_scale_ft(0.0) / 2.0
    compared = Comparison("course of the missed approach", "ft", at.across_ft, flown.position_uncertainty_ft(),
                          -half_ft, half_ft)
    return [Moment("missed course", at, f"Missed approach up to the threshold: largest offset here, "
                   f"{off_course(at)}.", (compared,))]


def _altitude(flown: FlownApproach) -> "list[Moment]":
    """The missed approach altitude, reached and not passed through; not judged if the recording ends in the climb."""
    asked_ft = flown.target.missed_ft(flown.levels.temperature_c if flown.levels.temperature_stated else None)
    rows = [point for point in flown.after if point.indicated_ft is not None]
    if asked_ft is None or not rows:
        return []
    at = max(rows, key=lambda point: point.indicated_ft or 0.0)
    tolerance_ft = value("recording_altitude_ft")
    high_ft = at.indicated_ft or 0.0
    name = f"Missed approach altitude, {feet(asked_ft)}"
    climbing = high_ft < asked_ft - tolerance_ft and rows[-1].time_s - at.time_s < value("recording_settled_s")
    reason = flown.reason or ("the recording ends in the climb" if climbing else "")
    compared = Comparison("missed approach altitude", "ft", high_ft, flown.reading_uncertainty_ft(at),
                          asked_ft - tolerance_ft, asked_ft + tolerance_ft, reason)
    after = ""
    if climbing:
        after = " The recording ends in the climb."
    elif compared.verdict != WITHIN and high_ft < asked_ft:
        after = " A recording does not show what ATC assigned instead."
    return [Moment("missed altitude", at, f"{name}: highest {feet(high_ft)}.{after}", (compared,))]


# The threshold and the runway


def _threshold(flown: FlownApproach) -> "list[Moment]":
    """The height over the threshold against that of the path."""
    passed = flown.passed_distance(0.0)
    if passed is None:
        return []
    at = passed.at
    if passed.gap_s or at.true_ft is None:
        what = in_gap(passed) if passed.gap_s else "height not recorded"
        return [Moment("threshold", at, f"Threshold: {what}.")]
    height_ft = at.true_ft - flown.levels.threshold_ft
    tch_ft = flown.target.tch_ft
    compared = ()  # type: tuple[Comparison, ...]
    if flown.target.has_path:
        allowed_ft = flown.limit_dots * flown.target.path_ft(0.0) / 2.0
        compared = (Comparison("height over the threshold", "ft", height_ft, flown.path_uncertainty_ft(at),
                               tch_ft - allowed_ft, tch_ft + allowed_ft, flown.reason),)
    surely = ""
    if compared and compared[0].verdict == TOO_CLOSE and abs(height_ft - tch_ft) > flown.path_uncertainty_ft(at):
        surely = (f" Certainly {'above' if height_ft > tch_ft else 'below'} the glidepath; "
                  "whether by more than a dot stays open.")
    return [Moment("threshold", at, f"Threshold crossed {feet(height_ft)} above it, {off_course(at)}, uncertain by "
                   f"{feet(flown.path_uncertainty_ft(at))}; the glidepath crosses {feet(tch_ft)} above it.{surely}",
                   compared)]


def _touchdown(flown: FlownApproach) -> "list[Moment]":
    """Where it touched down: between the last sample surely above the runway and the first that stays on it."""
    ground = flown.ground
    if ground is None:
        return []
    level_ft = flown.levels.threshold_ft + ground.offset_ft
    above_ft = value("recording_touch_ft") / 5.0 + SURELY * flown.noise.height_ft
    before = [point for point in flown.coming_in if point.true_ft is not None and point.true_ft > level_ft + above_ft]
    if not before:
        return []
    early_ft, late_ft = -before[-1].along_nm * FT_PER_NM, -ground.first.along_nm * FT_PER_NM
    middle_ft, half_ft = (early_ft + late_ft) / 2.0, abs(late_ft - early_ft) / 2.0
    compared = Comparison("touchdown beyond the threshold", "ft", middle_ft, half_ft + flown.position_uncertainty_ft(),
                          0.0, flown.target.touchdown_zone_ft())
    zone = f"zone ends at {feet(flown.target.touchdown_zone_ft())}{remembered('touchdown_zone_ft')}."
    return [Moment("touchdown", ground.first, f"On the runway {compared.recorded()} beyond the threshold; the "
                   f"touchdown {zone}", (compared,))]


def _end(flown: FlownApproach) -> "list[Moment]":
    """How the recording of the approach ends."""
    return [Moment("end", flown.points[-1], ending(flown))]


def ending(flown: FlownApproach) -> str:
    """The same in words."""
    last = flown.points[-1]
    if flown.went_around:
        return "Flown away after the go-around."
    if flown.climbed_away:
        return "Flown away after touching the runway, as far as a recording shows."
    if flown.touched:
        return "Landed, as far as a recording shows."
    height = "" if last.true_ft is None else f", {feet(last.true_ft - flown.levels.threshold_ft)} above its level"
    side = f"{nautical_miles(abs(last.along_nm))} {'before' if last.along_nm >= 0.0 else 'beyond'} the threshold"
    return f"The recording ends {side}{height}."


FINDERS = (_continued, level_flight, _lowest, _missed, _threshold, _touchdown, _end)

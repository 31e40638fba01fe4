"""The moments of a recorded approach down to the minimum, each a function that finds one kind of them.

Cold: the altimeter reads too much in cold.  Judged is the true altitude at the PFAF against the charted one, since
that is what an addition keeps; an addition that was rounded, or a path captured above it, is no fault.  Whether it is
asked for is the decision of `lpv.decide.cold`.  Without a stated temperature nothing is said.
"""

from lpv.core.text import feet, nautical_miles, quantity
from lpv.core.units import FT_PER_NM
from lpv.facts import remembered, value
from lpv.path.temperature import indicated_on_path_ft
from lpv.track.flown import FlownApproach, Moment
from lpv.track.noise import ANYWHERE, SURELY
from lpv.track.points import Point
from lpv.track.target import BOUND, Fix
from lpv.track.verdicts import (
    OUTSIDE,
    TOO_CLOSE,
    WITHIN,
    Comparison,
    JudgedGate,
    in_dots,
    in_gap,
    off_course,
    off_path,
    within_dots,
)

THROUGH_DOTS = 0.5  # beyond the course, seen from where the aircraft came
WORTH_SAYING_FT = 10.0
NEVER_DOWN_FT = 0.5  # half of a whole foot: what a minimum in whole feet may lack
NEAR_FIX_NM = 1.0
FULL_SCALE_DOTS = 2.0


def _start(flown: FlownApproach) -> "list[Moment]":
    """Where the recording of the approach begins."""
    first = flown.points[0]
    off_nm = abs(first.across_ft) / FT_PER_NM
    far = f"{nautical_miles(off_nm)} {'right' if first.across_ft > 0.0 else 'left'} of the final course"
    where = off_course(first) if abs(first.course_dots) <= FULL_SCALE_DOTS else far
    return [Moment("start", first, f"The recording of the approach begins here; {where}.")]


# The procedure before the final


def _fixes(flown: FlownApproach) -> "list[Moment]":
    """The altitude at fixes before the PFAF, unless on vectors, and at step-downs where there is no path."""
    moments: list[Moment] = []
    for fix in flown.target.fixes:
        before = fix.role in ("IAF", "IF") and not flown.target.on_vectors
        if fix.altitude_ft is None or fix.altitude_rule not in BOUND:
            continue
        at = passed_fix(flown, fix) if before else None
        if fix.role == "step-down" and not flown.target.has_path:
            passed = flown.passed_distance(fix.along_nm)
            at = passed.at if passed and not passed.gap_s else None
        if at is not None and at.indicated_ft is not None:
            moments.append(_at_fix(flown, fix, at, value("recording_altitude_ft") if before else 0.0))
    return moments


def passed_fix(flown: FlownApproach, fix: Fix) -> "Point | None":
    """The sample nearest to a fix, the last time that it was passed; None if it never was within NEAR_FIX_NM.

    Neither where the recording begins or ends nearest to it: then it was not passed.
    """
    best, best_nm = -1, NEAR_FIX_NM
    rows = list(flown.earlier) + list(flown.coming_in)
    for place in range(len(rows) - 1, -1, -1):
        point = rows[place]
        away_nm = ((point.along_nm - fix.along_nm) ** 2 + (point.across_ft / FT_PER_NM - fix.across_nm) ** 2) ** 0.5
        if away_nm < best_nm:
            best, best_nm = place, away_nm
        elif best >= 0 and away_nm > 2.0 * NEAR_FIX_NM:
            break
    return rows[best] if 0 < best < len(rows) - 1 else None


def _at_fix(flown: FlownApproach, fix: Fix, at: Point, tolerance_ft: float) -> Moment:
    altitude_ft = fix.altitude_ft or 0.0
    cold = flown.target.cold(flown.levels.temperature_c) if flown.levels.temperature_stated else None
    if cold is not None and cold.corrects("intermediate"):
        altitude_ft += flown.target.pfaf_addition_ft(flown.levels.temperature_c)
    low_ft = None if fix.altitude_rule == "at or below" else altitude_ft - tolerance_ft
    high_ft = None if fix.altitude_rule == "at or above" else altitude_ft + tolerance_ft
    compared = Comparison(f"altitude at {fix.name}", "ft", at.indicated_ft, flown.reading_uncertainty_ft(at), low_ft,
                          high_ft, flown.reason)
    return Moment("fix", at, f"{fix.role} {fix.name}, {fix.altitude_rule} {feet(altitude_ft)}: "
                  f"{feet(at.indicated_ft or 0.0)} on the altimeter.", (compared,))


# The course and the path


def _through(flown: FlownApproach) -> "list[Moment]":
    """Through the course, where it is surely so or may be."""
    first = flown.points[0]
    if abs(first.course_dots) <= flown.limit_dots:
        return []
    side = 1.0 if first.across_ft > 0.0 else -1.0
    far = max(flown.coming_in, key=lambda point: -side * point.across_ft if point.along_nm >= 0.0 else 0.0)
    compared = Comparison("beyond the course", "dots", -side * far.course_dots, flown.course_uncertainty_dots(far),
                          None, THROUGH_DOTS)
    if compared.verdict != OUTSIDE:
        return []
    return [Moment("through the course", far, f"Through the course: largest overshoot here, {off_course(far)}.",
                   (compared,))]


def _established(flown: FlownApproach) -> "list[Moment]":
    """From where the course was held, against the PFAF."""
    at = flown.established
    inbound = [point for point in flown.coming_in if 0.0 <= point.along_nm <= flown.target.pfaf_nm]
    if not inbound:
        return []
    worst = max(inbound, key=lambda point: abs(point.course_dots))
    compared = within_dots("course deviation from the FAF on", worst.course_dots, flown.course_uncertainty_dots(worst),
                           flown.limit_dots)
    if at is None:
        return [Moment("established", flown.lowest, "Never established: not within one dot of the course at the end.",
                       (compared,))]
    where = "outside the FAF" if at.along_nm >= flown.target.pfaf_nm else "inside the FAF"
    return [Moment("established", at, f"Established: within one dot of the course from here on, {where}.", (compared,))]


def _path(flown: FlownApproach) -> "list[Moment]":
    """Where the path was met, and from where it was held."""
    from_s = flown.established.time_s if flown.established else flown.points[0].time_s
    known = [point for point in flown.coming_in if point.path_dots is not None and point.time_s >= from_s]
    near = [place for place, point in enumerate(known) if abs(point.path_dots or 0.0) <= flown.limit_dots]
    met = near[0] if near else 0
    moments = []
    if met:
        moments.append(_met(flown, known, met))
    at = flown.on_path
    if at is not None and (not met or at.time_s > known[met].time_s):
        moments.append(Moment("on path", at, "Within one dot of the glidepath from here on, as far as the minimum."))
    if at is None and known and (flown.minimum is None or flown.minimum.gap_s):
        low = flown.lowest
        words = f"Not within one dot of the glidepath at the lowest point: {off_path(low)}."
        moments.append(Moment("on path", low, words, (flown.compare_path(low),)))
    return moments


def _met(flown: FlownApproach, known: "list[Point]", met: int) -> Moment:
    """Within one dot of the path for the first time; from above it is judged by the highest sample before."""
    if (known[met - 1].path_dots or 0.0) < 0.0:
        return Moment("path from below", known[met], "Within one dot of the glidepath for the first time, from below.")
    inside = [point for point in known[:met] if point.along_nm <= flown.target.pfaf_nm] or known[:met]
    high = max(inside, key=lambda point: point.path_dots or 0.0)
    compared = Comparison("above the glidepath before it was met", "dots", high.path_dots,
                          flown.path_uncertainty_dots(high), None, flown.limit_dots, flown.reason)
    return Moment("path from above", known[met], "Within one dot of the glidepath for the first time, from above.",
                  (compared,))


def _pfaf(flown: FlownApproach) -> "list[Moment]":
    """The PFAF: deviations, altimeter, cold."""
    passed = flown.passed_distance(flown.target.pfaf_nm)
    name = flown.target.pfaf.name
    if passed is None:
        return []
    if passed.gap_s:
        return [Moment("PFAF", passed.at, f"FAF {name}: {in_gap(passed)}.")]
    at = passed.at
    compared = [flown.compare_course(at)]
    side = ""
    if at.path_dots is not None:
        by_path = flown.compare_path(at)
        if by_path.verdict == OUTSIDE:
            side = ", above the glidepath" if at.path_dots > 0.0 else ", below the glidepath"
        if side != ", below the glidepath" or not explains_low(flown, at):
            compared.append(by_path)
    height = f", {off_path(at)}" if flown.target.has_path else ""
    moments = [Moment(f"PFAF{side}", at, f"FAF {name}: {off_course(at)}{height}.", tuple(compared))]
    return moments + _altimeter(flown, at) + cold_moments(flown)


def _altimeter(flown: FlownApproach, at: Point) -> "list[Moment]":
    """What the altimeter should read on the path at the PFAF, and what it read."""
    target, levels = flown.target, flown.levels
    if at.indicated_ft is None or at.true_ft is None or not target.has_path:
        return []
    expected_ft = indicated_on_path_ft(
        at.along_nm, levels.threshold_ft, target.tch_ft, target.gpa_deg, levels.temperature_c, levels.airport_ft)
    on_path = f"On the glidepath it reads {feet(expected_ft)} here."
    if not levels.barometric:
        return [Moment("altimeter", at, f"Altimeter: not recorded; where the aircraft was it should have read "
                       f"{feet(at.indicated_ft)}. {on_path}")]
    what = f"Altimeter: it read {feet(at.indicated_ft)}"
    if not levels.geometric:
        return [Moment("altimeter", at, f"{what}. {on_path} Only the altimeter was recorded, so a "
                       "deviation looks like a wrong setting.")]
    should_ft = levels.expected_ft(at.true_ft)
    unsure_ft = (levels.receiver_ft() ** 2 + levels.air_ft(at.true_ft) ** 2
                 + (SURELY * at.height_noise_ft) ** 2 + (SURELY * at.altimeter_noise_ft) ** 2) ** 0.5
    tolerance_ft = value("altimeter_ground_check_ft")
    compared = Comparison("altimeter against the receiver", "ft", at.indicated_ft - should_ft, unsure_ft, -tolerance_ft,
                          tolerance_ft, flown.reason)
    right = f"Up to {feet(tolerance_ft)} off is accepted{remembered('altimeter_ground_check_ft')}."
    return [Moment("altimeter", at, f"{what}, and should have read {feet(should_ft)} where the aircraft was. {on_path} "
                   f"{right}", (compared,))]


# The final


def _sink(flown: FlownApproach) -> "list[Moment]":
    """The highest rate of descent between 1000 ft above the airport and the minimum."""
    high_ft = flown.levels.airport_ft + value("gate_imc_ft")
    low_ft = flown.minimum_ft if flown.minimum else None
    rows = [point for point in flown.coming_in if point.sink_fpm is not None and point.indicated_ft is not None
            and point.indicated_ft <= high_ft and (low_ft is None or point.indicated_ft >= low_ft)]
    return highest_sink(flown, rows, "sink", f"below {feet(value('gate_imc_ft'))} above the airport")


def highest_sink(flown: FlownApproach, rows: "list[Point]", key: str, where: str) -> "list[Moment]":
    """The highest rate of descent of some samples; a single high one among many noisy ones says nothing yet."""
    if not rows:
        return []
    at = max(rows, key=lambda point: point.sink_fpm or 0.0)
    speed = "" if at.ground_speed_kt is None else f", ground speed {quantity(at.ground_speed_kt, 'kt')}"
    compared = Comparison("rate of descent", "ft/min", at.sink_fpm, flown.sink_uncertainty_fpm(at, ANYWHERE), None,
                          flown.limit_fpm, flown.reason)
    return [Moment(key, at, f"Highest rate of descent {where}: {compared.recorded()} over "
                   f"{quantity(flown.noise.window_s, 's')}{speed}.", (compared,))]


def _near_minimum(flown: FlownApproach) -> "list[Moment]":
    """The lowest against the path between a little above the minimum and the minimum."""
    if flown.minimum_ft is None:
        return []
    top_ft = flown.minimum_ft + value("recording_near_da_ft")
    zone = [point for point in flown.coming_in
            if point.above_ft is not None and flown.minimum_ft <= (point.indicated_ft or 0.0) <= top_ft]
    if not zone:
        return []
    at = min(zone, key=lambda point: point.path_dots or 0.0)
    compared = Comparison("below the glidepath", "dots", at.path_dots, flown.path_uncertainty_dots(at),
                          -flown.limit_dots, None, flown.reason)
    key = "below path" if compared.verdict == OUTSIDE else "near the glidepath"
    return [Moment(key, at, f"Between {feet(top_ft)} and the minimum, lowest point here: {off_path(at)}, uncertain by "
                   f"{feet(flown.path_uncertainty_ft(at))}.", (compared,))]


def _minimum(flown: FlownApproach) -> "list[Moment]":
    """The deviations where the altimeter passed the minimum."""
    passed = flown.minimum
    if passed is None:
        return []
    name = f"Minimum, {feet(flown.minimum_ft or 0.0)}{_truly(passed.at)}"
    if passed.gap_s:
        return [Moment("minimum", passed.at, f"{name}: {in_gap(passed)}.")]
    at = passed.at
    compared = [flown.compare_course(at)]
    height = ""
    if flown.target.has_path:
        compared.append(flown.compare_path(at))
        height = f", {off_path(at)}, uncertain by {in_dots(flown.path_uncertainty_dots(at))}"
    lower = "" if (at.true_ft or 0.0) > (at.indicated_ft or 0.0) - WORTH_SAYING_FT else ", truly lower"
    return [Moment(f"minimum{lower}", at, f"{name}: {off_course(at)}{height}.", tuple(compared))] + cold_minimum(flown)  # noqa: RUF005


def _truly(at: Point) -> str:
    """The true altitude, where temperature or setting make it another one."""
    if at.true_ft is None or at.indicated_ft is None or abs(at.true_ft - at.indicated_ft) < WORTH_SAYING_FT:
        return ""
    return f" on the altimeter, true altitude {feet(at.true_ft)}"


# Cold


class AtFix:
    """The PFAF, passed in cold.

    charted_ft:   its altitude on the chart
    corrected_ft: with the addition asked for; None where nobody asks for one at this temperature
    compared:     the true altitude against the charted one
    """

    def __init__(
        self, name: str, at: Point, charted_ft: float, corrected_ft: "float | None", compared: Comparison,
    ) -> None:
        self.name, self.at, self.charted_ft, self.corrected_ft = name, at, charted_ft, corrected_ft
        self.compared = compared

    @property
    def lower_ft(self) -> float:
        """How much lower than charted the aircraft truly was; negative where it was higher."""
        return self.charted_ft - (self.at.true_ft or 0.0)


def at_pfaf(flown: FlownApproach) -> "AtFix | None":
    """The PFAF in cold; None where no temperature is stated, it is not cold, or the recording does not hold it."""
    passed, fix = flown.passed_distance(flown.target.pfaf_nm), flown.target.pfaf
    if not _is_cold(flown) or passed is None or passed.gap_s or fix.altitude_ft is None or passed.at.true_ft is None:
        return None
    temperature_c = flown.levels.temperature_c
    corrected_ft = None
    if flown.target.cold(temperature_c).corrects("intermediate"):
        corrected_ft = fix.altitude_ft + flown.target.pfaf_addition_ft(temperature_c)
    compared = Comparison("true altitude at the FAF", "ft", passed.at.true_ft, flown.path_uncertainty_ft(passed.at),
                          fix.altitude_ft, None, flown.reason)
    return AtFix(fix.name, passed.at, fix.altitude_ft, corrected_ft, compared)


def explains_low(flown: FlownApproach, at: Point) -> bool:
    """Whether low at the PFAF is the charted altitude on the altimeter, in cold that nobody asked to correct.

    The path is then met inside the PFAF, and nobody did wrong.
    """
    fix = at_pfaf(flown)
    if fix is None or fix.corrected_ft is not None or at.indicated_ft is None:
        return False
    return at.indicated_ft >= fix.charted_ft - value("altimeter_ground_check_ft")


def _is_cold(flown: FlownApproach) -> bool:
    """Cold by a rule, or under `recording_cold_c`; without a stated temperature nobody knows."""
    levels = flown.levels
    cold = levels.temperature_c < value("recording_cold_c") or flown.target.cold(levels.temperature_c).due is True
    return levels.temperature_stated and cold


def minimum_asked_ft(flown: FlownApproach) -> "float | None":
    """The corrected minimum, not under the operator's own; None where no correction is asked, or there is no line."""
    levels = flown.levels
    if not levels.temperature_stated or not flown.target.cold(levels.temperature_c).corrects("final"):
        return None
    return flown.target.minimum_ft(levels.temperature_c)


def cold_moments(flown: FlownApproach) -> "list[Moment]":
    """The PFAF in cold, in words and judged where an addition is asked for."""
    fix = at_pfaf(flown)
    if fix is None or (fix.corrected_ft is None and fix.compared.verdict != OUTSIDE):
        return []
    read = "the altimeter read" if flown.levels.barometric else "the altimeter should have read"
    where = (f"{fix.name} is charted at {feet(fix.charted_ft)}; {read} {feet(fix.at.indicated_ft or 0.0)}, "
             f"true altitude at {degrees_c(flown.levels.temperature_c)} {feet(fix.at.true_ft or 0.0)}")
    lower = f"{where}, {feet(fix.lower_ft)} low."
    if fix.corrected_ft is None:
        return [Moment("cold", fix.at, f"Cold: {lower} {flown.target.cold(flown.levels.temperature_c).reason}")]
    addition_ft = fix.corrected_ft - fix.charted_ft
    rule = flown.target.cold(flown.levels.temperature_c).rule
    requirement = f"Required ({rule}): {feet(addition_ft)} more, {feet(fix.corrected_ft)}."
    words = {OUTSIDE: f"Cold, and not corrected: {lower} {requirement}",
             WITHIN: f"Cold, corrected: {where}, at or above the charted altitude."}
    return [Moment("cold", fix.at, words.get(fix.compared.verdict, f"Cold: {where}. {requirement}"), (fix.compared,))]


def cold_minimum(flown: FlownApproach) -> "list[Moment]":
    """The minimum used, against the corrected one, where the altimeter passed it."""
    asked_ft = minimum_asked_ft(flown)
    if asked_ft is None or flown.minimum_ft is None or flown.minimum is None:
        return []
    reason = "" if flown.minimum_stated else "the minimum used is not stated"
    used = f"used {feet(flown.minimum_ft)}" if flown.minimum_stated else reason
    compared = Comparison("minimum in cold", "ft", flown.minimum_ft, 0.0, asked_ft - NEVER_DOWN_FT, None, reason)
    return [Moment("cold minimum", flown.minimum.at,
                   f"The minimum in cold: {feet(asked_ft)} corrected; {used}.", (compared,))]


def cold_in_words(flown: FlownApproach) -> str:
    """The PFAF in cold in a few words; "" where nothing is said of cold."""
    fix = at_pfaf(flown)
    if fix is None:
        return ""
    verdict = fix.compared.verdict
    lower = f"{feet(fix.lower_ft)} below the charted altitude at {fix.name}" if verdict == OUTSIDE else ""
    if fix.corrected_ft is None:
        return lower
    if verdict == TOO_CLOSE:
        return "too close to say whether it was corrected"
    return {WITHIN: "corrected", OUTSIDE: f"not corrected: {lower}"}.get(verdict, verdict)


def degrees_c(temperature_c: float) -> str:
    """A temperature with a true minus sign."""
    return f"{quantity(temperature_c, '°C')}".replace("-", "\u2212")


# All of them


def in_order(moments: "list[Moment]") -> "list[Moment]":
    """By time, and as they stand where the time is the same: the phone's own sorting would mix those."""
    return [moments[place] for _, place in sorted([(point.at.time_s, place) for place, point in enumerate(moments)])]


def of_gates(gates: "list[JudgedGate]") -> "list[Moment]":
    """Each gate as a moment, if it was passed."""
    return [_gate(gate) for gate in gates if gate.at is not None]


def _gate(gate: JudgedGate) -> Moment:
    assert gate.at is not None
    name = f"Gate {gate.gate.name}, {feet(gate.altitude_ft)}"
    if gate.gap_s:
        return Moment("gate", gate.at, f"{name}: in a gap of {quantity(gate.gap_s, 's')}: not recorded.")
    words = [f"{verdict}: {_items(gate, verdict)}" for verdict in (OUTSIDE, TOO_CLOSE) if _items(gate, verdict)]
    if not words:
        words = ["within limits in what is recorded" if gate.verdict == WITHIN else "not judged"]
    return Moment("gate", gate.at, f"{name}: {'; '.join(words)}.", gate.items)


def _items(gate: JudgedGate, verdict: str) -> str:
    return ", ".join([f"{item.item} {item.recorded()}" for item in gate.items if item.verdict == verdict])


def distance(along_nm: float) -> str:
    """A distance to the threshold."""
    return f"{nautical_miles(along_nm)}"


FINDERS = (_start, _fixes, _through, _established, _path, _pfaf, _sink, _near_minimum, _minimum)

"""The moments of a recorded approach, each a function that finds one kind of them; cold among them.

What cold did to a recorded approach: whether altitude at the PFAF and minimum were corrected for it.

The altimeter reads too much in cold.  Judged is the true altitude at the PFAF against the charted one, since that is
what an addition keeps; an addition that was rounded, or a path captured above it, is no fault.  The additions are the
FAA's for all segments (`lpv.plan.cold`), asked for where the chart prints a temperature for them.  Without a stated
temperature nothing is said.
"""

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.facts import value
from lpv.path.temperature import indicated_on_path_ft
from lpv.track.against import charted_ft, da_ft
from lpv.track.flown import Flown, Moment
from lpv.track.points import Point
from lpv.track.verdicts import GateFound, beside, feet, in_dots, not_recorded, over, tenths, whole, within

NEVER_DOWN_FT = 0.5  # half of a whole foot: what a minimum in whole feet may lack


class AtFix:
    """The PFAF, passed in cold.

    charted_ft:   its altitude on the chart
    corrected_ft: with the FAA's addition; None where the chart does not ask for one at this temperature
    lower_ft:     how much lower than charted the aircraft truly was; negative where it was higher
    sure:         whether that is more than the recording's uncertainty
    """

    def __init__(
        self, name: str, at: Point, charted_ft: float, corrected_ft: "float | None", lower_ft: float, sure: bool,
    ) -> None:
        self.name, self.at, self.charted_ft, self.corrected_ft = name, at, charted_ft, corrected_ft
        self.lower_ft, self.sure = lower_ft, sure


def at_pfaf(flown: Flown) -> "AtFix | None":
    """The PFAF in cold; None where no temperature is stated, it is not cold, or the recording does not tell."""
    passed, fix = flown.passed_distance(flown.scales.pfaf_nm), flown.approach.pfaf
    if not _is_told(flown) or passed is None or passed.gap_s or fix.altitude_ft is None or passed.at.true_ft is None:
        return None
    temperature_c = flown.levels.temperature_c
    corrected_ft = None
    if flown.approach.is_cold(temperature_c):
        corrected_ft = fix.altitude_ft + segment_addition_ft(_height_ft(flown, fix.altitude_ft), temperature_c)
    lower_ft = fix.altitude_ft - passed.at.true_ft
    sure = lower_ft > flown.path_uncertainty_ft(passed.at)
    return AtFix(fix.name, passed.at, fix.altitude_ft, corrected_ft, lower_ft, sure)


def explains_low(flown: Flown, at: Point) -> bool:
    """Whether low at the PFAF is the charted altitude on the altimeter, in cold that nobody asked to correct.

    That is so where the chart asks for no addition: the path is then met inside the PFAF, and nobody did wrong.
    """
    found = at_pfaf(flown)
    if found is None or found.corrected_ft is not None or at.indicated_ft is None:
        return False
    return at.indicated_ft >= found.charted_ft - value("altimeter_ground_check_ft")


def _is_told(flown: Flown) -> bool:
    """Cold by the chart, or under `recording_cold_c`; without a stated temperature nobody knows."""
    levels = flown.levels
    cold = levels.temperature_c < value("recording_cold_c") or flown.approach.is_cold(levels.temperature_c)
    return levels.temperature_stated and cold


def minimum_asked_ft(flown: Flown) -> "float | None":
    """The corrected DA, not under the operator's own; None where the chart asks for no correction, or has no line."""
    altitude_ft = charted_ft(flown.approach, flown.aircraft)
    levels = flown.levels
    if altitude_ft is None or not levels.temperature_stated or not flown.approach.is_cold(levels.temperature_c):
        return None
    addition_ft = minimum_addition_ft(_height_ft(flown, altitude_ft), levels.temperature_c)
    return da_ft(flown.approach, flown.aircraft, altitude_ft + addition_ft)


def _height_ft(flown: Flown, altitude_ft: float) -> float:
    """Above the airport, which additions count from."""
    return max(0.0, altitude_ft - flown.approach.airport_ft)


def cold_moments(flown: Flown) -> "list[Moment]":
    """The PFAF in cold, in words and judged where the chart asks for an addition."""
    found = at_pfaf(flown)
    if found is None or (found.corrected_ft is None and not found.sure):
        return []
    read = "the altimeter read" if flown.levels.barometric else "the altimeter should have read"
    where = (f"{found.name} is charted at {feet(found.charted_ft)}; {read} {feet(found.at.indicated_ft or 0.0)}, "
             f"at {degrees_c(flown.levels.temperature_c)} truly {feet(found.at.true_ft or 0.0)}")
    lower = f"{where}, {feet(found.lower_ft)} lower."
    if found.corrected_ft is None:
        return [Moment("cold", found.at, f"Cold: {lower} {_not_asked(flown)}")]
    if found.sure:
        addition_ft = found.corrected_ft - found.charted_ft
        return [Moment("cold", found.at, f"Cold, and no addition that keeps the charted altitude: {lower} The FAA's "
                       f"rule adds {feet(addition_ft)}: {feet(found.corrected_ft)}.", False)]
    return [Moment("cold", found.at, f"Cold, corrected: {where}, not lower than charted.", True)]


def cold_minimum(flown: Flown) -> "list[Moment]":
    """The minimum taken, against the corrected one, where the altimeter passed it."""
    asked_ft = minimum_asked_ft(flown)
    if asked_ft is None or flown.minimum_ft is None or flown.minimum is None:
        return []
    good = flown.minimum_ft >= asked_ft - NEVER_DOWN_FT
    taken = f"{feet(flown.minimum_ft)}{'' if flown.minimum_stated else ', as no other is stated'}"
    return [Moment("cold minimum", flown.minimum.at, "The minimum in cold: corrected by the FAA's rule "
                   f"{feet(asked_ft)}; taken as used {taken}.", good)]


def in_words(flown: Flown) -> str:
    """The PFAF in cold in a few words; "" where nothing is said of cold."""
    found = at_pfaf(flown)
    if found is None:
        return ""
    lower = f"truly {feet(found.lower_ft)} lower than charted at {found.name}" if found.sure else ""
    if found.corrected_ft is None:
        return lower
    return f"not corrected: {lower}" if lower else "corrected"


def degrees_c(temperature_c: float) -> str:
    """A temperature with a true minus sign."""
    return f"{whole(temperature_c)} °C".replace("-", "\u2212")


def _not_asked(flown: Flown) -> str:
    """Why no addition is asked for, and who decides then."""
    limit_c = flown.approach.cold_c
    if limit_c is not None:
        return f"The chart asks for an addition only at {degrees_c(limit_c)} and below."
    if flown.approach.rule == "FAA":
        return "The chart prints no temperature for it; in extreme cold a crew may still ask (FAA)."
    return "The chart prints no temperature for it: from when to add, the State and the operator say."


THROUGH_DOTS = 0.5  # beyond the course, seen from where the aircraft came
WORTH_TELLING_FT = 10.0
ONE_DOT = value("gate_deviation_dots")
OPEN = ("not met", "too close to say")
GOOD = {"met": True, "not met": False}


def moments(flown: Flown, gates: "list[GateFound]") -> "list[Moment]":
    """Everything that can be told of an approach, in the order flown."""
    found: list[Moment] = []
    for finder in FINDERS:
        found.extend(finder(flown))
    return in_order(found + of_gates(gates))


def in_order(found: "list[Moment]") -> "list[Moment]":
    """By time, and as they stand where the time is the same: the phone's own sorting would mix those."""
    return [found[place] for _, place in sorted([(one.at.time_s, place) for place, one in enumerate(found)])]


def _start(flown: Flown) -> "list[Moment]":
    first = flown.points[0]
    return [Moment("start", first, f"The approach begins here in the recording; {beside(first)}.")]


def _through(flown: Flown) -> "list[Moment]":
    first = flown.points[0]
    if abs(first.course_dots) <= ONE_DOT:
        return []
    side = 1.0 if first.across_ft > 0.0 else -1.0
    far = max(flown.coming_in, key=lambda one: -side * one.across_ft if one.along_nm >= 0.0 else 0.0)
    if -side * far.course_dots > THROUGH_DOTS and -side * far.across_ft > flown.position_ft:
        what = f"Through the course: farthest beyond it here, {beside(far)}."
        return [Moment("through the course", far, what, False)]
    return []


def _established(flown: Flown) -> "list[Moment]":
    at = flown.established
    if at is None:
        return [Moment("established", flown.lowest, "Never established: not within one dot of the course at the end.",
                       False)]
    early = at.along_nm >= flown.scales.pfaf_nm
    where = "outside the PFAF" if early else "inside the PFAF"
    return [Moment("established", at, f"Established: within one dot of the course from here on, {where}.", early)]


def _path(flown: Flown) -> "list[Moment]":
    from_s = flown.established.time_s if flown.established else flown.points[0].time_s
    known = [one for one in flown.coming_in if one.path_dots is not None and one.time_s >= from_s]
    near = [place for place, one in enumerate(known) if abs(one.path_dots or 0.0) <= ONE_DOT]
    met = near[0] if near else 0
    found = []
    if met:
        side = "above" if (known[met - 1].path_dots or 0.0) > 0.0 else "below"
        found.append(Moment(
            f"path from {side}", known[met], f"Within one dot of the path for the first time, from {side}.",
            False if side == "above" and not flown.doubt_ft else None))
    at = flown.on_path
    if at is not None and (not met or at.time_s > known[met].time_s):
        found.append(Moment("on path", at, "Within one dot of the path from here on, as far as the minimum."))
    if at is None and known and (flown.minimum is None or flown.minimum.gap_s):
        low = flown.lowest
        found.append(Moment("on path", low, f"Not within one dot of the path at the lowest: {over(low)}.",
                            within(low.path_dots, ONE_DOT, flown.path_uncertainty_dots(low))))
    return found


def _pfaf(flown: Flown) -> "list[Moment]":
    passed = flown.passed_distance(flown.scales.pfaf_nm)
    name = flown.approach.pfaf.name
    if passed is None:
        return []
    if passed.gap_s:
        return [Moment("PFAF", passed.at, f"PFAF {name}: {not_recorded(passed)}.")]
    at = passed.at
    path = within(at.path_dots, ONE_DOT, flown.path_uncertainty_dots(at))
    off = "" if path is not False else ", above the path" if (at.path_dots or 0.0) > 0.0 else ", below the path"
    if off == ", below the path" and explains_low(flown, at):
        path = None
    good = both(within(at.course_dots, ONE_DOT, flown.course_uncertainty_dots(at)), path)
    found = [Moment(f"PFAF{off}", at, f"PFAF {name}: {beside(at)}, {over(at)}.", good)]
    return found + _altimeter(flown, at) + cold_moments(flown)


def _altimeter(flown: Flown, at: Point) -> "list[Moment]":
    """What the altimeter should read on the path at the PFAF, and what it read."""
    if at.indicated_ft is None or at.true_ft is None:
        return []
    held, levels = flown.approach.final, flown.levels
    expected_ft = indicated_on_path_ft(
        at.along_nm, levels.threshold_ft, held.tch_ft, held.gpa_deg, levels.temperature_c, levels.airport_ft)
    on_path = f"On the path it reads {feet(expected_ft)} here."
    if not levels.barometric:
        return [Moment("altimeter", at, f"Altimeter: not recorded; where the aircraft was it should have read "
                       f"{feet(at.indicated_ft)}. {on_path}")]
    what = f"Altimeter: it read {feet(at.indicated_ft)}"
    if not levels.geometric:
        return [Moment("altimeter", at, f"{what}. {on_path} Deviation and setting cannot be told apart: only the "
                       "altimeter was recorded.")]
    should_ft = levels.expected_ft(at.true_ft)
    off_ft, unsure_ft = at.indicated_ft - should_ft, levels.expectation_uncertainty_ft(at.true_ft)
    agrees = abs(off_ft) <= unsure_ft
    within_it = f"{'within' if agrees else 'more than'} the {feet(unsure_ft)} that cannot be told"
    return [Moment("altimeter", at, f"{what}, and should have read {feet(should_ft)} where the aircraft was: "
                   f"{within_it}. {on_path}", agrees)]


def _sink(flown: Flown) -> "list[Moment]":
    low_ft = flown.levels.airport_ft + value("gate_imc_ft")
    rows = [one for one in flown.coming_in
            if one.sink_fpm is not None and one.indicated_ft is not None and one.indicated_ft <= low_ft]
    if not rows:
        return []
    at = max(rows, key=lambda one: one.sink_fpm or 0.0)
    speed = "" if at.ground_speed_kt is None else f", ground speed {whole(at.ground_speed_kt)} kt"
    sink_fpm = at.sink_fpm or 0.0
    return [Moment("sink", at, f"Highest rate of descent below {feet(value('gate_imc_ft'))} above the airport: "
                   f"{whole(sink_fpm)} ft/min{speed}.", sink_fpm <= value("gate_sink_rate_fpm"))]


def _near_minimum(flown: Flown) -> "list[Moment]":
    """The lowest against the path between a little above the minimum and the minimum."""
    if flown.minimum_ft is None:
        return []
    top_ft = flown.minimum_ft + value("recording_near_da_ft")
    zone = [one for one in flown.coming_in
            if one.above_ft is not None and flown.minimum_ft <= (one.indicated_ft or 0.0) <= top_ft]
    if not zone:
        return []
    at = min(zone, key=lambda one: one.above_ft or 0.0)
    unsure_ft = flown.path_uncertainty_ft(at)
    sure = at.above_ft is not None and at.above_ft < -unsure_ft
    what = f"Between {feet(top_ft)} and the minimum lowest here: {over(at)}, uncertain by {feet(unsure_ft)}"
    if sure:
        return [Moment("below path", at, f"{what}: surely below it.", False)]
    return [Moment("near the path", at, f"{what}.")]


def _minimum(flown: Flown) -> "list[Moment]":
    passed = flown.minimum
    if passed is None:
        return []
    name = f"Minimum, {feet(flown.minimum_ft or 0.0)}{_truly(passed.at)}"
    if passed.gap_s:
        return [Moment("minimum", passed.at, f"{name}: {not_recorded(passed)}.")]
    unsure = flown.path_uncertainty_dots(passed.at)
    good = both(within(passed.at.course_dots, ONE_DOT, flown.course_uncertainty_dots(passed.at)),
                within(passed.at.path_dots, ONE_DOT, unsure))
    lower = "" if (passed.at.true_ft or 0.0) > (passed.at.indicated_ft or 0.0) - WORTH_TELLING_FT else ", truly lower"
    what = f"{name}: {beside(passed.at)}, {over(passed.at)}, uncertain by {in_dots(unsure)}."
    found = [Moment(f"minimum{lower}", passed.at, what, good)]
    return found + cold_minimum(flown)


def both(course: "bool | None", path: "bool | None") -> "bool | None":
    """Two verdicts as one: wrong if either is, too close to say if either is that."""
    return False if False in (course, path) else None if None in (course, path) else True


def _truly(at: Point) -> str:
    """The true altitude, where temperature or setting make it another one."""
    if at.true_ft is None or at.indicated_ft is None or abs(at.true_ft - at.indicated_ft) < WORTH_TELLING_FT:
        return ""
    return f" on the altimeter, truly {feet(at.true_ft)}"


def _lowest(flown: Flown) -> "list[Moment]":
    at = flown.lowest
    if at.indicated_ft is None or not flown.went_around:
        return []
    what = f"Lowest, {feet(at.indicated_ft)} on the altimeter"
    if flown.minimum_ft is not None:
        apart_ft = at.indicated_ft - flown.minimum_ft
        what += f", {feet(abs(apart_ft))} {'above' if apart_ft >= 0.0 else 'below'} the minimum"
    after = " It came down to the runway's level: a landing given up, or a touch and go." if flown.touched else ""
    return [Moment("go-around", at, f"{what}; then it climbs by {feet(flown.climb_ft)}: a go-around.{after}")]


def _threshold(flown: Flown) -> "list[Moment]":
    passed = flown.passed_distance(0.0)
    if passed is None:
        return []
    at = passed.at
    if passed.gap_s or at.true_ft is None:
        what = not_recorded(passed) if passed.gap_s else "height not recorded"
        return [Moment("threshold", at, f"Threshold: {what}.")]
    return [Moment("threshold", at, f"Threshold crossed {feet(at.true_ft - flown.levels.threshold_ft)} above it, "
                   f"{beside(at)}; the path crosses {feet(flown.approach.final.tch_ft)} above it.")]


def _end(flown: Flown) -> "list[Moment]":
    return [Moment("end", flown.points[-1], ending(flown))]


def ending(flown: Flown) -> str:
    """How the recording of the approach ends, in words."""
    last = flown.points[-1]
    if flown.went_around:
        return "Flown away after the go-around."
    if flown.touched:
        return "Landed, as far as a recording tells."
    height = "" if last.true_ft is None else f", {feet(last.true_ft - flown.levels.threshold_ft)} above its level"
    side = f"{tenths(abs(last.along_nm))} NM {'before' if last.along_nm >= 0.0 else 'beyond'} the threshold"
    return f"The recording ends {side}{height}."


def of_gates(gates: "list[GateFound]") -> "list[Moment]":
    """Each gate as a moment, if it was passed."""
    found: list[Moment] = []
    for gate in gates:
        found.extend(_gate(gate))
    return found


def _gate(found: GateFound) -> "list[Moment]":
    if found.at is None:
        return []
    name = f"Gate {found.gate.name}, {feet(found.altitude_ft)}"
    if found.gap_s:
        return [Moment("gate", found.at, f"{name}: in a gap of {whole(found.gap_s)} s: nothing is told.")]
    told = [f"{verdict}: {_items(found, verdict)}" for verdict in OPEN if _items(found, verdict)]
    good = GOOD.get(found.verdict)
    return [Moment("gate", found.at, f"{name}: {'; '.join(told) or 'met in what a recording tells'}.", good)]


def _items(found: GateFound, verdict: str) -> str:
    return ", ".join([f"{item.item} {item.found}" for item in found.items if item.verdict == verdict])


FINDERS = (
    _start, _through, _established, _path, _pfaf, _sink, _near_minimum, _minimum, _lowest, _threshold, _end,
)

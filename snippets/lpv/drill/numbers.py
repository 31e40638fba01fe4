"""Numbers drills: one number that a crew works out in flight, and how near the answer has to be.

Each kind is a function (approach, type, pick) -> Question.  The answer is that of the function of `lpv` which every
page and check asks; the tolerance is what would matter in flight, one limit upwards and one downwards.  DomainError
where the question makes no sense: no glidepath, nothing to correct for cold.
"""

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.core.text import course, feet, pressure, quantity, trimmed_quantity
from lpv.decide.climb import climb_gradient_ft_per_nm
from lpv.decide.final_path import (
    altimeter_at_pfaf_ft,
    course_dot_ft,
    glidepath,
    has_glidepath,
    path_dot_ft,
    pfaf_distance_nm,
)
from lpv.decide.last_mile import View, reading_allowances_ft, together_ft
from lpv.decide.minimum import Day, Minimum, minimum, missed_altitude
from lpv.drill.base import REPORTED
from lpv.drill.case import Pick
from lpv.drill.planted import needs
from lpv.drill.question import Kind, Question
from lpv.drill.side_mistakes import ALTIMETER_OLD, ALTIMETER_SLIPS
from lpv.drill.speed_numbers import added_to_vref, hold_outbound
from lpv.facts import value
from lpv.motion.kinematics import climb_rate_fpm, descent_rate_fpm, wind_triangle
from lpv.setup.checks import altimeter_error_ft
from lpv.setup.expected import Expected

GROUND_SPEEDS_KT = tuple(float(speed) for speed in range(95, 165, 5))
AIRSPEEDS_KT = (105.0, 115.0, 125.0, 135.0)
WINDS_KT = (10.0, 15.0, 20.0, 25.0, 30.0)
OFF_COURSE_DEG = (-30.0, 0.0, 20.0, 150.0, 180.0)
COLD_C = (-15.0, -18.0, -22.0, -26.0, -30.0, -34.0)
ANY_C = (-12.0, -5.0, 3.0, 24.0, 31.0, 36.0)
DISTANCES_NM = (1.0, 2.0, 3.0, 4.0)
DOTS = (0.5, 1.0, 1.5)
VISIBILITIES_FT = (1600.0, 2000.0, 2400.0, 3200.0, 4000.0, 5000.0)
SIGHTS = ("neither lights nor threshold", "lights, not the threshold", "the threshold")


def rate(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """The rate of descent on the glidepath for a ground speed."""
    gpa_deg, speed_kt = _glidepath_deg(approach), pick.choose("ground speed", GROUND_SPEEDS_KT)
    return _rate(f"Ground speed {quantity(speed_kt, 'kt')}. Which rate of descent keeps you on the glidepath, "
                 f"{quantity(gpa_deg, 'deg', 0.01)}?", speed_kt, gpa_deg)


def rate_in_wind(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """The rate of descent for a true airspeed in a wind."""
    gpa_deg, speed_kt = _glidepath_deg(approach), pick.choose("airspeed", AIRSPEEDS_KT)
    wind_kt, off_deg = pick.choose("wind", WINDS_KT), pick.choose("wind from", OFF_COURSE_DEG)
    from_deg = (approach.chart.course_deg + off_deg) % 360.0
    ground_kt = wind_triangle(approach.chart.course_deg, speed_kt, from_deg, wind_kt).ground_speed_kt
    return _rate(f"True airspeed {quantity(speed_kt, 'kt')}, course {course(approach.chart.course_deg)}, wind from "
                 f"{course(from_deg)} at {quantity(wind_kt, 'kt')}, in the same reference. Which rate of descent keeps "
                 f"you on the glidepath, {quantity(gpa_deg, 'deg', 0.01)}?", ground_kt, gpa_deg)


def _rate(words: str, ground_kt: float, gpa_deg: float) -> Question:
    near_fpm = value("drill_rate_fpm")
    return Question(
        words, "ft/min", descent_rate_fpm(ground_kt, gpa_deg), near_fpm, near_fpm, "a needle's width",
        f"Ground speed {quantity(ground_kt, 'kt')} along {quantity(gpa_deg, 'deg', 0.01)}.", "final/rate.md#table")


def altimeter_at_faf(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """What the altimeter shows on the glidepath at the PFAF, in the air of the day."""
    _glidepath_deg(approach)
    pfaf, allowed_ft = approach.pfaf, together_ft(list(reading_allowances_ft(approach).values()))
    needs(pfaf.altitude_ft is not None, "the PFAF has no charted altitude")
    charted_ft = pfaf.altitude_ft or 0.0
    tells = [now for now in COLD_C + ANY_C if abs(altimeter_at_pfaf_ft(approach, now) - charted_ft) > allowed_ft]
    temperature_c = pick.choose("temperature", tells)  # where the charted altitude is no answer
    return Question(
        f"{quantity(temperature_c, 'deg C')} at the airport, altimeter set right. What does it show on the glidepath "
        f"at {pfaf.name}, charted {feet(charted_ft)}?",
        "ft", altimeter_at_pfaf_ft(approach, temperature_c), allowed_ft, allowed_ft, "what the check at the fix allows",
        "The glidepath is fixed in space; in cold air the altimeter over-reads, in warm air it under-reads.",
        "final/altimeter.md#table")


def da_to_set(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """The DA to set in the cold: the operator's floor and the addition of the table."""
    temperature_c = pick.choose("temperature", COLD_C)
    needed = _minimum(approach, flown, temperature_c)
    needs(needed.cold_ft > 0.0, "nothing is corrected for cold")
    return Question(
        f"{quantity(temperature_c, 'deg C')}, corrections agreed with ATC. {needed.line} {needed.kind} charted "
        f"{feet(needed.row.altitude_ft)}. Which {needed.kind} do you set?",
        "ft", needed.altitude_ft, value("consequence_minimum_note_ft"), value("consequence_minimum_resolve_ft"),
        "never lower; higher by less than what the set-up check asks to resolve", f"{needed.reason}.",
        "final/altimeter.md#cold")


def add_to_da(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """What the cold adds to the DA."""
    temperature_c = pick.choose("temperature", COLD_C)
    needed = _minimum(approach, flown, temperature_c)
    needs(needed.cold_ft > 0.0, "nothing is corrected for cold")
    above_ft = needed.altitude_ft - needed.cold_ft - approach.chart.airport_elevation_ft
    return Question(
        f"{quantity(temperature_c, 'deg C')}. Your {needed.kind} before any correction lies {feet(above_ft)} above the "
        "airport. What does the cold temperature table add?",
        "ft", needed.cold_ft, value("consequence_minimum_note_ft"), value("consequence_minimum_resolve_ft"),
        "never less; more by less than what the set-up check asks to resolve",
        "The table by height above the airport and temperature, rounded as the handbook rounds a minimum.",
        "plan/temperature.md#rounding")


def missed_to_set(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """The missed approach altitude to set in the cold."""
    temperature_c = pick.choose("temperature", COLD_C)
    needed = missed_altitude(approach, flown.operator, Day(temperature_c))
    needs(needed is not None and needed.cold_ft > 0.0, "nothing is corrected for cold")
    assert needed is not None
    return Question(
        f"{quantity(temperature_c, 'deg C')}, corrections agreed with ATC. The missed approach climbs to "
        f"{feet(needed.charted_ft)}, the airport lies at {feet(approach.chart.airport_elevation_ft)}. What do you set?",
        "ft", needed.altitude_ft, value("limit_altitude_resolve_ft"), value("limit_altitude_stop_ft"),
        "never lower; higher by less than what the set-up check asks to resolve",
        f"The table adds {feet(needed.cold_ft)}, rounded as the handbook rounds an altitude.",
        "plan/temperature.md#table")


def path_dots(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """A deviation from the glidepath in feet."""
    _glidepath_deg(approach)
    distance_nm, dots = _place(approach, pick)
    return _dots(f"{trimmed_quantity(dots, 'dots')} below the glidepath, {quantity(distance_nm, 'NM', 0.1)} before the "
                 "threshold, two dots full scale. How many feet low is that?",
                 dots * path_dot_ft(approach, distance_nm), "final/deviation.md#path")


def course_dots(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """A deviation from the course in feet."""
    distance_nm, dots = _place(approach, pick)
    return _dots(f"{trimmed_quantity(dots, 'dots')} right of the course, {quantity(distance_nm, 'NM', 0.1)} before the "
                 "threshold, two dots full scale. How many feet is that?",
                 dots * course_dot_ft(approach, distance_nm), "final/deviation.md#course")


def _place(approach: Approach, pick: Pick) -> tuple[float, float]:
    inside = [nm for nm in DISTANCES_NM if nm < pfaf_distance_nm(approach)]
    return pick.choose("distance", inside), pick.choose("dots", DOTS)


def _dots(words: str, off_ft: float, teaches: str) -> Question:
    near_ft = off_ft * value("drill_dots_percent") / 100.0
    return Question(words, "ft", off_ft, near_ft, near_ft, "how well a pointer is read",
                    "A dot is an angle: it narrows on the way in, down to its floor near the threshold.", teaches)


def climb(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """The rate of climb that a gradient needs."""
    speed_kt, gradient = pick.choose("ground speed", GROUND_SPEEDS_KT), climb_gradient_ft_per_nm(approach)
    return Question(
        f"The missed approach needs {quantity(gradient, 'ft/NM')}; ground speed {quantity(speed_kt, 'kt')}. Which rate "
        "of climb do you need at least?",
        "ft/min", climb_rate_fpm(speed_kt, gradient), value("drill_climb_low_fpm"), value("drill_climb_high_fpm"),
        "too low misses the gradient, too high does not", "Gradient times ground speed, by sixty.",
        "decide/missed.md#climb")


def altimeter_error(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """How much lower a wrong altimeter setting leaves the aircraft."""
    unit = "inHg" if approach.identity.rule == "FAA" else "hPa"
    reported, slip = pick.choose("reported", REPORTED[unit]), pick.choose("slip", _too_high(unit))
    wrong = round(reported + slip, 2)
    error_ft = altimeter_error_ft(wrong, reported, unit)
    near_ft = error_ft * value("drill_setting_percent") / 100.0
    return Question(
        f"Reported {pressure(reported, unit)}, set {pressure(wrong, unit)}. How many feet lower than your altimeter "
        "shows are you?",
        "ft", error_ft, near_ft, near_ft, "the rules of thumb are as near as that",
        "Too high a setting shows too high an altitude.", "final/altimeter.md#altimeter-setting-slip")


def _too_high(unit: str) -> list[float]:
    return [slip for slip in (*ALTIMETER_SLIPS[unit], *ALTIMETER_OLD[unit]) if slip > 0.0]


def in_sight(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """What is in sight at the DA in a visibility, over the nose of the type."""
    _glidepath_deg(approach)
    needed, visible_ft = _minimum(approach, flown, None), pick.choose("visibility", VISIBILITIES_FT)
    view = View(approach, flown, needed.altitude_ft - approach.chart.threshold_elevation_ft)
    sight = view.sight(visible_ft)
    right = 2 if sight.threshold else 1 if sight.length_ft else 0
    lights = f"lights {feet(view.lights_ft)} long" if view.lights_ft else "no approach lights"
    full, all_well = value("drill_full_points"), value("drill_all_well_points")
    return Question(
        f"At {needed.kind} {feet(needed.altitude_ft)} on the glidepath the threshold is {feet(view.distance_ft)} "
        f"ahead, {lights}. Visibility {feet(visible_ft)}; your nose hides the first {feet(view.hidden_ft)}. What is in "
        "sight?",
        "", float(right), 0.0, 0.0, "more than there is to see is a decision on nothing",
        f"Between the nose and {feet(view.reach_ft(visible_ft))} ahead.", "decide/see.md#table", SIGHTS,
        tuple(full if place == right else all_well if place > right else 0.0 for place in range(len(SIGHTS))))


def _glidepath_deg(approach: Approach) -> float:
    needs(has_glidepath(approach), "the approach has no glidepath")
    return glidepath(approach)[2]


def _minimum(approach: Approach, flown: Aircraft, temperature_c: float | None) -> Minimum:
    """The minimum of the approach's best line for the type."""
    line = Expected(approach, flown).best_level
    line_minimum = minimum(approach, line, flown.type.category, flown.operator, Day(temperature_c))
    needs(line_minimum is not None, "the chart prints no minimum of its best line for the type's category")
    assert line_minimum is not None
    return line_minimum


KINDS = {
    "rate": Kind("rate of descent for a ground speed", rate),
    "rate-in-wind": Kind("rate of descent in a wind", rate_in_wind),
    "altimeter-at-faf": Kind("altimeter at the FAF in the air of the day", altimeter_at_faf),
    "add-to-da": Kind("what the cold adds to the DA", add_to_da),
    "da-to-set": Kind("the DA to set in the cold", da_to_set),
    "missed-to-set": Kind("the missed approach altitude to set in the cold", missed_to_set),
    "path-dots": Kind("dots to feet, glidepath", path_dots),
    "course-dots": Kind("dots to feet, course", course_dots),
    "climb": Kind("gradient to rate of climb", climb),
    "altimeter-error": Kind("a wrong altimeter setting in feet", altimeter_error),
    "in-sight": Kind("in sight or not at the DA", in_sight),
    "hold-outbound": Kind("time outbound in a hold, in wind", hold_outbound),
    "added-to-vref": Kind("what the operator's rule adds to VREF", added_to_vref),
}

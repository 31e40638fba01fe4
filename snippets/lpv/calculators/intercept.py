"""Calculators for the intercept: the turn onto the course, the path regained from above."""

from lpv.calculators.final import ANGLE, GROUND_SPEED, held_course, sink_rate_limit
from lpv.core.text import quantity
from lpv.facts import value
from lpv.forms.fields import Choice, Course, Number
from lpv.forms.form import Calculator, Limit, NoAnswer, Output, Steps
from lpv.intercept.course import (
    established_distance_nm,
    heading_meets,
    intercept_angle_deg,
    overshoot_late_nm,
    turn_onto_course,
)
from lpv.intercept.glidepath import regain_angle_deg
from lpv.intercept.vectors import approach_gate_nm, highest_angle_deg
from lpv.motion.kinematics import (
    HIGHEST_GRADIENT_FT_PER_NM,
    descent_rate_fpm,
    flying_time_s,
    gradient_ft_per_nm,
    track_and_ground_speed,
)

STEEPEST_TURN_DEG = 170.0
VECTOR_DEG = value("vector_angle_deg")


def _turn_on(
    track_deg: float, final_course_deg: float, true_airspeed_kt: float, bank_deg: float,
    roll_rate_deg_per_s: float, wind_from_deg: float, wind_kt: float, late_s: float,
) -> "dict[str, float]":
    angle_deg = abs(intercept_angle_deg(track_deg, final_course_deg))
    if angle_deg > STEEPEST_TURN_DEG:
        raise NoAnswer(f"The track leads away; allowed: an angle up to {quantity(STEEPEST_TURN_DEG, 'deg')}.")
    ground_speed_kt = held_course(track_deg, true_airspeed_kt, wind_from_deg, wind_kt).ground_speed_kt
    held_course(final_course_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    turn = turn_onto_course(
        track_deg, final_course_deg, true_airspeed_kt, bank_deg, roll_rate_deg_per_s, wind_from_deg, wind_kt
    )
    return {
        "angle_deg": angle_deg, "cross_track_nm": turn.cross_track_nm, "lead_nm": turn.lead_nm,
        "before_s": turn.lead_nm / ground_speed_kt * 3600.0, "bank_reached_deg": turn.bank_deg,
        "time_s": turn.time_s, "overshoot_nm": overshoot_late_nm(angle_deg, ground_speed_kt, late_s),
    }


def _vector(
    along_nm: float, across_nm: float, side: str, heading_deg: float, final_course_deg: float,
    true_airspeed_kt: float, wind_from_deg: float, wind_kt: float, bank_deg: float, roll_rate_deg_per_s: float,
    pfaf_nm: float,
) -> "dict[str, float | str]":
    held_course(final_course_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    track_deg, ground_speed_kt = track_and_ground_speed(heading_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    right_nm = across_nm if side == "right" else -across_nm
    meeting = heading_meets(
        along_nm, right_nm, heading_deg, final_course_deg, true_airspeed_kt, wind_from_deg, wind_kt, pfaf_nm)
    if meeting is None or meeting.angle_deg > STEEPEST_TURN_DEG:
        raise NoAnswer("This heading does not lead to the course: the track is parallel, leads away or leads back.")
    turn = turn_onto_course(
        track_deg, final_course_deg, true_airspeed_kt, bank_deg, roll_rate_deg_per_s, wind_from_deg, wind_kt)
    outside_nm = meeting.distance_nm - approach_gate_nm(pfaf_nm)
    most_deg = highest_angle_deg(outside_nm)
    allowed = f"{'at most' if meeting.angle_deg <= most_deg else 'over'} {quantity(most_deg, 'deg')}"
    early_nm = meeting.to_go_nm - turn.lead_nm
    return {
        "distance_nm": meeting.distance_nm, "where": "outside the FAF" if meeting.outside_pfaf else "inside the FAF",
        "outside_nm": outside_nm, "angle_deg": meeting.angle_deg, "allowed": allowed, "time_s": meeting.time_s,
        "roll_s": flying_time_s(abs(early_nm), ground_speed_kt) * (1.0 if early_nm >= 0.0 else -1.0),
        "established_nm": established_distance_nm(meeting, turn) - pfaf_nm,
    }


def _from_above(
    above_path_ft: float, within_nm: float, ground_speed_kt: float, gpa_deg: float,
) -> "dict[str, float]":
    if gradient_ft_per_nm(gpa_deg) + above_path_ft / within_nm > HIGHEST_GRADIENT_FT_PER_NM:
        raise NoAnswer("That takes a descent steeper than ten degrees: you cannot regain it so soon.")
    angle_deg = regain_angle_deg(above_path_ft, gpa_deg, within_nm)
    return {
        "rate_fpm": descent_rate_fpm(ground_speed_kt, angle_deg),
        "holding_fpm": descent_rate_fpm(ground_speed_kt, gpa_deg),
        "angle_deg": angle_deg,
        "time_s": within_nm / ground_speed_kt * 3600.0,
    }


GATE_WORDS = (
    f"Under {quantity(value('vector_outside_gate_nm'), 'NM')}, the least outside the approach gate that the FAA asks "
    "of its controllers unless you ask for less. Ask for a longer final."
)
VECTOR_WORDS = f"Over {quantity(VECTOR_DEG, 'deg')}, the most that the FAA lets its controllers give for a vector."

CALCULATORS = (
    Calculator(
        "vector", "where a heading meets the course", "Where does this heading meet the final course?", _vector,
        inputs=(
            Number("along_nm", "Before the threshold, along the course", "NM", 0, 60, 0.5, 14),
            Number("across_nm", "Distance from the course", "NM", 0.1, 30, 0.1, 3),
            Choice("side", "On this side of it", (("left", "left"), ("right", "right")), "left"),
            Course("heading_deg", "Heading", 1, 120),
            Course("final_course_deg", "Final course", 1, 90, "approach.course_deg"),
            Number("true_airspeed_kt", "True airspeed", "kt", 80, 300, 20, 180),
            Course("wind_from_deg", "Wind from, same reference (true or magnetic)", 10, 0),
            Number("wind_kt", "Wind speed", "kt", 0, 70, 5, 0),
            Number("bank_deg", "Bank limit", "deg", 5, 45, 1, 25, "aircraft.bank_limit_deg"),
            Number("roll_rate_deg_per_s", "Roll rate", "deg/s", 1, 20, 0.5, 5, "aircraft.roll_rate_deg_per_s"),
            Number("pfaf_nm", "Distance of the FAF", "NM", 1, 20, 0.1, 5.0, "approach.pfaf_distance_nm"),
        ),
        outputs=(
            Output("distance_nm", "Meets the course, before the threshold", "NM", 0.1, short="met at"),
            Output("where", "Meets it"),
            Output("outside_nm", "Outside the approach gate by", "NM", 0.1, limits=(
                Limit("under", value("vector_outside_gate_nm"), GATE_WORDS),)),
            Output("angle_deg", "Angle to the course", "deg"),
            Output("allowed", "Largest angle the FAA allows a vector there"),
            Output("time_s", "Time to the course", "s"),
            Output("roll_s", "Time to roll in", "s", short="roll in", limits=(
                Limit("under", 0.0, "The turn is already late: expect to go through the course."),)),
            Output("established_nm", "Wings level on the course, before the FAF", "NM", 0.1, limits=(
                Limit("under", 0.0, "Not established at the FAF: ask for a longer final, or go around."),)),
        ),
        sentence="Heading {heading_deg} meets course {final_course_deg} {distance_nm} out, {where}.",
        facts=("approach_gate_outside_faf_nm", "approach_gate_lowest_nm", "vector_outside_gate_nm",
               "vector_angle_near_gate_deg", "vector_angle_deg"),
        table=Steps("heading_deg", ("distance_nm", "roll_s"), 2, 2, step=10.0),
        remarks="Flat earth; heading, speed and wind constant until the turn.",
    ),
    Calculator(
        "turn-on", "turn onto the course", "Where must the turn onto the final course begin?", _turn_on,
        inputs=(
            Course("track_deg", "Present track", 1, 120),
            Course("final_course_deg", "Final course", 1, 90, "approach.course_deg"),
            Number("true_airspeed_kt", "True airspeed", "kt", 80, 300, 20, 160),
            Number("bank_deg", "Bank limit", "deg", 5, 45, 1, 25, "aircraft.bank_limit_deg"),
            Number("roll_rate_deg_per_s", "Roll rate", "deg/s", 1, 20, 0.5, 5, "aircraft.roll_rate_deg_per_s"),
            Course("wind_from_deg", "Wind from, same reference (true or magnetic)", 10, 0),
            Number("wind_kt", "Wind speed", "kt", 0, 70, 5, 0),
            Number("late_s", "Turn started late by", "s", 0, 60, 1, 5),
        ),
        outputs=(
            Output("cross_track_nm", "Roll in at this distance from the course", "NM", 0.01, short="from the course"),
            Output("lead_nm", "Along the track", "NM", 0.01),
            Output("before_s", "Before the track meets the course", "s", short="before meeting it"),
            Output("angle_deg", "Intercept angle", "deg", limits=(Limit("over", VECTOR_DEG, VECTOR_WORDS),)),
            Output("bank_reached_deg", "Bank reached", "deg"),
            Output("time_s", "From the first roll to wings level", "s"),
            Output("overshoot_nm", "Overshoot if started late", "NM", 0.01),
        ),
        sentence="From track {track_deg} onto course {final_course_deg}: roll in {cross_track_nm} from it.",
        facts=("vector_angle_deg",),
        table=Steps("true_airspeed_kt", ("cross_track_nm", "before_s"), 2, 2),
        remarks="The turn is the shorter way around, level, at constant airspeed.",
    ),
    Calculator(
        "from-above", "glidepath from above", "What rate regains the glidepath from above, and does the gate allow it?",
        _from_above,
        inputs=(
            Number("above_path_ft", "Above the glidepath", "ft", 0, 3000, 50, 200),
            Number("within_nm", "Regain it within", "NM", 0.5, 20, 0.5, 2.0),
            GROUND_SPEED, ANGLE,
        ),
        outputs=(
            Output("rate_fpm", "Rate of descent", "ft/min", 10, limits=(sink_rate_limit(),)),
            Output("holding_fpm", "To hold the glidepath alone", "ft/min", 10),
            Output("angle_deg", "Angle flown", "deg", 0.1),
            Output("time_s", "For", "s", short="for"),
        ),
        sentence="{above_path_ft} above, regained within {within_nm} at {ground_speed_kt}: {rate_fpm} down.",
        facts=("gate_sink_rate_fpm",),
        table=Steps("within_nm", ("rate_fpm", "time_s"), 2, 3, step=1.0, header="Within"),
    ),
)

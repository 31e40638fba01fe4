"""Calculators for the final approach: rate of descent, wind, dots, altimeter on the path."""

from lpv.core.errors import DomainError
from lpv.core.text import quantity
from lpv.facts import value
from lpv.forms.fields import Choice, Course, Number
from lpv.forms.form import Calculator, Limit, NoAnswer, Output, Steps
from lpv.motion.kinematics import (
    WindTriangle,
    crosswind_kt,
    descent_rate_fpm,
    gradient_ft_per_nm,
    headwind_kt,
    wind_triangle,
)
from lpv.path.deviation import final_full_scale_ft, five_dots, from_five_dots_ft, from_two_dots_ft, two_dots
from lpv.path.profile import straight_path_height_ft
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv.path.temperature import indicated_on_path_ft

SINK_RATE_FPM = value("gate_sink_rate_fpm")
DEVIATION_DOTS = value("gate_deviation_dots")
GROUND_SPEED = Number("ground_speed_kt", "Ground speed", "kt", 60, 250, 10, 130, "aircraft.final_speed_kt")
ANGLE = Number("gpa_deg", "Glidepath angle", "deg", 2, 9, 0.01, 3.0, "approach.glidepath_deg")
CROSSING = Number("tch_ft", "Threshold crossing height", "ft", 0, 200, 1, 50, "approach.tch_ft")
THRESHOLD = Number(
    "threshold_elevation_ft", "Threshold elevation", "ft", -1500, 14000, 1, 0, "approach.threshold_elevation_ft"
)
DISTANCE = Number("distance_nm", "Before the threshold", "NM", 0, 30, 0.1, 5.0, "approach.pfaf_distance_nm")


def sink_rate_limit() -> Limit:
    """The criterion on the rate of descent, with what to do about it."""
    return Limit(
        "over", SINK_RATE_FPM,
        f"Over {quantity(SINK_RATE_FPM, 'ft/min')}, the limit without a special briefing.",
    )


def _descent_rate(ground_speed_kt: float, gpa_deg: float) -> "dict[str, float]":
    return {
        "rate_fpm": descent_rate_fpm(ground_speed_kt, gpa_deg),
        "gradient_ft_per_nm": gradient_ft_per_nm(gpa_deg),
        "rule_fpm": ground_speed_kt * value("descent_rule_factor"),
    }


def held_course(
    course_deg: float, true_airspeed_kt: float, wind_from_deg: float, wind_kt: float,
) -> WindTriangle:
    """The wind triangle; NoAnswer where the wind is too strong for the airspeed."""
    try:
        return wind_triangle(course_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    except DomainError:
        raise NoAnswer("The wind is too strong for this airspeed to hold the course.") from None


def _wind(
    course_deg: float, true_airspeed_kt: float, wind_from_deg: float, wind_kt: float,
) -> "dict[str, float]":
    triangle = held_course(course_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    return {
        "along_kt": headwind_kt(course_deg, wind_from_deg, wind_kt),
        "across_kt": crosswind_kt(course_deg, wind_from_deg, wind_kt),
        "heading_deg": triangle.heading_deg,
        "drift_deg": triangle.drift_deg,
        "ground_speed_kt": triangle.ground_speed_kt,
    }


SCALES = {"2": (from_two_dots_ft, two_dots), "5": (from_five_dots_ft, five_dots)}


def _dots(
    distance_nm: float, scale: str, dots: float, offset_ft: float, half_width_ft: float, garp_distance_ft: float,
    tch_ft: float, gpa_deg: float,
) -> "dict[str, float | tuple[float, str]]":
    to_feet, to_dots = SCALES[scale]
    if dots > int(scale):
        raise NoAnswer("That many dots are off the scale.")
    course_ft = final_full_scale_ft(distance_nm, half_width_ft, garp_distance_ft)
    path_ft = lpv_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)
    return {
        "course_ft": to_feet(dots, course_ft), "path_ft": to_feet(dots, path_ft),
        "course_dots": _judged(to_dots(offset_ft, course_ft), two_dots(offset_ft, course_ft)),
        "path_dots": _judged(to_dots(offset_ft, path_ft), two_dots(offset_ft, path_ft)),
        "course_full_scale_ft": course_ft, "path_full_scale_ft": path_ft,
    }


def _judged(shown: float, on_two_dots: float) -> "tuple[float, str]":
    limit = quantity(DEVIATION_DOTS, "dot") + " of a two-dot scale"
    return shown, f"More than {limit}: not stabilized." if on_two_dots > DEVIATION_DOTS else ""


def _altimeter(
    distance_nm: float, temperature_c: float, charted_ft: float, aerodrome_elevation_ft: float,
    threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> "dict[str, float]":
    path = distance_nm, threshold_elevation_ft, tch_ft, gpa_deg
    try:
        indicated_ft = indicated_on_path_ft(*path, temperature_c, aerodrome_elevation_ft)
    except DomainError:
        raise NoAnswer("The glidepath is far above or far below the airport here: check the elevations.") from None
    return {
        "indicated_ft": indicated_ft, "to_charted_ft": indicated_ft - charted_ft,
        "path_ft": straight_path_height_ft(*path),
    }


CALCULATORS = (
    Calculator(
        "descent-rate", "rate of descent", "What rate of descent holds the glidepath?", _descent_rate,
        inputs=(GROUND_SPEED, ANGLE),
        outputs=(
            Output("rate_fpm", "Rate of descent", "ft/min", 10, limits=(sink_rate_limit(),)),
            Output("gradient_ft_per_nm", "Height for each mile", "ft/NM"),
            Output("rule_fpm", "Rule of thumb: speed times five", "ft/min", 10),
        ),
        sentence="At {ground_speed_kt} on a glidepath of {gpa_deg}: {rate_fpm} down.",
        facts=("gate_sink_rate_fpm", "descent_rule_factor"),
        table=Steps("ground_speed_kt", ("rate_fpm",)),
    ),
    Calculator(
        "wind", "wind along and across", "What does the wind do to heading, drift and ground speed?", _wind,
        inputs=(
            Course("course_deg", "Course", 1, 90, "approach.course_deg"),
            Number("true_airspeed_kt", "True airspeed", "kt", 60, 300, 10, 130, "aircraft.final_speed_kt"),
            Course("wind_from_deg", "Wind from, same reference (true or magnetic)", 10, 130),
            Number("wind_kt", "Wind speed", "kt", 0, 150, 5, 20),
        ),
        outputs=(
            Output("along_kt", "Along the course", "kt", sides=("headwind", "tailwind"), short="along"),
            Output("across_kt", "Across the course", "kt", sides=("from the right", "from the left"), short="across"),
            Output("heading_deg", "Heading that holds it", "course"),
            Output("drift_deg", "Drift", "deg", sides=("right", "left")),
            Output("ground_speed_kt", "Ground speed", "kt"),
        ),
        sentence="On course {course_deg}, wind from {wind_from_deg} at {wind_kt}: heading {heading_deg}, "
        "ground speed {ground_speed_kt}.",
        table=Steps("wind_kt", ("along_kt", "across_kt", "ground_speed_kt"), 2, 4, header="Wind"),
    ),
    Calculator(
        "dots", "dots and feet", "How many feet is a dot here, and how many dots is a distance in feet?", _dots,
        inputs=(
            DISTANCE,
            Choice("scale", "Dots to a side", (("2", "two"), ("5", "five")), "2"),
            Number("dots", "Deviation in dots", "dots", 0, 5, 0.5, 1.0),
            Number("offset_ft", "Deviation in feet", "ft", 0, 6000, 50, 100),
            Number(
                "half_width_ft", "Course half-width at the threshold", "ft", 200, 500, 1, 350,
                "approach.half_width_ft",
            ),
            Number(
                "garp_distance_ft", "Threshold to the GARP", "ft", 1000, 30000, 10, 10000,
                "approach.garp_distance_ft",
            ),
            CROSSING, ANGLE,
        ),
        outputs=(
            Output("course_ft", "Those dots of course, in feet", "ft", short="course"),
            Output("path_ft", "Those dots of glidepath, in feet", "ft", short="path"),
            Output("course_dots", "Those feet off the course, in dots", "dots", 0.1),
            Output("path_dots", "Those feet off the glidepath, in dots", "dots", 0.1),
            Output("course_full_scale_ft", "Course, full scale", "ft"),
            Output("path_full_scale_ft", "Glidepath, full scale (from memory)", "ft"),
        ),
        sentence="{distance_nm} before the threshold, {dots} are {course_ft} of course, {path_ft} of glidepath.",
        facts=(
            "angular_start_full_scale_nm", "lpv_vertical_share", "lpv_vertical_cap_m", "lpv_vertical_floor_m",
            "gate_deviation_dots",
        ),
        table=Steps("distance_nm", ("course_ft", "path_ft"), 5, 2, step=1.0, header="Dots entered, at"),
    ),
    Calculator(
        "altimeter", "altimeter on the glidepath", "What should the altimeter read on the glidepath?", _altimeter,
        inputs=(
            DISTANCE,
            Number("temperature_c", "Temperature at the airport", "deg C", -60, 50, 1, 0, "day.temperature_c"),
            Number("charted_ft", "Altitude charted at the fix", "ft", -1500, 20000, 1, 2000,
                   "approach.pfaf_altitude_ft"),
            Number("aerodrome_elevation_ft", "Aerodrome elevation", "ft", -1500, 14000, 1, 0,
                   "approach.airport_elevation_ft"),
            THRESHOLD, CROSSING, ANGLE,
        ),
        outputs=(
            Output("indicated_ft", "Altimeter on the glidepath", "ft", 10, short="altimeter"),
            Output("to_charted_ft", "Difference from the charted altitude", "ft", 10, signed=True, short="to charted"),
            Output("path_ft", "True altitude of the glidepath", "ft"),
        ),
        sentence="At {temperature_c}, {distance_nm} out and on the glidepath, the altimeter reads {indicated_ft}, "
        "{to_charted_ft} to the charted {charted_ft}.",
        table=Steps("temperature_c", ("indicated_ft", "to_charted_ft"), step=10.0, header="aerodrome"),
    ),
)

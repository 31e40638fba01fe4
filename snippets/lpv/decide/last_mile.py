"""The last part of a final in figures: what the altimeter may hide, the descent, the decision, what lies below it.

Each function answers one question that a page, a briefing or a figure asks; `approach` and `aircraft` are records, or
the same from their JSON form (`lpv.core.record`).  Distances before the threshold in NM, altitudes in ft.
"""

import math

from lpv.air.altimetry import true_height_ft
from lpv.air.atmosphere import hpa_from_inches, indicated_altitude_ft
from lpv.core.errors import DomainError
from lpv.core.text import feet
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.decide import visual
from lpv.decide.final_path import (
    altimeter_at_pfaf_ft,
    course_dot_ft,
    distance_at_altitude_nm,
    glidepath,
    path_dot_ft,
    pfaf_distance_nm,
)
from lpv.facts import value
from lpv.motion.kinematics import (
    descent_rate_fpm,
    distance_flown_ft,
    flying_time_s,
    gradient_ft_per_nm,
    height_for_distance_ft,
)
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.aircraft.record import Aircraft
    from lpv.approach.record import Approach

NEAR_DOTS, AIR_C, PASSAGE_NM, SET_INHG, HALF_DIGIT_INHG = 0.25, 5.0, 0.05, 29.92, 0.005
STANDARD_C = 15.0


# What the altimeter may differ by


def wrong_setting_ft(setting_inhg: float, true_inhg: float = SET_INHG) -> float:
    """How much more an altimeter shows with one setting than with another, near sea level; 25 to 33 inHg."""
    shown, true = (indicated_altitude_ft(0.0, hpa_from_inches(inches)) for inches in (setting_inhg, true_inhg))
    return shown - true


def reading_allowances_ft(approach: "Approach") -> "dict[str, float]":
    """Parts of the difference that a reading at the PFAF may show with nothing wrong, ft either way, by name.

    The allowances are this handbook's; the altimeter's own is a fact.  DomainError on LP.
    """
    _, _, gpa_deg = glidepath(approach)
    colder_ft = altimeter_at_pfaf_ft(approach, STANDARD_C - AIR_C) - altimeter_at_pfaf_ft(approach, STANDARD_C)
    return {
        "altimeter": value("altimeter_ground_check_ft"),
        "glidepath": path_dot_ft(approach, pfaf_distance_nm(approach)) * NEAR_DOTS,
        "air": colder_ft,
        "passage": PASSAGE_NM * gradient_ft_per_nm(gpa_deg),
        "sbas": value("accuracy_lpv_vertical_m") / M_PER_FT,
        "setting": wrong_setting_ft(SET_INHG + HALF_DIGIT_INHG),
    }


def together_ft(parts: "list[float]") -> float:
    """Independent parts together: the root of the sum of their squares."""
    return math.sqrt(sum([part * part for part in parts]))


def lower_than_shown_ft(approach: "Approach", altitude_ft: float, temperature_c: float) -> float:
    """How much lower than it shows the altimeter leaves the aircraft at an altitude, set right, in cold."""
    elevation_ft = approach.chart.airport_elevation_ft
    shown_ft = altitude_ft - elevation_ft
    return shown_ft - true_height_ft(shown_ft, temperature_c, elevation_ft)


# The descent


def ground_speed_at_rate_kt(rate_fpm: float, angle_deg: float) -> float:
    """Ground speed at which a descent at an angle takes a rate; angle 0.1 to 15 deg, rate positive."""
    return rate_fpm * 60.0 / gradient_ft_per_nm(angle_deg)


def tailwind_at_rate_kt(rate_fpm: float, angle_deg: float, true_airspeed_kt: float) -> float:
    """Tailwind along the final at which a descent at an angle takes a rate; negative for a headwind."""
    return ground_speed_at_rate_kt(rate_fpm, angle_deg) - true_airspeed_kt


def regain_rate_fpm(above_ft: float, within_nm: float, ground_speed_kt: float, angle_deg: float) -> float:
    """Rate of descent that loses a height above the glidepath within a distance, as well as following it."""
    return descent_rate_fpm(ground_speed_kt, angle_deg) + above_ft / flying_time_s(within_nm, ground_speed_kt) * 60.0


def rule_short_percent(angle_deg: float) -> float:
    """By how much the rule "ground speed times five" falls short of the rate of descent at an angle, percent."""
    per_kt = descent_rate_fpm(100.0, angle_deg) / 100.0
    return (1.0 - value("descent_rule_factor") / per_kt) * 100.0


def seconds_to_a_dot(
    approach: "Approach", distance_nm: float, heading_error_deg: float, ground_speed_kt: float,
) -> float:
    """Seconds until a track off the course has moved one dot as wide as it is at a distance; error above 0."""
    across_ft_per_s = distance_flown_ft(ground_speed_kt, 1.0) * math.sin(math.radians(heading_error_deg))
    return course_dot_ft(approach, distance_nm) / across_ft_per_s


# The decision


class DecisionPoint:
    """Where the descent reaches an altitude: height above the threshold, distance to it."""

    def __init__(self, altitude_ft: float, height_ft: float, distance_nm: float) -> None:
        self.altitude_ft, self.height_ft, self.distance_nm = altitude_ft, height_ft, distance_nm
        self.distance_ft = distance_nm * FT_PER_NM


def decision_point(approach: "Approach", altitude_ft: float) -> DecisionPoint:
    """The point at which the descent reaches an altitude; errors as `distance_at_altitude_nm`."""
    return DecisionPoint(altitude_ft, altitude_ft - approach.chart.threshold_elevation_ft,
                         distance_at_altitude_nm(approach, altitude_ft))


def lights_only_ft(approach: "Approach") -> float:
    """Lowest altitude with the approach lights alone in sight (14 CFR 91.175(c)(3)(i), FAA)."""
    return approach.chart.touchdown_zone_ft + value("als_only_lowest_above_tdze_ft")


def lights_length_ft(approach: "Approach") -> float:
    """Length of the approach lights, 0 where the chart has none."""
    return approach.chart.lights.length_ft if approach.chart.lights else 0.0


def seconds_to_minimum(approach: "Approach", distance_nm: float, minimum_ft: float, ground_speed_kt: float) -> float:
    """Seconds from a distance before the threshold down to a minimum on the descent, which lies nearer."""
    return flying_time_s(distance_nm - distance_at_altitude_nm(approach, minimum_ft), ground_speed_kt)


def seconds_after(approach: "Approach", da_ft: float, altitude_ft: float, ground_speed_kt: float) -> float:
    """Seconds from the decision to an altitude on the same descent; negative for one that comes before it."""
    further_nm = distance_at_altitude_nm(approach, da_ft) - distance_at_altitude_nm(approach, altitude_ft)
    return math.copysign(flying_time_s(abs(further_nm), ground_speed_kt), further_nm)


class View:
    """What the eyes have before them at a height above the threshold on the glidepath, in ft.

    eye_ft: height of the eyes;  distance_ft: to the threshold;  hidden_ft: what the nose hides ahead
    cutoff_deg: lowest line of sight;  above_antenna_ft: eyes above the antenna
    """

    def __init__(self, approach: "Approach", aircraft: "Aircraft", height_ft: float) -> None:
        cockpit, (threshold_ft, _, _) = aircraft.cockpit, glidepath(approach)
        self.above_antenna_ft = cockpit.eye_above_wheels_ft - cockpit.antenna_above_wheels_ft
        self.eye_ft = visual.eye_height_ft(height_ft, self.above_antenna_ft)
        self.distance_ft = decision_point(approach, threshold_ft + height_ft).distance_ft
        self.cutoff_deg = cockpit.cutoff_deg
        self.hidden_ft = visual.hidden_ahead_ft(self.eye_ft, cockpit.cutoff_deg)
        self.lights_ft = lights_length_ft(approach)

    def reach_ft(self, visible_ft: float) -> float:
        """How far ahead a visibility reaches on the ground."""
        return visual.reach_ahead_ft(self.eye_ft, visible_ft)

    def sight(self, visible_ft: float) -> visual.Sight:
        """What of lights and threshold is in sight at a visibility."""
        return visual.lights_in_sight(self.distance_ft, self.eye_ft, self.cutoff_deg, visible_ft, self.lights_ft)

    def needed_ft(self) -> float:
        """The visibility at which the threshold is in sight."""
        return visual.visibility_for_threshold_ft(self.distance_ft, self.eye_ft, self.cutoff_deg)


def threshold_seen_at_ft(
    approach: "Approach", aircraft: "Aircraft", altitude_ft: float, visible_ft: float,
) -> float:
    """Highest altitude, in whole feet down from one, at which the threshold is in sight; DomainError if at none."""
    height_ft = altitude_ft - approach.chart.threshold_elevation_ft
    _, tch_ft, _ = glidepath(approach)
    for step in range(int(height_ft - tch_ft)):
        if View(approach, aircraft, height_ft - step).sight(visible_ft).threshold:
            return altitude_ft - step
    raise DomainError(f"threshold in sight: found nowhere on the glidepath with {feet(visible_ft)} of visibility.")


# Level at the decision instead of deciding


class LevelOff:
    """Level flight at the decision altitude, t seconds after its point.

    above_path_ft: how far the glidepath has fallen away;  full_scale_ft: of the path deviation there
    angle_deg: from there to where the glidepath meets the level of the threshold
    """

    def __init__(
        self, point: DecisionPoint, tch_ft: float, gpa_deg: float, ground_speed_kt: float, time_s: float,
    ) -> None:
        flown_ft = distance_flown_ft(ground_speed_kt, time_s)
        left_ft = origin_distance_nm(point.distance_nm, tch_ft, gpa_deg) * FT_PER_NM - flown_ft
        self.above_path_ft = height_for_distance_ft(flown_ft, gpa_deg)
        self.full_scale_ft = lpv_full_scale_ft(left_ft / FT_PER_NM, gpa_deg)
        self.angle_deg = math.degrees(math.atan2(point.height_ft, left_ft))


def level_off(approach: "Approach", altitude_ft: float, ground_speed_kt: float, time_s: float) -> LevelOff:
    """Level at an altitude instead of deciding; DomainError on LP, and once the glidepath's end is passed."""
    _, tch_ft, gpa_deg = glidepath(approach)
    return LevelOff(decision_point(approach, altitude_ft), tch_ft, gpa_deg, ground_speed_kt, time_s)


def off_scale_s(approach: "Approach", altitude_ft: float, ground_speed_kt: float) -> float:
    """Tenths of seconds of level flight at an altitude after which the glidepath is full scale below."""
    for tenth in range(600):
        level = level_off(approach, altitude_ft, ground_speed_kt, tenth / 10.0)
        if level.above_path_ft >= level.full_scale_ft:
            return tenth / 10.0
    raise DomainError("off scale: found no time within a minute.")

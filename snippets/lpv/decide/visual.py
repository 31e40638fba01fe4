"""What can be seen from the decision: distances, the ground in sight, the approach lights in sight.

Side view over a flat, level ground at the height of the threshold.  Visibility
counts along the line of sight.  The nose hides everything steeper than the
down-view angle, the cockpit cut-off angle less the pitch attitude.  Lights and
runway ahead of the threshold are given in ft before the threshold.
"""

import math

from lpv.core.errors import DomainError, above, in_range
from lpv.core.text import feet
from lpv.core.units import FT_PER_NM
from lpv.facts import remembered, value, value_of
from lpv.path.profile import straight_path_distance_nm

# Approach light systems -> fact with the length, fact with the spacing of bars or flashers
LIGHT_SYSTEMS = {
    "ALSF-1": ("als_alsf_ft", "als_alsf_spacing_ft"),
    "ALSF-2": ("als_alsf_ft", "als_alsf_spacing_ft"),
    "MALSR": ("als_malsr_ft", "als_mals_spacing_ft"),
    "SSALR": ("als_malsr_ft", "als_mals_spacing_ft"),
    "MALSF": ("als_mals_ft", "als_mals_spacing_ft"),
    "MALS": ("als_mals_ft", "als_mals_spacing_ft"),
    "ODALS": ("als_odals_ft", "als_odals_spacing_ft"),
}


class Sight:
    """The part of the approach lights in sight, as distances before the threshold in ft.

    outer_ft, inner_ft: its ends; both None if nothing of the lights is in sight
    length_ft:          how much of them
    threshold:          true if the threshold itself is in sight
    """

    def __init__(self, outer_ft: "float | None", inner_ft: "float | None", threshold: bool) -> None:
        self.outer_ft = outer_ft
        self.inner_ft = inner_ft
        self.length_ft = 0.0 if outer_ft is None or inner_ft is None else outer_ft - inner_ft
        self.threshold = threshold


def threshold_distance_ft(height_ft: float, tch_ft: float, gpa_deg: float) -> float:
    """Distance, ft, from a point on the path to the threshold, along the ground.

    height_ft: above the threshold, from tch_ft to 5000; tch_ft: 0 to 200; gpa_deg: 1 to 10
    Raises DomainError outside.  Source: the straight path over the round earth, `lpv.path.profile`.
    """
    in_range("threshold crossing height", tch_ft, 0.0, 200.0, "ft")
    in_range("height above the threshold", height_ft, tch_ft, 5000.0, "ft")
    in_range("glidepath angle", gpa_deg, 1.0, 10.0, "deg")
    return straight_path_distance_nm(height_ft, 0.0, tch_ft, gpa_deg) * FT_PER_NM if height_ft > tch_ft else 0.0


def slant_range_ft(distance_ft: float, height_ft: float) -> float:
    """Distance, ft, along the line of sight to a point on the ground.

    distance_ft: along the ground, 0 to 100 000; height_ft: of the eyes, 0 to 10 000; DomainError outside
    """
    in_range("distance", distance_ft, 0.0, 100_000.0, "ft")
    return math.sqrt(distance_ft**2 + in_range("eye height", height_ft, 0.0, 10_000.0, "ft") ** 2)


def eye_height_ft(height_ft: float, eyes_above_antenna_ft: float) -> float:
    """Height of the pilot's eyes above the threshold, ft, when the antenna is at a height (0 to 5000 ft).

    eyes_above_antenna_ft: -50 to 50 (0 if unknown: a few ft); DomainError outside, or if the sum is not 0 to 10 000
    """
    in_range("height above the threshold", height_ft, 0.0, 5000.0, "ft")
    in_range("eyes above the antenna", eyes_above_antenna_ft, -50.0, 50.0, "ft")
    return in_range("eye height", height_ft + eyes_above_antenna_ft, 0.0, 10_000.0, "ft")


def down_view_deg(cut_off_deg: float, pitch_deg: float) -> float:
    """Steepest line of sight over the nose, degrees below the horizon.

    cut_off_deg: cockpit cut-off angle below the aircraft's axis, 1 to 45; pitch_deg: nose up, -15 to 25
    DomainError outside, and unless 0.5 to 60 degrees are left under the horizon.
    """
    in_range("cut-off angle", cut_off_deg, 1.0, 45.0, "deg")
    in_range("pitch attitude", pitch_deg, -15.0, 25.0, "deg")
    return in_range("down-view angle", cut_off_deg - pitch_deg, 0.5, 60.0, "deg")


def hidden_ahead_ft(eye_ft: float, down_view_deg: float) -> float:
    """How far ahead, ft, the nose hides the ground.

    eye_ft: height of the eyes, 0 to 10 000; down_view_deg: 0.5 to 60; DomainError outside
    """
    in_range("eye height", eye_ft, 0.0, 10_000.0, "ft")
    return eye_ft / math.tan(math.radians(in_range("down-view angle", down_view_deg, 0.5, 60.0, "deg")))


def reach_ahead_ft(eye_ft: float, visibility_ft: float) -> float:
    """How far ahead, ft along the ground, the visibility reaches; 0 if it does not reach down to it.

    eye_ft: 0 to 10 000; visibility_ft: over 0 up to 500 000; DomainError outside
    """
    in_range("eye height", eye_ft, 0.0, 10_000.0, "ft")
    visible = in_range("visibility", above("visibility", visibility_ft, 0.0, "ft"), 0.0, 500_000.0, "ft")
    return math.sqrt(max(0.0, visible**2 - eye_ft**2))


def lights_in_sight(
    distance_ft: float, eye_ft: float, down_view_deg: float, visibility_ft: float, lights_ft: float
) -> Sight:
    """What of the approach lights is in sight (see Sight), between the nose and the end of the visibility.

    distance_ft: from the threshold along the ground, 0 to 100 000
    lights_ft: length of the light system, 0 (none) to 5000; others as the functions above
    Raises DomainError outside.  Source: plane geometry.
    """
    in_range("distance", distance_ft, 0.0, 100_000.0, "ft")
    in_range("length of the lights", lights_ft, 0.0, 5000.0, "ft")
    near_ft = hidden_ahead_ft(eye_ft, down_view_deg)
    far_ft = reach_ahead_ft(eye_ft, visibility_ft)
    threshold = near_ft <= distance_ft <= far_ft
    outer_ft = min(lights_ft, distance_ft - near_ft)
    inner_ft = max(0.0, distance_ft - far_ft)
    if lights_ft == 0.0 or near_ft > far_ft or outer_ft < inner_ft:
        return Sight(None, None, threshold)
    return Sight(outer_ft, inner_ft, threshold)


def bars_in_sight(sight: Sight, spacing_ft: float) -> int:
    """How many bars (or flashers) of a light system are in sight, the first one spacing before the threshold.

    spacing_ft: 10 to 1000; DomainError outside
    """
    in_range("spacing", spacing_ft, 10.0, 1000.0, "ft")
    if sight.outer_ft is None or sight.inner_ft is None:
        return 0
    first = max(1, math.ceil(sight.inner_ft / spacing_ft))
    return max(0, math.floor(sight.outer_ft / spacing_ft) - first + 1)


def visibility_for_threshold_ft(distance_ft: float, eye_ft: float, down_view_deg: float) -> float:
    """Visibility along the line of sight, ft, that just shows the threshold.

    distance_ft: 0 to 100 000; others as `lights_in_sight`.  DomainError outside, and if the nose hides the threshold.
    """
    if hidden_ahead_ft(eye_ft, down_view_deg) > in_range("distance", distance_ft, 0.0, 100_000.0, "ft"):
        raise DomainError(
            f"down-view angle: found {down_view_deg} deg; "
            f"the nose hides the threshold at {feet(distance_ft)}."
        )
    return slant_range_ft(distance_ft, eye_ft)


def visibility_for_first_light_ft(
    distance_ft: float, eye_ft: float, down_view_deg: float, lights_ft: float
) -> float:
    """Visibility along the line of sight, ft, that just shows the nearest light not hidden by the nose.

    lights_ft: length of the light system, 10 to 5000; others as `lights_in_sight`.
    DomainError outside, and if the nose hides all of them.
    """
    in_range("length of the lights", lights_ft, 10.0, 5000.0, "ft")
    visibility_for_threshold_ft(distance_ft, eye_ft, down_view_deg)
    nearest_ft = max(hidden_ahead_ft(eye_ft, down_view_deg), distance_ft - lights_ft)
    return slant_range_ft(nearest_ft, eye_ft)


def lights_length_ft(system: str, gpa_deg: float) -> float:
    """Length, ft, of a standard approach light system of the United States.

    system: a key of LIGHT_SYSTEMS; gpa_deg: 1 to 10 (ALSF is longer under 2.75 degrees)
    Raises DomainError otherwise.
    """
    in_range("glidepath angle", gpa_deg, 1.0, 10.0, "deg")
    key, _ = _system(system)
    if key == "als_alsf_ft" and gpa_deg < value("als_alsf_angle_deg"):
        key = "als_alsf_low_angle_ft"
    return value_of(key)


def lights_remembered(system: str) -> str:
    """", from memory" where that length was read in no document, else ""; "" for what is no key of LIGHT_SYSTEMS."""
    return remembered(LIGHT_SYSTEMS[system][0]) if system in LIGHT_SYSTEMS else ""


def lights_spacing_ft(system: str) -> float:
    """Spacing, ft, of the bars or flashers of a system, a key of LIGHT_SYSTEMS; DomainError otherwise."""
    return value_of(_system(system)[1])


def _system(system: str) -> "tuple[str, str]":
    if system not in LIGHT_SYSTEMS:
        raise DomainError(f"light system: found {system!r}; allowed: {', '.join(LIGHT_SYSTEMS)}.")
    return LIGHT_SYSTEMS[system]

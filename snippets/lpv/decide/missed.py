"""The missed approach: how far it dips below the decision, and its climb above the obstacle surface.

The go-around is three steady pieces: the old rate of descent during the
reaction time, a constant upward acceleration, then a steady climb.  Real
rotations are rounder; this shows the size of things.  Heights count from the
decision, distances from where it is made; flat earth, steady ground speed.

Domain of all: rate of descent 0 to 3000 ft/min, reaction 0 to 30 s, upward
acceleration 0.02 to 1 g, rate of climb 100 to 10 000 ft/min, ground speed 30 to
400 kt, distances 0 to 100 NM; everything outside raises DomainError.
"""

import math

from lpv.core.errors import DomainError, in_range
from lpv.core.text import feet
from lpv.core.units import M_PER_FT, STANDARD_GRAVITY_MPS2
from lpv.decide.surfaces import surface_rise_ft_per_nm
from lpv.facts import value, value_of
from lpv.motion import kinematics as motion

CATEGORIES = ("A", "B", "C", "D")


class Dip:
    """How far a go-around goes below the height at which it was decided.

    loss_ft: greatest loss;  lowest_s: seconds from the decision until then
    back_s:  seconds from the decision until the height of the decision is regained
    """

    def __init__(self, loss_ft: float, lowest_s: float, back_s: float) -> None:
        self.loss_ft = loss_ft
        self.lowest_s = lowest_s
        self.back_s = back_s


def reaction_loss_ft(descent_rate_fpm: float, reaction_s: float) -> float:
    """Height lost, ft, at the old rate of descent before anything changes."""
    return _descent(descent_rate_fpm) * _reaction(reaction_s) / 60.0


def rotation_loss_ft(descent_rate_fpm: float, acceleration_g: float) -> float:
    """Height lost, ft, from the first pull until the descent is stopped: v^2 / 2a."""
    return (_descent(descent_rate_fpm) / 60.0) ** 2 / (2.0 * _acceleration_fps2(acceleration_g))


def height_loss_ft(descent_rate_fpm: float, reaction_s: float, acceleration_g: float) -> float:
    """Greatest loss of height, ft, after the decision: reaction and rotation together."""
    return reaction_loss_ft(descent_rate_fpm, reaction_s) + rotation_loss_ft(descent_rate_fpm, acceleration_g)


def dip(
    descent_rate_fpm: float, climb_rate_fpm: float, reaction_s: float, acceleration_g: float
) -> Dip:
    """The `Dip` of a go-around: greatest loss, when, and when the height is regained."""
    loss_ft = height_loss_ft(descent_rate_fpm, reaction_s, acceleration_g)
    acceleration = _acceleration_fps2(acceleration_g)
    climb_fps = _climb(climb_rate_fpm) / 60.0
    lowest_s = reaction_s + descent_rate_fpm / 60.0 / acceleration
    pull_gain_ft = climb_fps**2 / (2.0 * acceleration)
    if loss_ft <= pull_gain_ft:
        return Dip(loss_ft, lowest_s, lowest_s + math.sqrt(2.0 * loss_ft / acceleration))
    back_s = lowest_s + climb_fps / acceleration + (loss_ft - pull_gain_ft) / climb_fps
    return Dip(loss_ft, lowest_s, back_s)


def height_change_ft(
    time_s: float, descent_rate_fpm: float, climb_rate_fpm: float, reaction_s: float, acceleration_g: float
) -> float:
    """Height above that of the decision, ft, so many seconds (0 to 3600) after it; negative in the dip."""
    in_range("time since the decision", time_s, 0.0, 3600.0, "s")
    sink_fps = _descent(descent_rate_fpm) / 60.0
    climb_fps = _climb(climb_rate_fpm) / 60.0
    acceleration = _acceleration_fps2(acceleration_g)
    pulling_s = (sink_fps + climb_fps) / acceleration
    pull_s = min(max(0.0, time_s - _reaction(reaction_s)), pulling_s)
    steady_s = max(0.0, time_s - reaction_s - pulling_s)
    descended_ft = sink_fps * (min(time_s, reaction_s) + pull_s)
    return acceleration * pull_s**2 / 2.0 + climb_fps * steady_s - descended_ft + 0.0


def lowest_height_ft(
    decision_height_ft: float, descent_rate_fpm: float, reaction_s: float, acceleration_g: float
) -> float:
    """Lowest height, ft, of a go-around decided at a height (or altitude) of 0 to 20 000 ft.

    DomainError also if the loss is greater than the height: the aircraft would touch down first.
    """
    in_range("decision height", decision_height_ft, 0.0, 20_000.0, "ft")
    lowest_ft = decision_height_ft - height_loss_ft(descent_rate_fpm, reaction_s, acceleration_g)
    if lowest_ft < 0.0:
        raise DomainError(
            f"decision height: found {decision_height_ft} ft; "
            f"allowed: at least the loss of {feet(decision_height_ft - lowest_ft)}."
        )
    return lowest_ft


def design_height_loss_ft(category: str) -> float:
    """Height loss and altimeter margin, ft, that ICAO procedure design allows with a pressure altimeter.

    category: "A", "B", "C" or "D" (approach category); DomainError otherwise.
    Source: ICAO Doc 8168 Vol II, Table III-3-6-3.
    """
    return value_of(f"height_loss_baro_{_category(category)}_ft")


def design_height_loss_radio_ft(category: str) -> float:
    """The same margin, ft, with a radio altimeter; argument, errors and source as `design_height_loss_ft`."""
    return value_of(f"height_loss_radio_{_category(category)}_ft")


def surface_height_ft(distance_nm: float, start_height_ft: float, gradient_ft_per_nm: float) -> float:
    """Height, ft, of the obstacle surface at a distance along the missed approach.

    start_height_ft: of the surface where the distance is 0, -2000 to 20 000
    gradient_ft_per_nm: climb gradient for which it is drawn (200: 40:1), 50 to 1000
    Source: FAA Order 8260.52 par 4.3.1b; AIM 5-2-9.e.
    """
    in_range("start of the surface", start_height_ft, -2000.0, 20_000.0, "ft")
    return start_height_ft + _distance(distance_nm) * surface_rise_ft_per_nm(gradient_ft_per_nm)


def margin_over_surface_ft(
    distance_nm: float, above_start_ft: float, flown_ft_per_nm: float, published_ft_per_nm: float
) -> float:
    """Height, ft, over the obstacle surface at a distance, on a steady climb; negative below it.

    above_start_ft: over the start of the surface where the distance is 0, -1000 to 5000
    flown_ft_per_nm: gradient made good, 0 to 2000; published_ft_per_nm: 200 unless higher, 50 to 1000
    """
    in_range("height above the start of the surface", above_start_ft, -1000.0, 5000.0, "ft")
    flown = in_range("gradient flown", flown_ft_per_nm, 0.0, 2000.0, "ft/NM")
    rise = surface_rise_ft_per_nm(published_ft_per_nm)
    return above_start_ft + _distance(distance_nm) * (flown - rise) + 0.0


def surface_crossed_at_nm(
    above_start_ft: float, flown_ft_per_nm: float, published_ft_per_nm: float
) -> "float | None":
    """Distance, NM, at which a steady climb comes down to the obstacle surface; None if not in 100 NM.

    0 if it begins on or below the surface.  Arguments and errors as `margin_over_surface_ft`.
    """
    closing = -margin_over_surface_ft(1.0, 0.0, flown_ft_per_nm, published_ft_per_nm)
    if margin_over_surface_ft(0.0, above_start_ft, flown_ft_per_nm, published_ft_per_nm) <= 0.0:
        return 0.0
    if above_start_ft > closing * 100.0:
        return None
    return above_start_ft / closing


def required_climb_rate_fpm(ground_speed_kt: float, gradient_ft_per_nm: float) -> float:
    """Rate of climb, ft/min, that a climb gradient needs: at least that of the standard 200 ft/NM.

    gradient_ft_per_nm: published for the missed approach, 0 (none published) to 1000.
    Source: FAA AIM 5-4-21.b.
    """
    in_range("climb gradient", gradient_ft_per_nm, 0.0, 1000.0, "ft/NM")
    needed = max(value("missed_gradient_ft_per_nm"), gradient_ft_per_nm)
    return motion.climb_rate_fpm(_ground_speed(ground_speed_kt), needed)


def gradient_margin_ft_per_nm(
    climb_rate_fpm: float, ground_speed_kt: float, gradient_ft_per_nm: float
) -> float:
    """Gradient made good over the one needed, ft/NM; negative: the published climb is not met.

    gradient_ft_per_nm: 0 to 1000; DomainError outside it and the ranges that the module names
    """
    in_range("climb gradient", gradient_ft_per_nm, 0.0, 1000.0, "ft/NM")
    speed_kt, rate_fpm = _ground_speed(ground_speed_kt), _climb(climb_rate_fpm)
    flown = motion.gradient_for_climb_rate_ft_per_nm(speed_kt, rate_fpm)
    return flown - max(value("missed_gradient_ft_per_nm"), gradient_ft_per_nm)


def distance_to_altitude_nm(climb_ft: float, gradient_ft_per_nm: float) -> float:
    """Distance, NM, in which a steady gradient (50 to 1000 ft/NM) climbs by 0 to 20 000 ft."""
    in_range("climb", climb_ft, 0.0, 20_000.0, "ft")
    return climb_ft / in_range("climb gradient", gradient_ft_per_nm, 50.0, 1000.0, "ft/NM")


def _descent(rate_fpm: float) -> float:
    return in_range("rate of descent", rate_fpm, 0.0, 3000.0, "ft/min")


def _climb(rate_fpm: float) -> float:
    return in_range("rate of climb", rate_fpm, 100.0, 10_000.0, "ft/min")


def _reaction(reaction_s: float) -> float:
    return in_range("reaction time", reaction_s, 0.0, 30.0, "s")


def _acceleration_fps2(acceleration_g: float) -> float:
    return in_range("upward acceleration", acceleration_g, 0.02, 1.0, "g") * STANDARD_GRAVITY_MPS2 / M_PER_FT


def _ground_speed(ground_speed_kt: float) -> float:
    return in_range("ground speed", ground_speed_kt, 30.0, 400.0, "kt")


def _distance(distance_nm: float) -> float:
    return in_range("distance along the missed approach", distance_nm, 0.0, 100.0, "NM")


def _category(category: str) -> str:
    if category not in CATEGORIES:
        raise DomainError(f"approach category: found {category!r}; allowed: {', '.join(CATEGORIES)}.")
    return category.lower()

"""Calculators for the decision: climb, dip, what is in sight, runway visual range."""

from lpv.calculators.final import ANGLE, GROUND_SPEED
from lpv.core.text import miles, number, quantity, rounded_up
from lpv.core.units import FT_PER_UNIT, M_PER_FT
from lpv.decide.missed import design_height_loss_ft, dip, gradient_margin_ft_per_nm, required_climb_rate_fpm
from lpv.decide.visibility import rvr_for_visibility_ft, visibility_for_rvr_sm
from lpv.decide.visual import (
    eye_height_ft,
    hidden_ahead_ft,
    lights_in_sight,
    slant_range_ft,
    threshold_distance_ft,
)
from lpv.facts.visual import RVR_ROWS
from lpv.forms.fields import Choice, Number
from lpv.forms.form import Calculator, Limit, NoAnswer, Output, Rows, Steps
from lpv.motion.kinematics import descent_rate_fpm, gradient_for_climb_rate_ft_per_nm

FARTHEST_FT = 100000.0
STEP_OF_UNIT = {"ft": 50, "m": 10, "SM": 0.01}


def _climb(ground_speed_kt: float, gradient_ft_per_nm: float, climb_rate_fpm: float) -> "dict[str, float]":
    return {
        "needed_fpm": required_climb_rate_fpm(ground_speed_kt, gradient_ft_per_nm),
        "made_good_ft_per_nm": gradient_for_climb_rate_ft_per_nm(ground_speed_kt, climb_rate_fpm),
        "margin_ft_per_nm": gradient_margin_ft_per_nm(climb_rate_fpm, ground_speed_kt, gradient_ft_per_nm),
    }


def _dip(
    decision_ft: float, ground_speed_kt: float, gpa_deg: float, reaction_s: float, acceleration_g: float,
    climb_rate_fpm: float, category: str,
) -> "dict[str, float]":
    below = dip(descent_rate_fpm(ground_speed_kt, gpa_deg), climb_rate_fpm, reaction_s, acceleration_g)
    return {
        "loss_ft": below.loss_ft, "lowest_ft": decision_ft - below.loss_ft, "lowest_s": below.lowest_s,
        "back_s": below.back_s, "margin_ft": design_height_loss_ft(category) - below.loss_ft,
    }


def _sight(
    height_ft: float, visibility: float, visibility_unit: str, lights_ft: float, cutoff_deg: float,
    eyes_above_antenna_ft: float, tch_ft: float, gpa_deg: float,
) -> "dict[str, float | str]":
    visibility_ft = visibility * FT_PER_UNIT[visibility_unit]
    if visibility_ft > FARTHEST_FT:
        raise NoAnswer(f"That visibility counts as unlimited; allowed: up to {quantity(FARTHEST_FT, 'ft')}.")
    distance_ft = threshold_distance_ft(height_ft, tch_ft, gpa_deg)
    eyes_ft = eye_height_ft(height_ft, eyes_above_antenna_ft)
    sight = lights_in_sight(distance_ft, eyes_ft, cutoff_deg, visibility_ft, lights_ft)
    needed = slant_range_ft(distance_ft, eyes_ft) / FT_PER_UNIT[visibility_unit]
    hidden_ft = hidden_ahead_ft(eyes_ft, cutoff_deg)
    step = STEP_OF_UNIT[visibility_unit]
    shown = quantity(rounded_up(needed, step), visibility_unit, step)
    return {
        "threshold": "in sight" if sight.threshold else "not in sight", "lights_seen_ft": sight.length_ft,
        "distance_ft": distance_ft, "hidden_ft": hidden_ft,
        "needed": shown if hidden_ft <= distance_ft else "none: the nose hides it",
    }


def _rvr(rvr_ft: float, visibility_sm: float) -> "dict[str, float | str]":
    return {
        "visibility": miles(visibility_for_rvr_sm(rvr_ft)) + "\u202fSM",
        "rvr_for_ft": rvr_for_visibility_ft(visibility_sm),
        "rvr_m": rvr_ft * M_PER_FT,
    }


def _rvr_rows(rvr_ft: float, visibility_sm: float) -> "list[tuple[str, str]]":
    rows = []
    before = ""
    for row in RVR_ROWS:
        this = number(row[0])
        rows.append((f"over {before} to {this}" if before else this, miles(visibility_for_rvr_sm(row[0]))))
        before = this
    return rows


CLIMB_RATE = Number(
    "climb_rate_fpm", "Rate of climb", "ft/min", 100, 8000, 50, 2000, "aircraft.climb_rate_fpm"
)
CATEGORY = Choice(
    "category", "Approach category", tuple([(c, c) for c in "ABCD"]), "B", "aircraft.category"
)

CALCULATORS = (
    Calculator(
        "climb", "climb gradient and rate", "What climb rate does the missed approach need, and do I have it?",
        _climb,
        inputs=(
            GROUND_SPEED,
            Number("gradient_ft_per_nm", "Gradient published (0: none)", "ft/NM", 0, 1000, 10, 0,
                   "approach.missed_gradient_ft_per_nm"),
            Number("climb_rate_fpm", "Available climb rate", "ft/min", 100, 8000, 50, 500,
                   "aircraft.climb_rate_one_out_fpm"),
        ),
        outputs=(
            Output("needed_fpm", "Climb rate needed", "ft/min", 10, short="needed"),
            Output("made_good_ft_per_nm", "Gradient made good", "ft/NM", short="made good"),
            Output(
                "margin_ft_per_nm", "Margin over what is needed", "ft/NM", signed=True,
                limits=(Limit("under", 0.0, "The climb needed is not met."),),
            ),
        ),
        sentence="At {ground_speed_kt} the missed approach needs {needed_fpm}; you have {made_good_ft_per_nm}.",
        facts=("missed_gradient_ft_per_nm",),
        table=Steps("ground_speed_kt", ("needed_fpm", "made_good_ft_per_nm"), 2, 3),
        remarks="Use ground speed: a tailwind costs you gradient. None published: the standard one applies.",
    ),
    Calculator(
        "dip", "dip of the missed approach", "How far below the DA does a go-around dip?", _dip,
        inputs=(
            Number("decision_ft", "Decision altitude", "ft", -1500, 20000, 1, 200, "approach.da_ft"),
            GROUND_SPEED, ANGLE,
            Number("reaction_s", "From decision to first control input", "s", 0, 10, 0.1, 1.0,
                   "aircraft.reaction_s"),
            Number("acceleration_g", "Upward acceleration", "g", 0.02, 1, 0.01, 0.2, "aircraft.acceleration_g"),
            CLIMB_RATE, CATEGORY,
        ),
        outputs=(
            Output("loss_ft", "Dip below the DA", "ft", short="dip"),
            Output("lowest_ft", "Lowest altitude", "ft", short="lowest"),
            Output("lowest_s", "Lowest point after", "s", 0.1),
            Output("back_s", "Back at the DA after", "s", 0.1),
            Output(
                "margin_ft", "Design margin left (from memory)", "ft", signed=True,
                limits=(Limit("under", 0.0, "More than procedure design allows for this category (ICAO)."),),
            ),
        ),
        sentence="Go-around at {decision_ft}, first response after {reaction_s}: it dips {loss_ft}, to {lowest_ft}.",
        facts=tuple([f"height_loss_baro_{category}_ft" for category in "abcd"]),
        table=Steps("reaction_s", ("loss_ft", "lowest_ft"), 1, 4, step=1.0, header="First response after"),
        remarks="The design margin also covers altimeter errors: it is not all yours.",
    ),
    Calculator(
        "sight", "what is in sight at the DA", "What is in sight at the DA in this visibility?", _sight,
        inputs=(
            Number("height_ft", "DA above the threshold", "ft", 150, 1000, 10, 200, "approach.da_height_ft"),
            Number("visibility", "Visibility", "", 0.1, 16000, 0.1, 2400, "approach.visibility"),
            Choice("visibility_unit", "Its unit", (("ft", "feet"), ("m", "meters"), ("SM", "statute miles")), "ft",
                   "approach.visibility_unit"),
            Number("lights_ft", "Length of the approach lights", "ft", 0, 4000, 100, 2400, "approach.lights_ft"),
            Number("cutoff_deg", "Lowest line of sight over the nose", "deg", 5, 40, 1, 15,
                   "aircraft.cutoff_deg"),
            Number("eyes_above_antenna_ft", "Eyes above the antenna", "ft", -20, 20, 1, 0,
                   "aircraft.eyes_above_antenna_ft"),
            Number("tch_ft", "Threshold crossing height", "ft", 0, 100, 1, 50, "approach.tch_ft"),
            ANGLE,
        ),
        outputs=(
            Output("threshold", "Threshold"),
            Output("lights_seen_ft", "Approach lights in sight", "ft", 10, short="lights"),
            Output("needed", "Visibility that shows the threshold"),
            Output("distance_ft", "Distance to the threshold", "ft", 10),
            Output("hidden_ft", "Hidden ahead by the nose", "ft", 10),
        ),
        sentence="From {height_ft} above it, the threshold is {threshold}; {lights_seen_ft} of lights are in sight.",
        table=Steps("height_ft", ("lights_seen_ft", "threshold"), 4, 0, step=50.0, header="Height"),
        remarks="Flat ground, visibility along the line of sight. The rule says whether what you see is "
        "enough.",
    ),
    Calculator(
        "rvr", "RVR and visibility", "What visibility replaces an RVR, and the reverse?",
        _rvr,
        inputs=(
            Number("rvr_ft", "RVR", "ft", 1600, 6000, 100, 2400),
            Number("visibility_sm", "Visibility", "SM", 0.25, 1.25, 0.125, 0.75),
        ),
        outputs=(
            Output("visibility", "Visibility for this RVR"),
            Output("rvr_for_ft", "RVR for this visibility", "ft"),
            Output("rvr_m", "This RVR in meters", "m"),
        ),
        sentence="An RVR of {rvr_ft} equals a visibility of {visibility}.",
        facts=tuple([f"rvr_{row[0]}_ft_as_sm" for row in RVR_ROWS]),
        table=Rows(("RVR, ft", "Visibility, SM"), _rvr_rows),
        remarks="United States (14 CFR 91.175): between two rows take the next higher one; do not interpolate.",
    ),
)

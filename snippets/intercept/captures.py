"""From where each type arms, captures the course and captures the path, on the demo approach."""

from lpv.aircraft.record import Aircraft
from lpv.core.spoken import spoken
from lpv.core.text import quantity
from lpv.core.units import FT_PER_NM
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.facts import value
from lpv.fas.segment import garp_distance_ft, half_width_ft
from lpv.intercept.course import turn_onto_course_in_calm
from lpv.intercept.glidepath import level_to_path_nm
from lpv.intercept.vectors import nearest_vector_nm
from lpv.path.deviation import from_two_dots_ft, vectors_full_scale_ft
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv_site.department.data import aircraft, example
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

ANGLE_DEG = 30.0


def meets_nm() -> float:
    """Where a vector meets the course at the earliest, NM from the threshold."""
    return nearest_vector_nm(pfaf_distance_nm(example()))


def course_captured(jet: Aircraft) -> str:
    """How far from the course a type captures it, and by what."""
    if jet.capture.lateral_dots is not None:
        segment = example().segment
        full_ft = vectors_full_scale_ft(meets_nm(), half_width_ft(segment, 0.0), garp_distance_ft(segment))
        within_nm = from_two_dots_ft(min(value("two_dot_scale_dots"), jet.capture.lateral_dots), full_ft) / FT_PER_NM
        return f"{quantity(within_nm, 'NM', 0.01)} from it: {quantity(jet.capture.lateral_dots, 'dots', 0.1)}"
    speed_kt, flying = jet.target_speeds_kt(jet.landing.max_weight_lb)[0], jet.flying
    turn = turn_onto_course_in_calm(ANGLE_DEG, 0.0, speed_kt, flying.bank_limit_deg, flying.roll_rate_deg_per_s)
    return f"{quantity(turn.cross_track_nm, 'NM', 0.01)} from it: turn lead at {quantity(speed_kt, 'kt')}"


def path_captured(jet: Aircraft) -> str:
    """How far below the path a type captures it, and how far before it is met level."""
    _, tch_ft, gpa_deg = glidepath(example())
    full_ft = lpv_full_scale_ft(origin_distance_nm(pfaf_distance_nm(example()), tch_ft, gpa_deg), gpa_deg)
    below_ft = from_two_dots_ft(jet.capture.vertical_dots, full_ft)
    return f"{quantity(below_ft, 'ft')} below it, {quantity(level_to_path_nm(below_ft, gpa_deg), 'NM', 0.01)} before"


def entry(jet: Aircraft) -> list[tuple[str, str]]:
    """The lines of a type."""
    arms_nm, modes = jet.capture.arms_within_nm, jet.modes
    within = "" if arms_nm is None else f": {quantity(arms_nm, 'NM')} from the {jet.capture.arms_within_of}"
    return [
        ("armed by", ", ".join(modes.armed_by)),
        ("arming needs", spoken((", ".join(modes.arming_needs) or "nothing") + within)),
        ("<b>course captured</b>", f"<b>{course_captured(jet)}</b>"),
        ("glidepath arms", escape(modes.vertical_arms)),
        ("<b>glidepath captured</b>", f"<b>{path_captured(jet)}</b>"),
        ("glidepath met from above", escape(modes.path_from_above)),
    ]


def show() -> Shown:
    """The lines of every type."""
    who = example().identity
    head = (f"{escape(who.airport)} {escape(who.title)}; course met at {quantity(ANGLE_DEG, '°')}, "
            f"{quantity(meets_nm(), 'NM', 0.1)} out; glidepath met at the FAF, from below:")
    return Shown(f"{head}\n\n{stacked([(escape(jet.type.name), entry(jet)) for jet in aircraft()])}")

"""From where each type arms, captures the course and captures the path, on the demo approach."""

from lpv.core.text import quantity
from lpv.core.units import FT_PER_NM
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.facts import value
from lpv.fas.segment import garp_distance_ft, half_width_ft
from lpv.intercept.course import turn_onto_course_in_calm
from lpv.intercept.glidepath import level_to_path_nm
from lpv.intercept.vectors import approach_gate_nm
from lpv.path.deviation import from_two_dots_ft, vectors_full_scale_ft
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv_site.department.data import aircraft, example
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

ANGLE_DEG = 30.0
approach = example()
pfaf_nm, (_, tch_ft, gpa_deg) = pfaf_distance_nm(approach), glidepath(approach)
meets_nm = approach_gate_nm(pfaf_nm) + value("vector_outside_gate_nm")
course_ft = vectors_full_scale_ft(meets_nm, half_width_ft(approach.segment, 0.0), garp_distance_ft(approach.segment))
path_ft = lpv_full_scale_ft(origin_distance_nm(pfaf_nm, tch_ft, gpa_deg), gpa_deg)


def course_captured(aircraft):
    if aircraft.capture.lateral_dots is not None:
        within_nm = from_two_dots_ft(min(2.0, aircraft.capture.lateral_dots), course_ft) / FT_PER_NM
        return f"{quantity(within_nm, 'NM', 0.01)} from it: {quantity(aircraft.capture.lateral_dots, 'dots', 0.1)}"
    speed_kt, flying = aircraft.target_speeds_kt(aircraft.landing.max_weight_lb)[0], aircraft.flying
    turn = turn_onto_course_in_calm(ANGLE_DEG, 0.0, speed_kt, flying.bank_limit_deg, flying.roll_rate_deg_per_s)
    return f"{quantity(turn.cross_track_nm, 'NM', 0.01)} from it: turn lead at {quantity(speed_kt, 'kt')}"


def path_captured(aircraft):
    below_ft = from_two_dots_ft(aircraft.capture.vertical_dots, path_ft)
    return f"{quantity(below_ft, 'ft')} below it, {quantity(level_to_path_nm(below_ft, gpa_deg), 'NM', 0.01)} before"


def entry(aircraft):
    arms_nm, modes = aircraft.capture.arms_within_nm, aircraft.modes
    within = "" if arms_nm is None else f": {quantity(arms_nm, 'NM')} from the {aircraft.capture.arms_within_of}"
    return [
        ("armed by", ", ".join(modes.armed_by)),
        ("arming needs", (", ".join(modes.arming_needs) or "nothing") + within),
        ("<b>course captured</b>", f"<b>{course_captured(aircraft)}</b>"),
        ("path arms", escape(modes.vertical_arms)),
        ("<b>path captured</b>", f"<b>{path_captured(aircraft)}</b>"),
        ("path met from above", escape(modes.path_from_above)),
    ]


print(
    f"{escape(approach.identity.airport)} {escape(approach.identity.title)}; course met at {quantity(ANGLE_DEG, '°')}, "
    f"{quantity(meets_nm, 'NM', 0.1)} out; path met at the PFAF, from below:\n"
)
types = aircraft()
print(stacked([(escape(aircraft.type.name), entry(aircraft)) for aircraft in types]))

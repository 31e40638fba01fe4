"""What one dot is in feet on the example: at the PFAF, closer in, and at the DA."""

from lpv.core.text import dots, number, quantity
from lpv.decide.final_path import (
    course_dot_ft,
    course_full_scale_ft,
    distance_at_altitude_nm,
    path_dot_ft,
    path_full_scale_ft,
    pfaf_distance_nm,
)
from lpv.facts import value
from lpv.path.deviation import from_five_dots_ft, from_two_dots_ft
from lpv_site.department.data import example, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

ROUND_NM, DOTS = (5.0, 4.0, 3.0, 2.0, 1.0), 1.5


def show() -> Shown:
    """A row for each place on the way down."""
    approach, row, pfaf_nm = example(), example_row(), pfaf_distance_nm(example())
    da_nm = distance_at_altitude_nm(approach, row.altitude_ft)
    places = [(f"FAF {escape(approach.pfaf.name)}", pfaf_nm)]
    places += [(quantity(distance_nm, "NM"), distance_nm) for distance_nm in ROUND_NM if distance_nm < pfaf_nm]
    places += [(f"DA {number(row.altitude_ft)}", da_nm), ("threshold", 0.0)]
    rows = [
        (name, f"**{number(course_dot_ft(approach, distance_nm))}**",
         number(from_five_dots_ft(1.0, course_full_scale_ft(approach, distance_nm))),
         f"**{number(path_dot_ft(approach, distance_nm))}**")
        for name, distance_nm in places
    ]
    listed = table(["at", "course, two-dot", "course, five-dot", "glidepath, two-dot"], rows)
    normal_dots = value("normal_deviation_share") * value("two_dot_scale_dots")
    return Shown(f"One dot, in feet, on the LPV final of {escape(approach.identity.airport)}:\n\n{listed}", {
        "normal": Value(normal_dots, "dots", dots(normal_dots)),
        "da_course": Value.of(from_two_dots_ft(DOTS, course_full_scale_ft(approach, da_nm)), "ft"),
        "da_path": Value.of(from_two_dots_ft(DOTS, path_full_scale_ft(approach, da_nm)), "ft"),
    })

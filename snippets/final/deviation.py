"""What one dot is in feet on the example: at the PFAF, closer in, and at the DA."""

from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.facts import value
from lpv.fas.segment import garp_distance_ft, half_width_ft
from lpv.path.deviation import final_full_scale_ft, from_five_dots_ft, from_two_dots_ft
from lpv.path.profile import straight_path_distance_nm
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, plain, quantity

approach = example()
elevation_ft, tch_ft, gpa_deg = glidepath(approach)
course = half_width_ft(approach.segment, 0.0), garp_distance_ft(approach.segment)
best = next(line for line in approach.chart.minima if line.line == "LPV")
pfaf_nm = pfaf_distance_nm(approach)
da_nm = straight_path_distance_nm(best.altitude_ft, elevation_ft, tch_ft, gpa_deg)


def course_ft(distance_nm: float) -> float:
    return final_full_scale_ft(distance_nm, *course)


def path_ft(distance_nm: float) -> float:
    return lpv_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)


places = [(f"PFAF {escape(approach.pfaf.name)}", pfaf_nm)]
places += [(quantity(distance, "NM"), float(distance)) for distance in (5, 3, 1) if distance < pfaf_nm]
places += [(f"DA {number(best.altitude_ft)}", da_nm), ("threshold", 0.0)]
print(f"One dot, in feet, on the LPV final of {escape(approach.identity.airport)}:\n")
print(
    table(
        ["at", "course, two-dot", "course, five-dot", "path, two-dot"],
        [
            (
                name,
                f"**{number(from_two_dots_ft(1.0, course_ft(distance)))}**",
                number(from_five_dots_ft(1.0, course_ft(distance))),
                f"**{number(from_two_dots_ft(1.0, path_ft(distance)))}**",
            )
            for name, distance in places
        ],
    )
)

normal_dots = value("normal_deviation_share") * value("two_dot_scale_dots")
values = {
    "normal": f"{plain(normal_dots)} dot" + ("" if normal_dots == 1.0 else "s"),
    "da_course": quantity(from_two_dots_ft(1.5, course_ft(da_nm)), "ft"),
    "da_path": quantity(from_two_dots_ft(1.5, path_ft(da_nm)), "ft"),
}

"""Full scale of the path deviation, LPV and ILS, from 10 NM to the threshold of the example."""

from lpv.decide.final_path import glidepath
from lpv.path.ils_scale import glide_slope_full_scale_ft, glide_slope_of_angle_full_scale_ft
from lpv.path.profile import straight_path_distance_nm
from lpv.path.scale import lpv_cap_distance_nm, lpv_floor_distance_nm, lpv_full_scale_ft, origin_distance_nm
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import quantity

elevation_ft, tch_ft, gpa_deg = glidepath(example())
da_ft = next(line.altitude_ft for line in example().chart.minima if line.line == "LPV")
da_nm = straight_path_distance_nm(da_ft, elevation_ft, tch_ft, gpa_deg)
before_origin_nm = origin_distance_nm(0.0, tch_ft, gpa_deg)
CAP_NM, FLOOR_NM = lpv_cap_distance_nm(gpa_deg) - before_origin_nm, lpv_floor_distance_nm(gpa_deg) - before_origin_nm
DISTANCES_NM = sorted({*(twentieth / 20 for twentieth in range(201)), CAP_NM, FLOOR_NM})


def of(full_scale, distance_nm: float, *angle: float) -> float:
    return full_scale(origin_distance_nm(distance_nm, tch_ft, gpa_deg), *angle)


def lpv_ft(distance_nm: float) -> float:
    return of(lpv_full_scale_ft, distance_nm, gpa_deg)


def note(axes, text, distance_nm, offset, role="first", **more):
    point = (distance_nm, lpv_ft(distance_nm))
    axes.annotate(text, point, xytext=offset, textcoords="offset points", color=COLOURS[role], **more)


def draw(axes):
    axes.plot(DISTANCES_NM, [lpv_ft(d) for d in DISTANCES_NM], color=COLOURS["first"])
    axes.plot(DISTANCES_NM, [of(glide_slope_full_scale_ft, d) for d in DISTANCES_NM], "--", color=COLOURS["second"])
    axes.text(9.2, of(glide_slope_full_scale_ft, 9.2) + 8, "ILS", color=COLOURS["second"], va="bottom", ha="left")
    note(axes, f"LPV: cap {lpv_ft(9):.0f} ft", 9.8, (0, -14))
    note(axes, f"floor {lpv_ft(0):.0f} ft", FLOOR_NM, (9, 40), ha="right")
    axes.plot(da_nm, lpv_ft(da_nm), "o", color=COLOURS["answer"])
    note(axes, f"DA: {lpv_ft(da_nm):.0f} ft", da_nm, (-12, -4), "answer", ha="right", weight="bold")
    axes.set(xlabel="distance to the threshold, NM", ylabel="full scale, ft up or down", xlim=(10, 0), ylim=(0, 800))


print(
    figure(
        "final-deviation-path-figure",
        draw,
        finding=f"LPV full scale is like that of an ILS, but never more than {lpv_ft(10):.0f} ft (outside "
        f"{CAP_NM:.1f} NM) nor less than {lpv_ft(0):.0f} ft (inside {FLOOR_NM:.1f} NM). From memory, see below.",
        headers=["to threshold", "LPV", "ILS, 0.7°", "ILS, 0.24 of the angle"],
        rows=[
            (f"{d:g} NM", *(f"{f:.0f} ft" for f in (lpv_ft(d), of(glide_slope_full_scale_ft, d),
             of(glide_slope_of_angle_full_scale_ft, d, gpa_deg)))) for d in (10, 8, 6, 5, 4, 3, 2, 1, 0.5, 0)
        ],
    )
)
values = {
    "cap_distance": quantity(CAP_NM, "NM", 1), "floor_distance": quantity(FLOOR_NM, "NM", 1),
    "floor": quantity(lpv_ft(0), "ft"), "ils_threshold": quantity(of(glide_slope_full_scale_ft, 0), "ft"),
}

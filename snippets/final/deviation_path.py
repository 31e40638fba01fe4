"""Full scale of the path deviation, LPV and ILS, from 10 NM to the threshold of the example."""

from functools import partial
from typing import Any

from lpv.core.text import feet, quantity
from lpv.decide.final_path import distance_at_altitude_nm, glidepath, path_full_scale_ft
from lpv.path.ils_scale import glide_slope_full_scale_ft, glide_slope_of_angle_full_scale_ft
from lpv.path.scale import lpv_cap_distance_nm, lpv_floor_distance_nm, origin_distance_nm
from lpv_site.department.data import example, example_row
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

FARTHEST_NM, SHOWN_NM = 10.0, (10.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.0, 1.0, 0.5, 0.0)


def show() -> Shown:
    """The figure: LPV, and the ILS by two rules."""
    approach, (_, tch_ft, gpa_deg) = example(), glidepath(example())
    lpv_ft = partial(path_full_scale_ft, approach)

    def ils_ft(distance_nm: float) -> float:
        return glide_slope_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg))

    def ils_of_angle_ft(distance_nm: float) -> float:
        return glide_slope_of_angle_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)

    before_nm = origin_distance_nm(0.0, tch_ft, gpa_deg)
    cap_nm, floor_nm = lpv_cap_distance_nm(gpa_deg) - before_nm, lpv_floor_distance_nm(gpa_deg) - before_nm
    da_nm = distance_at_altitude_nm(approach, example_row().altitude_ft)
    return Shown(figure(
        "final-deviation-path-figure", partial(draw, lpv_ft, ils_ft, (cap_nm, floor_nm, da_nm)),
        finding=f"LPV full scale is like that of an ILS, but never more than {quantity(lpv_ft(FARTHEST_NM), 'ft')} "
        f"(outside {quantity(cap_nm, 'NM', 0.1)}) nor less than {quantity(lpv_ft(0.0), 'ft')} (inside "
        f"{quantity(floor_nm, 'NM', 0.1)}). From memory, see below.",
        headers=["to threshold", "LPV", "ILS, 0.7°", "ILS, 0.24 of the angle"],
        rows=[(quantity(nm, "NM", 0.5 if nm == 0.5 else 1), *(quantity(full_ft(nm), "ft") for full_ft in (
            lpv_ft, ils_ft, ils_of_angle_ft))) for nm in SHOWN_NM],
    ), {
        "cap_distance": Value.of(cap_nm, "NM", 1), "floor_distance": Value.of(floor_nm, "NM", 1),
        "floor": Value.of(lpv_ft(0.0), "ft"), "ils_threshold": Value.of(ils_ft(0.0), "ft"),
    })


def draw(lpv_ft: Any, ils_ft: Any, places_nm: tuple[float, float, float], axes: Any) -> None:
    """Full scale of both paths by distance."""
    cap_nm, floor_nm, da_nm = places_nm
    distances_nm = sorted({*(twentieth / 20 for twentieth in range(201)), cap_nm, floor_nm})

    def note(
        text: str, distance_nm: float, offset: tuple[float, float], role: str = "first", **more: Any,
    ) -> None:
        axes.annotate(text, (distance_nm, lpv_ft(distance_nm)), xytext=offset, textcoords="offset points",
                      color=COLOURS[role], **more)

    axes.plot(distances_nm, [lpv_ft(nm) for nm in distances_nm], color=COLOURS["first"])
    axes.plot(distances_nm, [ils_ft(nm) for nm in distances_nm], "--", color=COLOURS["second"])
    axes.text(9.2, ils_ft(9.2) + 8, "ILS", color=COLOURS["second"], va="bottom", ha="left")
    note(f"LPV: cap {feet(lpv_ft(9.0))}", 9.8, (0, -14))
    note(f"floor {feet(lpv_ft(0.0))}", floor_nm, (9, 40), ha="right")
    axes.plot(da_nm, lpv_ft(da_nm), "o", color=COLOURS["answer"])
    note(f"DA: {feet(lpv_ft(da_nm))}", da_nm, (-12, -4), "answer", ha="right", weight="bold")
    axes.set(xlabel="distance to the threshold, NM", ylabel="full scale, ft up or down", xlim=(FARTHEST_NM, 0),
             ylim=(0, 800))

"""Full scale of the path deviation, LPV and ILS, from 10 NM to the threshold of the example."""

from lpv.core.text import quantity
from lpv.decide.final_path import glidepath, path_full_scale_ft, path_limits_nm
from lpv.path.ils_scale import glide_slope_full_scale_ft, glide_slope_of_angle_full_scale_ft
from lpv.path.scale import origin_distance_nm
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import finding_and_table

SHOWN_NM = (10.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.0, 1.0, 0.5, 0.0)


def show() -> Shown:
    """LPV, and the ILS by two rules."""
    approach, (_, tch_ft, gpa_deg) = example(), glidepath(example())
    def lpv_ft(distance_nm: float) -> float:
        return path_full_scale_ft(approach, distance_nm)

    def ils_ft(distance_nm: float) -> float:
        return glide_slope_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg))

    def ils_of_angle_ft(distance_nm: float) -> float:
        return glide_slope_of_angle_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)

    cap_nm, floor_nm = path_limits_nm(approach)
    return Shown(finding_and_table(
        finding=f"LPV full scale is like that of an ILS, but never more than {quantity(lpv_ft(cap_nm), 'ft')} "
        f"(outside {quantity(cap_nm, 'NM', 0.1)}) nor less than {quantity(lpv_ft(0.0), 'ft')} (inside "
        f"{quantity(floor_nm, 'NM', 0.1)}). From memory, see below.",
        headers=["to threshold", "LPV", "ILS, 0.7°", "ILS, 0.24 of the angle"],
        rows=[(quantity(nm, "NM", 0.5 if nm == 0.5 else 1), *(quantity(full_ft(nm), "ft") for full_ft in (
            lpv_ft, ils_ft, ils_of_angle_ft))) for nm in SHOWN_NM],
    ), {
        "cap_distance": Value.of(cap_nm, "NM", 1), "floor_distance": Value.of(floor_nm, "NM", 1),
        "floor": Value.of(lpv_ft(0.0), "ft"), "ils_threshold": Value.of(ils_ft(0.0), "ft"),
    })

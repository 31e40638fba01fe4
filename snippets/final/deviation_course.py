"""Full scale of the course deviation, LPV and ILS, from 10 NM to the threshold of the example."""

from lpv.core.text import quantity
from lpv.decide.final_path import pfaf_distance_nm
from lpv.facts import value
from lpv.path.deviation import final_cap_distance_nm, procedure_full_scale_ft, vectors_full_scale_ft
from lpv.path.ils_scale import localizer_full_scale_ft
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import finding_and_table

FARTHEST_NM = 10


def show() -> Shown:
    """LPV along the whole procedure, LPV on vectors, ILS."""
    geometry, pfaf_nm = example().geometry, pfaf_distance_nm(example())
    course = geometry.half_width_ft, geometry.garp_distance_ft

    def procedure_ft(distance_nm: float) -> float:
        return procedure_full_scale_ft(distance_nm, pfaf_nm, *course)

    def ils_ft(distance_nm: float) -> float:
        return localizer_full_scale_ft(distance_nm, geometry.garp_distance_ft)

    at_pfaf, at_threshold = quantity(procedure_ft(pfaf_nm), "ft"), quantity(procedure_ft(0.0), "ft")
    far_out = quantity(value("terminal_full_scale_nm"), "NM")
    return Shown(finding_and_table(
        finding=f"With the whole procedure flown, full scale shrinks from {far_out} to {at_pfaf} at the FAF and "
        f"{at_threshold} at the threshold, where it stops narrowing; inside the FAF it matches an ILS.",
        headers=["to threshold", "LPV, procedure", "LPV, vectors", "ILS"],
        rows=[(quantity(nm, "NM"), *(quantity(full_ft, "ft") for full_ft in (
            procedure_ft(nm), vectors_full_scale_ft(nm, *course), ils_ft(nm)))) for nm in range(FARTHEST_NM, -1, -1)],
    ), {"cap": Value.of(final_cap_distance_nm(*course), "NM", 1), "at_pfaf": Value.of(procedure_ft(pfaf_nm), "ft")})

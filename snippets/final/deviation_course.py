"""Full scale of the course deviation, LPV and ILS, from 10 NM to the threshold of the example."""

from functools import partial
from typing import Any

from lpv.core.text import feet, quantity
from lpv.decide.final_path import pfaf_distance_nm
from lpv.path.deviation import final_cap_distance_nm, procedure_full_scale_ft, vectors_full_scale_ft
from lpv.path.ils_scale import localizer_full_scale_ft
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

DISTANCES_NM, FARTHEST_NM = [tenth / 10 for tenth in range(101)], 10


def show() -> Shown:
    """The figure: LPV along the whole procedure, LPV on vectors, ILS."""
    geometry, pfaf_nm = example().geometry, pfaf_distance_nm(example())
    course = geometry.half_width_ft, geometry.garp_distance_ft

    def procedure_ft(distance_nm: float) -> float:
        return procedure_full_scale_ft(distance_nm, pfaf_nm, *course)

    def ils_ft(distance_nm: float) -> float:
        return localizer_full_scale_ft(distance_nm, geometry.garp_distance_ft)

    at_pfaf, at_threshold = quantity(procedure_ft(pfaf_nm), "ft"), quantity(procedure_ft(0.0), "ft")
    return Shown(figure(
        "final-deviation-course-figure", partial(draw, procedure_ft, ils_ft, pfaf_nm),
        finding=f"With the whole procedure flown, full scale shrinks from 1 NM to {at_pfaf} at the FAF and "
        f"{at_threshold} at the threshold, where it stops narrowing; inside the FAF it is that of an ILS.",
        headers=["to threshold", "LPV, procedure", "LPV, vectors", "ILS"],
        rows=[(quantity(nm, "NM"), *(quantity(full_ft, "ft") for full_ft in (
            procedure_ft(nm), vectors_full_scale_ft(nm, *course), ils_ft(nm)))) for nm in range(FARTHEST_NM, -1, -1)],
    ), {"cap": Value.of(final_cap_distance_nm(*course), "NM", 1), "at_pfaf": Value.of(procedure_ft(pfaf_nm), "ft")})


def draw(procedure_ft: Any, ils_ft: Any, pfaf_nm: float, axes: Any) -> None:
    """Full scale of both courses by distance."""
    axes.plot(DISTANCES_NM, [procedure_ft(nm) for nm in DISTANCES_NM], color=COLOURS["first"])
    axes.plot(DISTANCES_NM, [ils_ft(nm) for nm in DISTANCES_NM], "--", color=COLOURS["second"])
    axes.text(pfaf_nm + 0.9, 4600, "LPV, whole\nprocedure", color=COLOURS["first"])
    axes.text(9.8, 600, "ILS, and LPV on vectors", color=COLOURS["second"])
    for distance_nm, label, offset, side in (
        (pfaf_nm, f"FAF: {feet(procedure_ft(pfaf_nm))}", (6, 6), "left"),
        (0.0, f"threshold:\n{feet(procedure_ft(0.0))}", (2, 9), "right"),
    ):
        point = distance_nm, procedure_ft(distance_nm)
        axes.plot(*point, "o", color=COLOURS["answer"], clip_on=False)
        axes.annotate(label, point, xytext=offset, textcoords="offset points", ha=side, color=COLOURS["answer"],
                      weight="bold")
    axes.set(xlabel="distance to the threshold, NM", ylabel="full scale, ft to a side", xlim=(FARTHEST_NM, 0),
             ylim=(0, 6500))

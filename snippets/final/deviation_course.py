"""Full scale of the course deviation, LPV and ILS, from 10 NM to the threshold of the example."""

from lpv.decide.final_path import pfaf_distance_nm
from lpv.fas.segment import garp_distance_ft, half_width_ft
from lpv.path.deviation import final_cap_distance_nm, procedure_full_scale_ft, vectors_full_scale_ft
from lpv.path.ils_scale import localizer_full_scale_ft
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import quantity

segment, pfaf_nm = example().segment, pfaf_distance_nm(example())
COURSE = half_width_ft(segment, 0.0), garp_distance_ft(segment)
DISTANCES_NM = [tenth / 10 for tenth in range(0, 101)]


def procedure_ft(distance_nm: float) -> float:
    return procedure_full_scale_ft(distance_nm, pfaf_nm, *COURSE)


def vectors_ft(distance_nm: float) -> float:
    return vectors_full_scale_ft(distance_nm, *COURSE)


def ils_ft(distance_nm: float) -> float:
    return localizer_full_scale_ft(distance_nm, COURSE[1])


def draw(axes):
    axes.plot(DISTANCES_NM, [procedure_ft(d) for d in DISTANCES_NM], color=COLOURS["first"])
    axes.plot(DISTANCES_NM, [ils_ft(d) for d in DISTANCES_NM], "--", color=COLOURS["second"])
    axes.text(pfaf_nm + 0.9, 4600, "LPV, whole\nprocedure", color=COLOURS["first"])
    axes.text(9.8, 600, "ILS, and LPV on vectors", color=COLOURS["second"])
    for distance, label, offset, side in (
        (pfaf_nm, f"PFAF: {procedure_ft(pfaf_nm):.0f} ft", (6, 6), "left"),
        (0.0, f"threshold:\n{procedure_ft(0):.0f} ft", (2, 9), "right"),
    ):
        axes.plot(distance, procedure_ft(distance), "o", color=COLOURS["answer"], clip_on=False)
        axes.annotate(
            label, (distance, procedure_ft(distance)), xytext=offset, textcoords="offset points",
            ha=side, color=COLOURS["answer"], weight="bold",
        )
    axes.set(xlabel="distance to the threshold, NM", ylabel="full scale, ft to a side", xlim=(10, 0), ylim=(0, 6500))


print(
    figure(
        "final-deviation-course-figure",
        draw,
        finding=f"With the whole procedure flown, full scale shrinks from 1 NM to {procedure_ft(pfaf_nm):.0f} ft "
        f"at the PFAF and {procedure_ft(0):.0f} ft at the threshold, where it stops narrowing; inside the PFAF it "
        "is that of an ILS.",
        headers=["to threshold", "LPV, procedure", "LPV, vectors", "ILS"],
        rows=[
            (f"{d} NM", *(f"{full_ft:.0f} ft" for full_ft in (procedure_ft(d), vectors_ft(d), ils_ft(d))))
            for d in range(10, -1, -1)
        ],
    )
)
values = {"cap": quantity(final_cap_distance_nm(*COURSE), "NM", 1), "at_pfaf": quantity(procedure_ft(pfaf_nm), "ft")}

"""How much higher the straight path runs than the barometric one, against distance."""

from typing import Any

from lpv.core.text import feet, quantity
from lpv.path.profile import barometric_path_height_ft, straight_above_barometric_ft
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

ELEVATION_FT, TCH_FT, GPA_DEG = 0.0, 50.0, 3.0
FARTHEST_NM, PARTS = 12, 4  # of a mile
DISTANCES_NM = [part / PARTS for part in range(PARTS * FARTHEST_NM + 1)]
NEAR_NM, FAR_NM = 5, 10
MARKED_NM = (3, NEAR_NM, 7, FAR_NM)


def excess_ft(distance_nm: float) -> float:
    """The excess on a path of three degrees to a runway at sea level."""
    return straight_above_barometric_ft(distance_nm, ELEVATION_FT, TCH_FT, GPA_DEG)


def show() -> Shown:
    """The figure, and the excess at two distances."""
    rows = [(
        quantity(distance, "NM"), feet(barometric_path_height_ft(distance, ELEVATION_FT, TCH_FT, GPA_DEG)),
        f"+{feet(excess_ft(distance))}",
    ) for distance in MARKED_NM]
    return Shown(figure(
        "excess-figure", draw,
        finding=f"On a 3° path the SBAS glidepath is {feet(excess_ft(NEAR_NM))} above the charted (barometric) "
        f"altitude at {quantity(NEAR_NM, 'NM')} and {feet(excess_ft(FAR_NM))} at {quantity(FAR_NM, 'NM')}, on a "
        "standard day.",
        headers=["distance", "barometric path", "SBAS path above it"], rows=rows,
    ), {"at_5": Value.of(excess_ft(NEAR_NM), "ft"), "at_10": Value.of(excess_ft(FAR_NM), "ft")})


def draw(axes: Any) -> None:
    """The excess as a curve, with the marked distances."""
    axes.plot(DISTANCES_NM, [excess_ft(d) for d in DISTANCES_NM], color=COLOURS["first"])
    for distance in MARKED_NM:
        place = (distance, excess_ft(distance))
        axes.plot(*place, "o", color=COLOURS["answer"])
        axes.annotate(feet(place[1]), place, xytext=(-8, 5), textcoords="offset points", ha="right",
                      color=COLOURS["answer"], weight="bold")
    axes.set(xlabel="distance to the threshold, NM", ylabel="altimeter above charted, ft", xlim=(0, FARTHEST_NM),
             ylim=(0, None))

"""Where an uncompensated barometric path truly lies, in cold and heat, against the SBAS path of the example."""

from lpv.air.altimetry import true_height_ft
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft
from lpv.path.temperature import barometric_angle_deg
from lpv_site.briefing.figures import path_arguments, pfaf_distance_nm
from lpv_site.department.data import example
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import number, quantity, signed

arguments, pfaf_nm = path_arguments(example()), pfaf_distance_nm(example())
elevation_ft = example().chart.airport_elevation_ft
DISTANCES_NM = [tenth / 10 for tenth in range(71)]
TEMPERATURES = ((40, "second"), (15, "first"), (-30, "third"))


def above_sbas_ft(distance_nm: float, temperature_c: float) -> float:
    """True height of the barometric path less that of the SBAS path."""
    indicated_ft = barometric_path_height_ft(distance_nm, *arguments) - elevation_ft
    true_ft = elevation_ft + true_height_ft(indicated_ft, temperature_c, elevation_ft)
    return true_ft - straight_path_height_ft(distance_nm, *arguments)


def draw(axes):
    axes.axhline(0, color=COLOURS["ink"], linewidth=2.4)
    axes.text(6.9, 12, "SBAS path, hot or cold", color=COLOURS["ink"], weight="bold")
    for temperature, role in TEMPERATURES:
        axes.plot(DISTANCES_NM, [above_sbas_ft(d, temperature) for d in DISTANCES_NM], "--", color=COLOURS[role])
        axes.text(
            3.0, above_sbas_ft(3.2, temperature) + (14 if temperature > 15 else -14), quantity(temperature, "°C"),
            color=COLOURS[role], va="bottom" if temperature > 15 else "top",
        )
        axes.plot(pfaf_nm, above_sbas_ft(pfaf_nm, temperature), "o", color=COLOURS["answer"])
        axes.annotate(
            signed(above_sbas_ft(pfaf_nm, temperature), "ft"), (pfaf_nm, above_sbas_ft(pfaf_nm, temperature)),
            xytext=(6, -12 if temperature < 40 else 4), textcoords="offset points", color=COLOURS["answer"],
            weight="bold",
        )
    axes.set(xlabel="distance to the threshold, NM", ylabel="above SBAS path, ft", xlim=(7, 0))
    axes.yaxis.labelpad = -1.0


print(
    figure(
        "final-altimeter-paths-figure",
        draw,
        finding=f"At {quantity(-30, '°C')} an uncompensated barometric path lies "
        f"{number(-above_sbas_ft(pfaf_nm, -30))} ft below the SBAS path at the PFAF; that one does not move.",
        headers=["aerodrome", "barometric angle", "at the PFAF, to SBAS"],
        rows=[
            (
                quantity(t, "°C"),
                quantity(barometric_angle_deg(arguments[2], t, elevation_ft), "°", 2),
                signed(above_sbas_ft(pfaf_nm, t), "ft"),
            )
            for t in range(-30, 41, 10)
        ],
    )
)
values = {"cold_angle": quantity(barometric_angle_deg(arguments[2], -30, elevation_ft), "°", 2)}

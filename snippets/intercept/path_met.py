"""Where the path is met level at the charted altitude, and what the altimeter reads at the PFAF, by temperature."""

from lpv.air.altimetry import segment_addition_ft
from lpv.core.text import quantity, signed
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.path.temperature import indicated_on_path_ft, path_met_distance_nm
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import escape

TEMPERATURES_C = (-30, -15, 0, 15, 30, 40)
COLD_C = -30.0
approach = example()
elevation_ft = approach.chart.airport_elevation_ft
pfaf_nm, charted_ft = pfaf_distance_nm(approach), approach.pfaf.altitude_ft
path = glidepath(approach)


def met_nm(indicated_ft, temperature_c):
    return path_met_distance_nm(indicated_ft, *path, temperature_c, elevation_ft)


rows = []
for temperature_c in TEMPERATURES_C:
    found_nm = met_nm(charted_ft, temperature_c)
    inside_nm = round(round(pfaf_nm, 1) - round(found_nm, 1), 1)
    side = "inside" if inside_nm > 0.0 else "outside"
    reads_ft = indicated_on_path_ft(pfaf_nm, *path, temperature_c, elevation_ft)
    rows.append(
        (
            signed(temperature_c, "°C"),
            f"**{quantity(found_nm, 'NM', 0.1)}**",
            f"{quantity(abs(inside_nm), 'NM', 0.1)} {side}" if inside_nm else "at the PFAF",
            quantity(reads_ft, "ft"),
        )
    )
print(
    f"{escape(approach.identity.airport)} {escape(approach.identity.title)}, level at {quantity(charted_ft, 'ft')}, "
    f"{escape(approach.pfaf.name)} {quantity(pfaf_nm, 'NM', 0.1)} out:\n"
)
print(table(["airport", "path met at", "that is", "reads at PFAF"], rows))
addition_ft = segment_addition_ft(charted_ft - elevation_ft, COLD_C)
values = {
    "cold": signed(COLD_C, "°C"),
    "cold_met": quantity(met_nm(charted_ft, COLD_C), "NM", 0.1),
    "addition": quantity(addition_ft, "ft"),
    "corrected_met": quantity(met_nm(charted_ft + addition_ft, COLD_C), "NM", 0.1),
}

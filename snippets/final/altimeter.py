"""What the altimeter reads on the SBAS glidepath at the example's PFAF, by temperature at the aerodrome."""

from lpv.air.altimetry import aerodrome_isa_deviation_c
from lpv.path.temperature import barometric_angle_deg, indicated_on_path_ft
from lpv_site.briefing.figures import path_arguments, pfaf_distance_nm
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity, signed

approach = example()
chart, charted_ft = approach.chart, approach.pfaf.altitude_ft or 0.0
distance_nm, arguments = pfaf_distance_nm(approach), path_arguments(approach)
standard_c = -aerodrome_isa_deviation_c(0.0, chart.airport_elevation_ft)


def reading_ft(temperature_c: float) -> float:
    """To the nearest ten, as an altimeter is read."""
    return round(indicated_on_path_ft(distance_nm, *arguments, temperature_c, chart.airport_elevation_ft), -1)


def row(temperature_c: float, name: str) -> tuple[str, str, str]:
    reading = reading_ft(temperature_c)
    return f"{quantity(temperature_c, '°C')}{name}", f"**{number(reading)}**", signed(reading - charted_ft, "ft")


named = sorted([*((float(temperature), "") for temperature in range(-30, 41, 10)), (standard_c, ", standard")])
rows = [row(temperature, name) for temperature, name in named]
print(
    f"On the glidepath at {escape(approach.pfaf.name)} of {escape(approach.identity.airport)}, "
    f"{quantity(distance_nm, 'NM', 1)} out, charted {number(charted_ft)}; to the nearest ten feet:\n"
)
print(table(["aerodrome", "altimeter, ft", "to charted"], rows))
values = {
    "standard": signed(reading_ft(standard_c) - charted_ft, "ft"),
    "coldest": signed(reading_ft(-30.0) - charted_ft, "ft"),
    "cold_angle": quantity(barometric_angle_deg(arguments[2], -30.0, chart.airport_elevation_ft), "°", 2),
    "per_ten": quantity(reading_ft(standard_c - 10.0) - reading_ft(standard_c), "ft"),
}

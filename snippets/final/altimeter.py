"""What the altimeter reads on the SBAS glidepath at the example's PFAF, by temperature at the aerodrome."""

from lpv.core.text import number, quantity, signed
from lpv.decide.final_path import (
    altimeter_at_pfaf_ft,
    altimeter_over_charted_ft,
    charted_pfaf_ft,
    glidepath,
    pfaf_distance_nm,
    standard_temperature_c,
)
from lpv.path.temperature import barometric_angle_deg
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

STEP_FT, COLD_C = 10, -30.0  # an altimeter is read to the nearest ten


def to_ten(difference_ft: float) -> Value:
    """A difference of readings, to the nearest ten feet with its sign."""
    return Value(difference_ft, "ft", signed(difference_ft, "ft", STEP_FT))


def show() -> Shown:
    """A row for each temperature."""
    approach, standard_c = example(), standard_temperature_c(example())
    charted_ft = charted_pfaf_ft(approach)
    reads_ft = {temperature_c: altimeter_at_pfaf_ft(approach, temperature_c)
                for temperature_c in sorted([*map(float, range(-30, 50, 10)), standard_c])}
    rows = [
        (quantity(temperature_c, "°C") + (", standard" if temperature_c == standard_c else ""),
         f"**{number(reading_ft, STEP_FT)}**", to_ten(altimeter_over_charted_ft(approach, temperature_c)).text)
        for temperature_c, reading_ft in reads_ft.items()
    ]
    head = (f"On the glidepath at {escape(approach.pfaf.name)} of {escape(approach.identity.airport)}, "
            f"{quantity(pfaf_distance_nm(approach), 'NM', 0.1)} out, charted {number(charted_ft)}; to the nearest ten "
            "feet:")
    angle_deg = barometric_angle_deg(glidepath(approach)[2], COLD_C, approach.chart.airport_elevation_ft)
    colder_ft = altimeter_at_pfaf_ft(approach, standard_c - 10.0) - reads_ft[standard_c]
    return Shown(f"{head}\n\n{table(['airport', 'altimeter, ft', 'to charted'], rows)}", {
        "standard": to_ten(altimeter_over_charted_ft(approach, standard_c)),
        "coldest": to_ten(altimeter_over_charted_ft(approach, COLD_C)),
        "cold_angle": Value(angle_deg, "deg", quantity(angle_deg, "deg", 0.01)),
        "per_ten": Value(colder_ft, "ft", quantity(colder_ft, "ft", STEP_FT)),
    })

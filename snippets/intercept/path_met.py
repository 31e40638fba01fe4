"""Where the path is met level at the charted altitude, and what the altimeter reads at the PFAF, by temperature."""

from lpv.core.text import number, quantity, signed
from lpv.decide.cold import pfaf_addition_ft
from lpv.decide.final_path import altimeter_at_pfaf_ft, charted_pfaf_ft, glidepath_met_nm, pfaf_distance_nm
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

TEMPERATURES_C, COLD_C, STEP_NM = (-30.0, -15.0, 0.0, 15.0, 30.0, 40.0), -30.0, 0.1


def side(inside_nm: float) -> str:
    """How far inside or outside the PFAF, in words."""
    if number(inside_nm, STEP_NM) == number(0.0, STEP_NM):
        return "at the FAF"
    return f"{quantity(abs(inside_nm), 'NM', STEP_NM)} {'inside' if inside_nm > 0.0 else 'outside'}"


def show() -> Shown:
    """A row for each temperature."""
    approach = example()
    pfaf_nm, charted_ft = pfaf_distance_nm(approach), charted_pfaf_ft(approach)
    met_nm = {temperature_c: glidepath_met_nm(approach, charted_ft, temperature_c) for temperature_c in TEMPERATURES_C}
    rows = [(
        signed(temperature_c, "°C"), f"**{quantity(distance_nm, 'NM', 0.01)}**", side(pfaf_nm - distance_nm),
        quantity(altimeter_at_pfaf_ft(approach, temperature_c), "ft"),
    ) for temperature_c, distance_nm in met_nm.items()]
    head = (f"{escape(approach.identity.airport)} {escape(approach.identity.title)}, level at "
            f"{quantity(charted_ft, 'ft')}, {escape(approach.pfaf.name)} {quantity(pfaf_nm, 'NM', 0.01)} out:")
    addition_ft = pfaf_addition_ft(approach, COLD_C)
    return Shown(f"{head}\n\n{table(['airport', 'glidepath met at', 'that is', 'reads at FAF'], rows)}", {
        "cold": signed(COLD_C, "°C"),
        "cold_met": Value.of(glidepath_met_nm(approach, charted_ft, COLD_C), "NM", 1),
        "addition": Value.of(addition_ft, "ft"),
        "corrected_met": Value.of(glidepath_met_nm(approach, charted_ft + addition_ft, COLD_C), "NM", 1),
    })

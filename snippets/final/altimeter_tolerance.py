"""How far the reading at the example's fix may differ with nothing wrong, and what a wrong setting does."""

import math

from lpv.air.atmosphere import hpa_from_inches, indicated_altitude_ft
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.facts import value
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv.path.temperature import indicated_on_path_ft
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

SET_INHG, NEAR_DOTS, AIR_C, PASSAGE_NM = 29.92, 0.25, 5.0, 0.05
elevation_ft, tch_ft, gpa_deg = arguments = glidepath(example())
distance_nm, airport_ft = pfaf_distance_nm(example()), example().chart.airport_elevation_ft


def reading_ft(temperature_c: float) -> float:
    return indicated_on_path_ft(distance_nm, *arguments, temperature_c, airport_ft)


def wrong_setting_ft(set_inhg: float) -> float:
    right, wrong = (indicated_altitude_ft(0.0, hpa_from_inches(inches)) for inches in (SET_INHG, set_inhg))
    return wrong - right


full_ft = lpv_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)
PARTS = [
    ("altimeter, as checked on the ground", value("altimeter_ground_check_ft")),
    ("a quarter of a dot off the glidepath", full_ft * NEAR_DOTS / value("two_dot_scale_dots")),
    (f"air {quantity(AIR_C, '°C')} colder than assumed", reading_ft(15.0 - AIR_C) - reading_ft(15.0)),
    (f"read {quantity(PASSAGE_NM, 'NM', 2)} early or late", PASSAGE_NM * FT_PER_NM * math.tan(math.radians(gpa_deg))),
    ("SBAS height, ninety-five times in a hundred", value("accuracy_lpv_vertical_m") / M_PER_FT),
    ("setting rounded to the hundredth of an inch", wrong_setting_ft(SET_INHG + 0.005)),
]
together_ft = math.sqrt(sum(part**2 for _, part in PARTS))
print("With nothing wrong, in feet either way:\n")
rows = [(name, number(part)) for name, part in PARTS]
print(table(["part", "ft"], [*rows, ("**together**, root of the squares", f"**{number(together_ft)}**")]))
values = {
    "together": quantity(together_ft, "ft"),
    "inch": quantity(wrong_setting_ft(SET_INHG + 1.0), "ft"),
    "tenth": quantity(wrong_setting_ft(SET_INHG + 0.1), "ft"),
    "ten_hpa": quantity(wrong_setting_ft(SET_INHG + 10.0 / value("hpa_per_inhg")), "ft"),
}

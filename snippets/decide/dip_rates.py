"""Height lost below the decision, by rate of descent and reaction time, beside the margins of design."""

from lpv.decide.missed import CATEGORIES, design_height_loss_ft, design_height_loss_radio_ft, height_loss_ft
from lpv_site.department.data import example_aircraft
from lpv_site.text.table import table
from lpv_site.text.text import number

jet = example_aircraft()
RATES_FPM, REACTIONS_S = (500, 600, 700, 800, 1000), (1, 2, 4)
acceleration_g = jet.go_around.acceleration_g
rows = [
    (number(rate), *(number(height_loss_ft(rate, reaction, acceleration_g)) for reaction in REACTIONS_S))
    for rate in RATES_FPM
]
print("Feet below the DA at the lowest, by seconds from the decision to the first change of path:\n")
print(table(["ft/min", *(f"{reaction} s" for reaction in REACTIONS_S)], rows))
print("What design allows below the DA, feet, altimeter errors included (ICAO, from memory):\n")
margins = [
    (category, number(design_height_loss_ft(category)), number(design_height_loss_radio_ft(category)))
    for category in CATEGORIES
]
print(table(["category", "pressure altimeter", "radio altimeter"], margins))

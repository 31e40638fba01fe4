"""Height lost below the decision, by rate of descent and reaction time, beside the margins of design."""

from lpv.core.text import number, quantity
from lpv.decide.missed import CATEGORIES, design_height_loss_ft, design_height_loss_radio_ft, height_loss_ft
from lpv.facts import fact
from lpv_site.department.data import example_aircraft
from lpv_site.text.shown import Shown
from lpv_site.text.table import table

RATES_FPM, REACTIONS_S = (500, 600, 700, 800, 1000), (1, 2, 4)


def show() -> Shown:
    """Two tables: what is lost, and what design allows."""
    acceleration_g = example_aircraft().go_around.acceleration_g
    lost = table(["ft/min", *(quantity(seconds, "s") for seconds in REACTIONS_S)], [
        (number(rate_fpm), *(number(height_loss_ft(rate_fpm, seconds, acceleration_g)) for seconds in REACTIONS_S))
        for rate_fpm in RATES_FPM
    ])
    margins = table(["category", "pressure altimeter", "radio altimeter"], [
        (letter, number(design_height_loss_ft(letter)), number(design_height_loss_radio_ft(letter)))
        for letter in CATEGORIES
    ])
    return Shown(
        f"Feet below the DA at the lowest, by seconds from the decision to the first change of path:\n\n{lost}\n"
        f"What design allows below the DA, feet, altimeter errors included (ICAO, "
        f"{fact('height_loss_baro_a_ft').status}):\n\n{margins}")

"""The obstacle surface under the missed approach, the least climb above it, and the margin: a live figure draws it."""

from lpv.core.text import quantity
from lpv.decide.missed import margin_over_surface_ft, surface_height_ft
from lpv.decide.surfaces import surface_rise_ft_per_nm
from lpv.facts import value
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import finding_and_table

DISTANCES_NM, MARKED_NM = range(7), 5


def show() -> Shown:
    """Surface and least climb by distance."""
    least = value("missed_gradient_ft_per_nm")
    margin = quantity(margin_over_surface_ft(MARKED_NM, 0.0, least, least), "ft")
    return Shown(finding_and_table(
        headers=["from its start", "surface", "least climb", "margin"],
        rows=[(quantity(nm, "NM"), quantity(surface_height_ft(nm, 0.0, least), "ft"), quantity(least * nm, "ft"),
               quantity(margin_over_surface_ft(nm, 0.0, least, least), "ft")) for nm in DISTANCES_NM[1:]],
        finding=f"At {quantity(MARKED_NM, 'NM')} a climb of {quantity(least, 'ft/NM')} is {margin} above the obstacle "
        "surface; the margin grows with the distance.",
    ), {"rise": Value.of(surface_rise_ft_per_nm(least), "ft/NM"), "margin": Value.of(
        margin_over_surface_ft(MARKED_NM, 0.0, least, least), "ft")})

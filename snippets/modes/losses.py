"""What to do about each loss, before and inside the FAF: the decision that drills and level changes use too."""

from lpv.decide.remedy import REMEDIES, SIGNS, remedy
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table

LOST = ("path lost", "course lost", "source", "level")


def show() -> Shown:
    rows = [(SIGNS[sign], *[f"**{REMEDIES[remedy(sign, inside)]}**" for inside in (False, True)]) for sign in LOST]
    return Shown(table(["what", "before the FAF", "inside the FAF"], rows, left=ALL_LEFT))

"""How many drills of each grade are done and right on this device."""

from lpv_site.pages.drill_choices import score_box
from lpv_site.pages.drill_page import drills

print(score_box(drills()))

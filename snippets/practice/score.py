"""How many drills of each grade are done and right on this device."""

from render.drill_choices import score_box
from render.drill_page import drills

print(score_box(drills()))

"""The example's fixes from above."""

from render.briefing_figures import plan
from render.data import example

print(plan(example()))

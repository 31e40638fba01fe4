"""The example's fixes from above."""

from lpv_site.briefing.figures import plan
from lpv_site.department.data import example

print(plan(example()))

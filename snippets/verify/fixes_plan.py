"""The example's fixes from above."""

from lpv_site.briefing.figures import plan
from lpv_site.department.data import example
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The plan that its briefing prints."""
    return Shown(plan(example()))

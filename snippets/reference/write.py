"""The form of an approach file."""

from lpv_site.forms.approach_form import build_approach_form
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The form."""
    return Shown(build_approach_form())

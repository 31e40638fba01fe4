"""The set-up check as a form."""

from lpv_site.forms.setup_form import build_setup_form
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The form."""
    return Shown(build_setup_form())

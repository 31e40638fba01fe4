"""The form that reads a recording on the reader's device."""

from lpv_site.forms.track_form import build_track_form
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The form, grey until its page's script has started."""
    return Shown(build_track_form())

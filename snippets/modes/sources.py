"""What each side shows, by what is selected and tuned, for up to three types."""

from lpv_site.department.data import aircraft
from lpv_site.pages.mode_tables import shown_table
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape


def show() -> Shown:
    return Shown(shown_table([(escape(jet.type.name), jet.rules) for jet in aircraft()[:3]]))

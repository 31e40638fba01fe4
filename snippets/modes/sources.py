"""What each side shows, by its selector and its receiver, for up to three types."""

from lpv.aircraft.record import read_all
from lpv_site.department.data import DOCS
from lpv_site.pages.mode_tables import shown_table
from lpv_site.text.text import escape

print(shown_table([(escape(jet.type.name), jet.rules) for jet in read_all(DOCS / "aircraft")[:3]]))

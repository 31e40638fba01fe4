"""What each side shows, by its selector and its receiver, for up to three types."""

from lpv.aircraft import read_all
from render.data import DOCS
from render.mode_tables import shown_table
from render.text import escape

print(shown_table([(escape(jet.type.name), jet.rules) for jet in read_all(DOCS / "aircraft")[:3]]))

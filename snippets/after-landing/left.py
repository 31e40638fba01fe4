"""What a go-around, a landing and the removal of power leave set, by type."""

from lpv.aircraft import read_all
from render.data import DOCS
from render.mode_tables import left_table
from render.text import escape

for jet in read_all(DOCS / "aircraft")[:3]:
    print(f"{escape(jet.type.name)}, an SBAS approach flown with a localizer tuned:\n")
    print(left_table(jet.rules))

"""What a go-around, a landing and the removal of power leave set, by type; where the selector outlives the power."""

from lpv.aircraft import read_all
from render.data import DOCS
from render.mode_tables import left_table, power_told
from render.text import escape

jets = read_all(DOCS / "aircraft")
for jet in jets[:3]:
    print(f"{escape(jet.type.name)}, an SBAS approach flown with a localizer tuned:\n")
    print(left_table(jet.rules))
print(power_told([(escape(jet.type.name), jet.rules) for jet in jets]))

"""What a go-around, a landing and the removal of power leave set, by type; where the selector outlives the power."""

from lpv.aircraft.record import read_all
from lpv_site.department.data import DOCS
from lpv_site.pages.mode_tables import left_table, power_told
from lpv_site.text.text import escape

jets = read_all(DOCS / "aircraft")
for jet in jets[:3]:
    print(f"{escape(jet.type.name)}, an SBAS approach flown with a localizer tuned:\n")
    print(left_table(jet.rules))
print(power_told([(escape(jet.type.name), jet.rules) for jet in jets]))

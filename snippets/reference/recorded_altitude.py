"""How uncertain a recorded altitude is at the example's minimum, by what it counts from."""

from lpv.track.held import against
from lpv.track.levels import levels_of
from lpv.track.points import scales_of
from lpv.track.records import GEOMETRIC, IN_WORDS, Conditions, Recording
from lpv_site.briefing.numbers import best_line, minimum_distance_nm
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

minimum_ft = best_line(example()).altitude_ft
given = Conditions(temperature_c=15.0, qnh_hpa=1013.25)
full_ft = scales_of(against(example()), given.joined).path_ft(minimum_distance_nm(example()))
rows, values = [], {"minimum": quantity(minimum_ft, "ft")}
for key, words in IN_WORDS.items():
    both = (key, "") if key in GEOMETRIC else ("", key)
    off_ft = levels_of(Recording("", *both, (), 6), against(example()), given).uncertainty_ft(minimum_ft)
    rows.append((words, number(off_ft), number(2.0 * off_ft / full_ft, 1)))
    values[key] = quantity(off_ft, "ft")
print(table(["altitude", "either way, ft", "dots"], rows))

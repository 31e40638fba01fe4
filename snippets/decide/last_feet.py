"""The last part of the example's path: altimeter, distance and time to the DA, with the calls of the aircraft."""

from lpv.core.units import FT_PER_NM
from lpv.decide.minima import altitude_to_use
from lpv.decide.visual import threshold_distance_ft
from lpv.facts import value
from lpv.motion.kinematics import flying_time_s
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity, signed

approach, jet = example(), example_aircraft()
chart, line = approach.chart, approach.chart.minima[0]
zone_ft = chart.touchdown_zone_ft
speed_kt = jet.target_speeds_kt(jet.landing.max_weight_lb)[-1]


def distance_nm(altitude_ft):
    height_ft = altitude_ft - chart.threshold_elevation_ft
    return threshold_distance_ft(height_ft, chart.tch_ft, chart.glidepath_deg) / FT_PER_NM


lowest_ft = jet.operator.lowest_da_above_tdze_ft
da_ft, _ = altitude_to_use(line.altitude_ft, zone_ft, operator_height_ft=lowest_ft)
decision_nm = distance_nm(da_ft)
lights_ft = zone_ft + value("als_only_lowest_above_tdze_ft")
crossing_ft = chart.threshold_elevation_ft + chart.tch_ft
calls = [(da_ft + call.above_ft, escape(call.words)) for call in jet.operator.call_outs
         if call.minimum == "DA"]
marks = [*calls, (lights_ft, "approach lights alone end here"), (crossing_ft, "threshold, on the path")]
rows = []
for altitude_ft, words in sorted(marks, reverse=True):
    later_s = flying_time_s(abs(decision_nm - distance_nm(altitude_ft)), speed_kt)
    seconds = signed(later_s if altitude_ft < da_ft else -later_s, "s")
    text = (number(altitude_ft), words, number(distance_nm(altitude_ft), 1), seconds)
    rows.append([f"**{cell}**" for cell in text] if altitude_ft == da_ft else text)
print(f"{escape(approach.identity.title)}, {escape(approach.identity.airport)}, {line.line}; "
      f"{escape(jet.type.name)} at {quantity(speed_kt, 'kt')} over the ground; "
      "NM to the threshold:\n")
print(table(["altimeter, ft", "call or limit", "NM", "from DA"], rows, left=2))

values = {
    "lights_only": quantity(lights_ft, "ft"),
    "to_threshold": quantity(decision_nm, "NM", 2),
    "wait": quantity(flying_time_s(decision_nm, speed_kt), "s"),
    "crossing": quantity(chart.tch_ft, "ft"),
}

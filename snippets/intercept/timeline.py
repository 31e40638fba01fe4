"""Speed against distance of the demo aircraft on the demo approach: on time, and two miles late with a tailwind."""

from lpv.air.atmosphere import isa_temperature_c, true_airspeed_kt
from lpv.core.text import feet, nautical_miles, number, quantity
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.facts import value
from lpv.motion.slowing import moment_at, slow_down
from lpv.path.profile import straight_path_distance_nm
from lpv_site.department.data import example, example_aircraft
from lpv_site.figures.figure import COLOURS, figure

LATE_NM, TAILWIND_KT = 2.0, 10.0
approach, aircraft = example(), example_aircraft()
pfaf_ft, pfaf_nm = approach.pfaf.altitude_ft, pfaf_distance_nm(approach)
gate_ft = approach.chart.airport_elevation_ft + value("gate_imc_ft")
gate_nm = straight_path_distance_nm(gate_ft, *glidepath(approach))
speeds_kt = aircraft.target_speeds_kt(aircraft.landing.max_weight_lb)
first_kt = aircraft.schedule[0].limit_kt or speeds_kt[0]
true_per_indicated = true_airspeed_kt(first_kt, pfaf_ft, isa_temperature_c(pfaf_ft)) / first_kt
steps = [(pfaf_nm + step.before_pfaf_nm, speed) for step, speed in zip(aircraft.schedule, speeds_kt, strict=True)]
steps = [step for step in steps if step[0] > 0.0]


def flown(late_nm, tailwind_kt):
    level, path = aircraft.flying.deceleration_kt_per_s, aircraft.flying.path_deceleration_kt_per_s
    later = [(begins_nm - late_nm, speed_kt) for begins_nm, speed_kt in steps]
    return slow_down([(steps[0][0], first_kt), *later], first_kt, pfaf_nm, level, path, true_per_indicated, tailwind_kt)


on_time, late = flown(0.0, 0.0), flown(LATE_NM, TAILWIND_KT)
at_gate_kt = [moment_at(moments, gate_nm).airspeed_kt for moments in (on_time, late)]
at_pfaf_kt = [moment_at(moments, pfaf_nm).airspeed_kt for moments in (on_time, late)]


def draw(axes):
    for moments, colour, line in ((late, "second", "--"), (on_time, "first", "-")):
        way = [(moment.distance_nm, moment.airspeed_kt) for moment in moments]
        axes.plot(*zip(*way, strict=True), line, color=COLOURS[colour])
    for step, (begins_nm, speed_kt) in zip(aircraft.schedule, steps, strict=False):
        first = begins_nm == steps[0][0]
        axes.text(begins_nm + 0.15, speed_kt - 5, step.label, va="center", ha="left" if first else "right")
        axes.plot(begins_nm, moment_at(on_time, begins_nm).airspeed_kt, "|", color=COLOURS["first"], markersize=11)
    for place_nm, name in ((pfaf_nm, "FAF"), (gate_nm, f"{feet(value('gate_imc_ft'))}")):
        axes.axvline(place_nm, ymax=0.92, color=COLOURS["muted"], linewidth=1.0)
        axes.text(place_nm, first_kt + 2, name, ha="center")
    axes.plot(gate_nm, at_gate_kt[0], "o", color=COLOURS["answer"])
    axes.text(gate_nm - 0.2, at_gate_kt[0] - 4, f"{quantity(at_gate_kt[0], 'kt')}", va="top", color=COLOURS["answer"])
    axes.text(gate_nm - 0.2, at_gate_kt[1] + 4, f"{number(at_gate_kt[1])}, late", color=COLOURS["second"])
    axes.set(xlabel="to the threshold, NM", ylabel="airspeed, kt")
    axes.set(xlim=(steps[0][0] + 0.4, 0), ylim=(speeds_kt[-1] - 20, first_kt + 12))


name, gate = aircraft.type.name, f"{feet(value('gate_imc_ft'))} above the airport"
finding = (
    f"{name}: by its schedule {quantity(at_gate_kt[0], 'kt')} at {gate}. Every step {nautical_miles(LATE_NM, 1)} "
    f"late with {quantity(TAILWIND_KT, 'kt')} of tailwind: {quantity(at_gate_kt[1], 'kt')} there, "
    f"{quantity(at_gate_kt[1] - speeds_kt[-1], 'kt')} over the target."
)
rows = [(place, *(quantity(kt, "kt") for kt in speeds)) for place, speeds in (("FAF", at_pfaf_kt), (gate, at_gate_kt))]
print(figure("timeline-figure", draw, finding=finding, headers=["where", "on time", "late"], rows=rows))

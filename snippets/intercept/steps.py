"""The demo aircraft's schedule on the demo approach, step by step, and the latest place for the last one."""

from lpv.air.atmosphere import isa_temperature_c, true_airspeed_kt
from lpv.core.text import number, quantity
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.facts import value
from lpv.motion.slowing import moment_at, reached_nm, slow_down, slowing_distance_nm
from lpv.path.profile import straight_path_distance_nm
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.table import table
from lpv_site.text.text import escape

approach, aircraft = example(), example_aircraft()
flying, pfaf_nm, pfaf_ft = aircraft.flying, pfaf_distance_nm(approach), approach.pfaf.altitude_ft
speeds_kt = aircraft.target_speeds_kt(aircraft.landing.max_weight_lb)
first_kt = aircraft.schedule[0].limit_kt or speeds_kt[0]
per_indicated = true_airspeed_kt(first_kt, pfaf_ft, isa_temperature_c(pfaf_ft)) / first_kt
begins_nm = [max(0.01, pfaf_nm + step.before_pfaf_nm) for step in aircraft.schedule]
way = slow_down(
    list(zip(begins_nm, speeds_kt, strict=True)), first_kt, pfaf_nm,
    flying.deceleration_kt_per_s, flying.path_deceleration_kt_per_s, per_indicated, 0.0,
)  # fmt: skip
gate_ft = approach.chart.airport_elevation_ft + value("gate_imc_ft")
gate_nm = straight_path_distance_nm(gate_ft, *glidepath(approach))


def latest(tailwind_kt):
    """Where the last step must begin to be set, and at its speed, at the gate; flown on the path all the way."""
    if flying.path_deceleration_kt_per_s < 0.01:
        return "the FAF"
    ground_kt = [speed * per_indicated + tailwind_kt for speed in speeds_kt[-2:]]
    slowing_nm = slowing_distance_nm(ground_kt[0], ground_kt[-1], flying.path_deceleration_kt_per_s * per_indicated)
    moving_nm = aircraft.schedule[-1].takes_s * ground_kt[0] / 3600.0
    return quantity(gate_nm + max(slowing_nm, moving_nm), "NM", 0.1)


rows = []
for step, begins, speed in zip(aircraft.schedule, begins_nm, speeds_kt, strict=True):
    reached = reached_nm(way, speed)
    by = "not reached" if reached is None else number(reached, 0.1)
    rows.append((f"**{escape(step.label)}**", number(begins, 0.1), quantity(speed, "kt"), by))
rows.append(("gate", number(gate_nm, 0.1), quantity(moment_at(way, gate_nm).airspeed_kt, "kt"), ""))
print(f"{escape(aircraft.type.name)} at its maximum landing weight, calm; distances to the threshold in NM:\n")
print(table(["step", "begins", "speed", "reached"], rows))
times_s = [moment_at(way, distance).time_s for distance in (pfaf_nm, gate_nm)]
values = {
    "last": escape(aircraft.schedule[-1].label),
    "latest": latest(0.0),
    "latest_tail": latest(flying.tailwind_limit_kt),
    "tailwind": quantity(flying.tailwind_limit_kt, "kt"),
    "to_pfaf": quantity(times_s[0] / 60.0, "min", 0.1),
    "pfaf_to_gate": quantity(times_s[1] - times_s[0], "s"),
    "ratio": f"{number(flying.deceleration_kt_per_s / max(0.01, flying.path_deceleration_kt_per_s), 0.1)}",
    "level": quantity(flying.deceleration_kt_per_s, "kt", 0.1),
    "path": quantity(flying.path_deceleration_kt_per_s, "kt", 0.1),
}

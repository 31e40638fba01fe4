"""What each side has set in the demo set-up, beside what the chart and the report say, in cockpit order."""

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.findings import worst
from lpv.setup import file as setup_file
from lpv_site.department.data import DOCS
from lpv_site.text.table import table
from lpv_site.text.text import course, escape, plain, quantity


def of(found: setup_file.SetupFile) -> tuple[approach.Approach, aircraft.Aircraft]:
    """The approach and the type that a set-up is for."""
    common = found.common
    return (approach.read(DOCS / "approaches" / f"{common.approach}.toml"),
            aircraft.read(DOCS / "aircraft" / f"{common.aircraft}.toml"))


setups = setup_file.read_all(DOCS / "set-up")
found = next((one for one in setups if worst(setup_file.findings(one, *of(one))) == "ok"), setups[0])
chart, flown = of(found)
wanted, sides = setup_file.wanted(chart, flown), (found.left, found.right)
line = wanted.line(wanted.best_level)
missed_ft = wanted.missed_altitude_ft

rows = [
    ("channel", wanted.channel, *[side.channel for side in sides]),
    ("identifier", escape(wanted.path_id), *[escape(side.path_id) for side in sides]),
    ("source", "SBAS", *[side.source for side in sides]),
    ("tuned, MHz", "no localizer", *["<br>".join(f"{mhz:.2f}" for mhz in side.tuned_mhz) for side in sides]),
    ("course", course(wanted.course_deg), *[course(side.course_deg) for side in sides]),
    (f"altimeter, {found.common.altimeter_unit}",
     *[plain(setting) for setting in (found.common.reported_altimeter, *[side.altimeter for side in sides])]),
    ("level", wanted.best_level, *[side.level for side in sides]),
    ("kind", line.kind if line else "", *[side.minimum_kind for side in sides]),
    ("minimum", quantity(line.altitude_ft, "ft") if line else "", *[quantity(s.minimum_ft, "ft") for s in sides]),
    ("missed to", quantity(missed_ft, "ft") if missed_ft is not None else "",
     *[quantity(side.missed_altitude_ft, "ft") for side in sides]),
]
print(
    f"{escape(found.common.name)}; {escape(chart.identity.airport)}, cycle {escape(found.common.cycle)}, "
    f"{escape(flown.type.name)}:\n"
)
print(table(["item", "must be", "left", "right"], rows))
values = {
    "checks": str(len(setup_file.findings(found, chart, flown))),
    "procedure": f"{escape(wanted.title)} at {escape(chart.identity.airport)}",
}

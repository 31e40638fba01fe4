"""What each side has set in the demo set-up, beside what the chart and the report say, in cockpit order."""

from lpv.core.text import course, number, quantity
from lpv.setup.expected import expected_for
from lpv.setup.file import findings
from lpv_site.department.data import good_setup
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each item: what must be, left, right."""
    setup_file, approach, aircraft = good_setup()
    setup, who = setup_file.setup, approach.identity
    expected = expected_for(setup, approach, aircraft)
    sides, unit = (setup_file.left, setup_file.right), setup_file.common.altimeter_unit
    line, missed = expected.minimum(expected.best_level, setup), expected.missed_altitude(setup)
    rows = [
        ("channel", str(who.channel), *[str(side.channel) for side in sides]),
        ("identifier", escape(who.path_id), *[escape(side.path_id) for side in sides]),
        ("source", "SBAS", *[side.source for side in sides]),
        ("tuned, MHz", "no localizer",
         *["<br>".join(quantity(mhz, "", 0.01) for mhz in side.tuned_mhz) for side in sides]),
        ("course", course(expected.course_deg), *[course(side.course_deg) for side in sides]),
        (f"altimeter, {unit}", setting(setup_file.common.reported_altimeter, unit),
         *[setting(side.altimeter, unit) for side in sides]),
        ("level", expected.best_level, *[side.level for side in sides]),
        ("kind", line.kind if line else "", *[side.minimum_kind for side in sides]),
        ("minimum", quantity(line.altitude_ft, "ft") if line else "", *[quantity(s.minimum_ft, "ft") for s in sides]),
        ("missed to", quantity(missed.altitude_ft, "ft") if missed else "",
         *[quantity(side.missed_altitude_ft, "ft") for side in sides]),
    ]
    head = (f"{escape(setup_file.common.name)}; {escape(who.airport)}, cycle {escape(setup_file.common.cycle)}, "
            f"{escape(aircraft.type.name)}:")
    checks = len(findings(setup_file, approach, aircraft))
    return Shown(f"{head}\n\n{table(['item', 'must be', 'left', 'right'], rows)}", {
        "checks": Value(float(checks), "", str(checks)),
        "procedure": f"{escape(who.title)} at {escape(who.airport)}",
    })


def setting(altimeter: float, unit: str) -> str:
    """An altimeter setting as it is set, without its unit: the columns are narrow on a phone."""
    return number(altimeter, 0.01 if unit == "inHg" else 1)

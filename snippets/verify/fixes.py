"""The legs of the example: as printed, and as the positions of the fixes give them."""

from lpv.core.course import magnetic_deg
from lpv.core.text import course, nautical_miles, number
from lpv.geodesy import earth
from lpv_site.department.data import example
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each leg whose course and length are printed."""
    approach, rows, before = example(), [], ""
    chart = approach.chart
    places = {fix.name: (fix.latitude_deg, fix.longitude_deg) for fix in chart.fixes}
    for fix in chart.fixes:
        start, before = fix.leg_from or before, fix.name
        if not start or fix.leg_distance_nm is None or fix.leg_course_deg is None:
            continue
        leg = earth.inverse(*places[start], *places[fix.name])
        computed = course(magnetic_deg(leg.course_deg, chart.variation_deg), 0.1)
        rows.append((
            f"{escape(start)} to **{escape(fix.name)}**<br>{escape(fix.role)}",
            f"{course(fix.leg_course_deg)}<br>{nautical_miles(fix.leg_distance_nm)}",
            f"{computed}<br>{nautical_miles(leg.distance_nm, 0.01)}",
            "" if fix.altitude_ft is None else f"{number(fix.altitude_ft)}<br>{escape(fix.altitude_rule)}",
        ))
    head = f"{escape(approach.identity.title)}, {escape(approach.identity.airport)}; altitudes in feet:"
    return Shown(f"{head}\n\n{table(['leg', 'printed', 'computed', 'altitude'], rows)}")

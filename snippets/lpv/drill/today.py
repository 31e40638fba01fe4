"""What a crew briefs in a drill although nothing is wrong: the findings of the checks, for this day and this type.

The cross-check knows neither the weather nor the aircraft, so it speaks of a standard day and of lights that nothing
hides.  A drill has both: what the altimeter reads on the glidepath today, and what is in sight over this nose.
"""

from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.core.text import feet, quantity
from lpv.decide.final_path import altimeter_ft, fix_distance_nm, has_glidepath
from lpv.decide.last_mile import View
from lpv.decide.visibility import printed_visibility_ft
from lpv.drill.case import Case, all_findings

OF_ANY_DAY = ("path-altitude", "decision-visibility")


def brief(case: Case) -> list[Finding]:
    """The findings to brief: all but those that agree, with those of any day said again for this one."""
    rows = [row for row in all_findings(case) if row.grade != "ok"]
    at_fixes = [row.about for row in rows if row.key == "path-altitude" and row.grade == "note"]
    return [row for row in rows if row.key not in OF_ANY_DAY or row.grade != "note"] + [
        *[altimeter_on_path(case, name) for name in at_fixes if has_glidepath(case.approach)], *in_sight(case),
    ]


def altimeter_on_path(case: Case, fix: str) -> Finding:
    """What the altimeter reads on the glidepath at a fix in the temperature of the drill."""
    temperature_c = case.setup.temperature_c
    assert temperature_c is not None  # every drill states it
    reads_ft = altimeter_ft(case.approach, fix_distance_nm(case.approach, fix), temperature_c)
    return Finding(
        "path-altitude", "note", "altitude on the path", about=fix,
        computed=f"{feet(reads_ft)} on the altimeter at {quantity(temperature_c, 'deg C')}",
        why="The SBAS glidepath is fixed in space; the altimeter reading on it changes with the air.",
        action=f"Expect the altimeter to read {feet(reads_ft)} here on the glidepath today.",
    )


def in_sight(case: Case) -> list[Finding]:
    """What is in sight at the minimum to set, with the printed visibility, over the nose of the type."""
    needed = case.expected.minimum(str(case.setup.left.level), case.setup)
    visible_ft = printed_visibility_ft(needed.row) if needed else None
    if needed is None or visible_ft is None or needed.kind != "DA" or not has_glidepath(case.approach):
        return []
    above_ft = needed.height_ft + case.approach.chart.touchdown_zone_ft - case.approach.chart.threshold_elevation_ft
    try:
        view = View(case.approach, case.aircraft, above_ft)
    except DomainError:
        return []
    sight = view.sight(visible_ft)
    if sight.threshold:
        words = "the threshold is in sight"
    elif sight.length_ft:
        words = f"{feet(sight.length_ft)} of the lights are in sight, and not the threshold"
    else:
        words = "neither lights nor threshold are in sight"
    return [Finding(
        "decision-visibility", "note", "what you can see at the decision altitude", about=needed.line,
        chart=f"visibility {feet(visible_ft)}", computed=f"{words}; the nose hides {feet(view.hidden_ft)} ahead",
        why="In the lowest visibility printed, this is all you see at the DA.",
        action="Brief what you expect to see first.",
    )]

"""The two drawings of a briefing: the profile and the plan, from an approach's own figures."""

import math
from collections.abc import Mapping, Sequence

from lpv.approach.record import Approach
from lpv.approach.schema import Fix
from lpv.core.spoken import spoken
from lpv.core.text import feet, nautical_miles, number
from lpv.crosscheck.fixes import foot
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.path.profile import (
    FARTHEST_BEHIND_NM,
    FARTHEST_NM,
    barometric_path_height_ft,
    straight_path_height_ft,
)
from lpv_site.figures.figure import figure_html
from lpv_site.figures.plot import FONT, Frame, Words, labelled, line, mark, sheet

FINAL_ROLES = ("PFAF", "step-down")
FARTHEST_PLAN_NM = 40.0
STEPS = 30  # parts in which a path is drawn
SHAPES = {"PFAF": "diamond", "MAP": "square"}
Point = tuple[float, float]


def along_across_nm(approach: Approach) -> dict[str, tuple[float, float]]:
    """Each fix's distance before the threshold along the final course, and to its right (NM)."""
    return {fix.name: foot(approach, fix) for fix in approach.chart.fixes}


def profile(approach: Approach) -> str:
    """Profile: the SBAS glidepath, the barometric path beside it, the charted altitudes at the fixes."""
    arguments = glidepath(approach)
    farthest_nm = max(2, math.ceil(pfaf_distance_nm(approach) + 1.0))
    fixes = [fix for fix in approach.chart.fixes if fix.role in FINAL_ROLES and fix.altitude_ft is not None]
    places = along_across_nm(approach)
    rows = [
        (
            fix.name,
            nautical_miles(places[fix.name][0]),
            f"{feet(fix.altitude_ft or 0.0)} {fix.altitude_rule}",
            _on_path(places[fix.name][0], arguments),
        )
        for fix in fixes
    ]

    at_pfaf_nm = min(max(places[approach.pfaf.name][0], FARTHEST_BEHIND_NM), FARTHEST_NM)
    expected_ft = straight_path_height_ft(at_pfaf_nm, *arguments)
    marks = [(fix.name, (places[fix.name][0], fix.altitude_ft)) for fix in fixes  # the others stand in the table
             if fix.altitude_ft is not None and 0.0 <= places[fix.name][0] <= farthest_nm]
    return figure_html(
        "profile-figure",
        _profile(arguments, farthest_nm, marks, (at_pfaf_nm, expected_ft)),
        finding=f"At {approach.pfaf.name}, {nautical_miles(at_pfaf_nm)} out, the SBAS glidepath is at "
        f"{feet(expected_ft)}{_charted(approach.pfaf)}. Dashed: the barometric path. "
        "Standard day.",
        headers=["fix", "to threshold", "charted", "SBAS glidepath"],
        rows=rows,
    )


def _on_path(distance_nm: float, arguments: tuple[float, float, float]) -> str:
    """The altitude of the glidepath there, in words; of a fix coded at the end of the world, that there is none."""
    if not FARTHEST_BEHIND_NM <= distance_nm <= FARTHEST_NM:
        return "no glidepath there"
    return feet(straight_path_height_ft(distance_nm, *arguments))


def _profile(
    arguments: tuple[float, float, float], farthest_nm: float, fixes: Sequence[tuple[str, Point]], answer: Point,
) -> str:
    """The drawing of it; fixes: name, and NM before the threshold with altitude; answer: the same on the path."""
    distances = [farthest_nm * step / STEPS for step in range(STEPS + 1)]
    sbas = [(nm, straight_path_height_ft(nm, *arguments)) for nm in distances]
    baro = [(nm, barometric_path_height_ft(nm, *arguments)) for nm in distances]
    heights = [ft for _, ft in (*sbas, *baro, answer, *(at for _, at in fixes))]
    frame = Frame("profile-figure", (farthest_nm, 0.0), (
        arguments[0] - 0.16 * (sbas[-1][1] - arguments[0]), max(heights) + 0.05 * (max(heights) - min(heights))))
    middle_nm = farthest_nm * 0.45
    on_path = middle_nm, straight_path_height_ft(middle_nm, *arguments)
    return sheet(frame, ("distance to the threshold, NM", "altitude, ft"), [
        line(frame, sbas, "first"), line(frame, baro, "second", 1.1, dashed=True),
        *(mark(frame, at, "bar", "ink") for _, at in fixes), mark(frame, answer, "circle", "answer"),
    ], labelled(frame, [
        Words(answer, feet(answer[1]), "answer", ("ne", "n"), FONT, bold=True),
        *(Words(at, f"{name}\n{number(at[1])}", "ink", ("sw", "s", "se")) for name, at in fixes),
        Words(on_path, "SBAS glidepath", "first", ("ne", "n"), FONT),
    ], [at for _, at in fixes], [sbas, baro]))


def _charted(fix: Fix) -> str:
    return "" if fix.altitude_ft is None else f", charted {fix.altitude_rule} {feet(fix.altitude_ft)}"


def legs(approach: Approach) -> list[tuple[str, str]]:
    """(from, to) of every leg before the threshold, by name."""
    pairs, before = [], ""
    for fix in approach.chart.fixes:
        begins = fix.role == "IAF" and fix.leg_course_deg is None
        start = fix.leg_from or ("" if begins else before)
        before = fix.name
        if start and fix.role not in ("missed", "missed hold"):
            pairs.append((start, fix.name))
    return pairs


def plan(approach: Approach) -> str:
    """Plan: the fixes seen from above, turned so that the final course runs up the page."""
    places = along_across_nm(approach)
    shown = [fix for fix in approach.chart.fixes if abs(places[fix.name][0]) < FARTHEST_PLAN_NM]
    first = shown[0]
    along, across = places[first.name]
    side = f"{nautical_miles(abs(across))} to the {'right' if across > 0 else 'left'}"
    side = "on the course" if abs(across) < 0.05 else side
    return figure_html(
        "plan-figure",
        _plan(legs(approach), shown, places),
        finding=f"{first.name} lies {nautical_miles(along)} before the threshold, {side}; the FAF "
        f"{approach.pfaf.name} {nautical_miles(pfaf_distance_nm(approach))}. The final course runs up the page.",
        headers=["fix", "for", "before threshold", "right of course"],
        rows=[
            (fix.name, spoken(fix.role), *(f"{nautical_miles(place)}" for place in places[fix.name][:2]))
            for fix in shown
        ],
    )


def _plan(pairs: Sequence[tuple[str, str]], shown: Sequence[Fix], places: Mapping[str, Point]) -> str:
    """The drawing of it; places: NM before the threshold, and right of the course, by name."""
    at = {name: (across, -along) for name, (along, across) in places.items()}
    spread = max([4.0, *(abs(at[fix.name][0]) * 1.6 for fix in shown)])
    ups = [at[name][1] for name in {*(fix.name for fix in shown), *(name for pair in pairs for name in pair)}]
    room = 0.08 * (max(ups) - min(ups)) or 1.0
    frame = Frame("plan-figure", (-spread, spread), (min(ups) - room, max(ups) + room), height_in=3.4)
    return sheet(frame, ("left or right of the course, NM", "along the course, NM"), [
        *(line(frame, (at[start], at[end]), "first") for start, end in pairs),
        *(mark(frame, at[fix.name], SHAPES.get(fix.role, "circle"), _role(fix)) for fix in shown),
    ], labelled(frame, [_named(fix, at[fix.name]) for fix in shown], [at[fix.name] for fix in shown],
                [(at[start], at[end]) for start, end in pairs]))


def _role(fix: Fix) -> str:
    return "answer" if fix.role == "MAP" else "ink"


def _named(fix: Fix, at: Point) -> Words:
    """What a fix is, beside its mark on the course and below it elsewhere."""
    words = "threshold" if fix.role == "MAP" else f"{fix.name} {spoken(fix.role)}"
    return Words(at, words, _role(fix), ("e", "w") if abs(at[0]) < 1.0 else ("s", "n"))

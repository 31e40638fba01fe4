"""The legs of a recorded procedure before the FAF: how far off each of them, and how low on it.

A leg is judged where both its fixes were passed, one after the other, as a straight line between them, away from its
ends, where turns cut the corner.  An arc is judged in height alone.  A recording tells nothing of airspeed, so nothing
of speed limits.
"""

from lpv.core.text import feet, nautical_miles
from lpv.core.units import FT_PER_NM
from lpv.facts import value
from lpv.track.flown import FlownApproach, Moment
from lpv.track.moments import passed_fix
from lpv.track.noise import ANYWHERE
from lpv.track.points import Point
from lpv.track.target import Fix
from lpv.track.verdicts import WITHIN, Comparison

LOWER_BOUND = ("at", "at or above")


def legs(flown: FlownApproach) -> "list[Moment]":
    """Each leg before the FAF that was flown, unless on vectors."""
    moments = []  # type: list[Moment]
    for fix in flown.target.fixes:
        begin = flown.target.fix(fix.leg_from)
        if flown.target.on_vectors or begin is None or fix.role not in ("IF", "PFAF"):
            continue
        first, last = passed_fix(flown, begin), passed_fix(flown, fix)
        if first is None or last is None or first.time_s >= last.time_s:
            continue
        every = list(flown.earlier) + list(flown.coming_in)
        rows = [point for point in every if first.time_s <= point.time_s <= last.time_s]
        moments += _leg(flown, begin, fix, rows, every)
    return moments


def _leg(flown: FlownApproach, begin: Fix, end: Fix, rows: "list[Point]", every: "list[Point]") -> "list[Moment]":
    compared = []  # type: list[Comparison]
    gap = "a gap on the leg" if len({point.part for point in rows}) > 1 else ""
    words, at = "", rows[0]
    aside = [] if end.arc else _aside(begin, end, rows)
    if aside:
        off_nm, at = max(aside, key=lambda row: abs(row[0]))
        most_nm = flown.limit_dots / 2.0 * value("terminal_full_scale_nm")
        unsure_nm = flown.position_uncertainty_ft() / FT_PER_NM
        compared.append(_with_gap(Comparison("off the leg", "NM", off_nm, unsure_nm, -most_nm, most_nm), gap))
        side = "right" if off_nm > 0.0 else "left"
        words = f" largest offset here, {nautical_miles(abs(off_nm))} {side}"
    known = [point for point in rows if point.indicated_ft is not None]
    if known and end.altitude_ft is not None and end.altitude_rule in LOWER_BOUND:
        low = min(known, key=lambda point: point.indicated_ft or 0.0)
        unsure_ft = (flown.levels.reading_uncertainty_ft(low.true_ft or 0.0) ** 2 + _between_ft(low, every) ** 2
                     + (ANYWHERE * low.altimeter_noise_ft) ** 2) ** 0.5 + flown.doubt_ft
        least_ft = end.altitude_ft - value("recording_altitude_ft")
        compared.append(_with_gap(
            Comparison("lowest on the leg", "ft", low.indicated_ft, unsure_ft, least_ft, None, flown.reason), gap))
        words += f"{';' if words else ''} lowest {feet(low.indicated_ft or 0.0)}, {end.altitude_rule} " + (
            f"{feet(end.altitude_ft)} at its end")
    return [Moment("leg", at, f"Leg {begin.name} to {end.name}:{words}.", tuple(compared))] if compared else []


def _with_gap(comparison: Comparison, gap: str) -> Comparison:
    """A comparison that is not within where part of what it is about was not recorded."""
    return comparison if comparison.verdict != WITHIN or not gap else Comparison(
        comparison.item, comparison.unit, comparison.value, comparison.uncertainty, comparison.low, comparison.high,
        gap)


def _between_ft(low: Point, every: "list[Point]") -> float:
    """How much lower than its lowest sample it may have been between two, or before the fix: half of a step."""
    place = [number for number, point in enumerate(every) if point is low][0]  # noqa: RUF015
    near = [point.indicated_ft for point in every[max(0, place - 1):place + 2] if point.indicated_ft is not None]
    return max([abs(height_ft - (low.indicated_ft or 0.0)) for height_ft in near]) / 2.0


def _aside(begin: Fix, end: Fix, rows: "list[Point]") -> "list[tuple[float, Point]]":
    """(NM right of the leg, where), away from both ends by what a turn may take."""
    ahead, right = begin.along_nm - end.along_nm, end.across_nm - begin.across_nm
    length_nm = (ahead * ahead + right * right) ** 0.5
    corner_nm = value("recording_corner_nm")
    offsets = []
    for point in rows:
        along, across = begin.along_nm - point.along_nm, point.across_ft / FT_PER_NM - begin.across_nm
        flown_nm = (along * ahead + across * right) / length_nm if length_nm else 0.0
        if corner_nm <= flown_nm <= length_nm - corner_nm:
            offsets.append(((across * ahead - along * right) / length_nm, point))
    return offsets


FINDERS = (legs,)

"""Mistakes in level, minimum, missed approach altitude, day and arming."""

from collections.abc import Callable
from dataclasses import replace

from lpv.core import airac
from lpv.core.consequence import grade_of
from lpv.core.units import degrees_360
from lpv.decide.minimum import Minimum, MissedAltitude
from lpv.drill.base import announced_levels
from lpv.drill.case import Case, Pick, with_setup
from lpv.drill.planted import Mistake, Planted, both_sides, needs, on_sides, one_side
from lpv.drill.side_mistakes import NOTE, RESOLVE, STOP, Sides
from lpv.setup.records import NAMES

FAR_NM = (6.0, 8.0, 11.0)
# After the change of cycle, whether that is by ICAO's hour or by that of the United States.
AFTER_CHANGE = ("1120 UTC", "1500 UTC", "2145 UTC")


def _minimum(case: Case) -> Minimum:
    """The minimum to set for the level announced in the base."""
    needed = case.expected.minimum(str(case.setup.left.level), case.setup)
    needs(needed is not None, "no line of minima for the level annunciated")
    assert needed is not None
    return needed


def _missed(case: Case) -> MissedAltitude:
    """The altitude to set for the missed approach; every base has one."""
    needed = case.expected.missed_altitude(case.setup)
    assert needed is not None
    return needed


def wrong_kind(sides: Sides) -> Callable[[Case, Pick], Planted]:
    """The minimum is set as the other kind."""
    def plant(case: Case, pick: Pick) -> Planted:
        kind = _minimum(case).kind
        wrong, grade = ("MDA", RESOLVE) if kind == "DA" else ("DA", STOP)
        return on_sides(case, sides(pick), f"the minimum is set as {wrong}; the chart says {kind}.",
                        [("set-minimum-kind", grade)], ["kind of minimum"], minimum_kind=wrong)
    return plant


def hundred_low(case: Case, pick: Pick) -> Planted:
    """The minimum is a hundred feet too low on one side."""
    low_ft = _minimum(case).altitude_ft - 100.0
    others = [case.expected.minimum(line, case.setup) for line in case.expected.lines()]
    known = [other.altitude_ft for other in others if other is not None]
    needs(all(abs(low_ft - other_ft) >= 1.0 for other_ft in known), "it would be another line's")
    return on_sides(case, one_side(pick), "the minimum is a hundred feet too low.", [("set-minimum-low", STOP)],
                    ["minimum"], minimum_ft=low_ft)


def under_floor(case: Case, pick: Pick) -> Planted:
    """Both sides have the chart's DA, but the operator's lowest is higher."""
    needed = _minimum(case)
    charted_ft = needed.row.altitude_ft
    needs(needed.kind == "DA" and needed.altitude_ft > charted_ft, "the chart's DA is high enough")
    needs(not needed.cold_ft and not needed.open_ft, "it is cold")
    grade = grade_of("minimum", needed.altitude_ft - charted_ft)
    return on_sides(case, NAMES, "the DA is the chart's, below the operator's lowest.", [("set-minimum-floor", grade)],
                    minimum_ft=charted_ft)


def cold_minimum(sides: Sides) -> Callable[[Case, Pick], Planted]:
    """The minimum is not corrected for cold."""
    def plant(case: Case, pick: Pick) -> Planted:
        needed = _minimum(case)
        needs(needed.cold_ft > 0.0, "nothing is corrected for cold")
        grade = grade_of("minimum", needed.altitude_ft - needed.row.altitude_ft)
        return on_sides(case, sides(pick), "the minimum is not corrected for cold.", [("set-minimum-cold", grade)],
                        ["minimum"], minimum_ft=needed.row.altitude_ft)
    return plant


def cold_missed(case: Case, pick: Pick) -> Planted:
    """The missed approach altitude is not corrected for cold on either side."""
    needed = _missed(case)
    needs(needed.cold_ft > 0.0, "nothing is corrected for cold")
    return on_sides(case, NAMES, "the missed approach altitude is not corrected for cold.",
                    [("set-missed-cold", grade_of("altitude", needed.cold_ft))], missed_altitude_ft=needed.charted_ft)


def missed_at_minimum(case: Case, pick: Pick) -> Planted:
    """The minimum stands where the missed approach altitude belongs, on one side."""
    return on_sides(case, one_side(pick), "the minimum is set where the missed approach altitude belongs.",
                    [("set-missed-below-minimum", STOP)], ["missed approach altitude"],
                    missed_altitude_ft=case.setup.left.minimum_ft)


def missed_at_pfaf(case: Case, pick: Pick) -> Planted:
    """Both sides still have the altitude of the PFAF set, not that of the missed approach."""
    altitude_ft, needed = case.approach.pfaf.altitude_ft, _missed(case)
    needs(altitude_ft is not None and altitude_ft != needed.charted_ft, "the two altitudes are the same")
    assert altitude_ft is not None
    grade = grade_of("altitude", altitude_ft - needed.altitude_ft)
    return on_sides(case, NAMES, "the altitude of the FAF is still set, not that of the missed approach.",
                    [("set-missed", grade)], missed_altitude_ft=altitude_ft)


def level_lower(case: Case, pick: Pick) -> Planted:
    """The lowest level that the type announces here stands on both sides, with the minimum of the better one set."""
    needed, level = _minimum(case), announced_levels(case.expected)[-1]
    lower = case.expected.minimum(level, case.setup)
    needs(needed.line != level and lower is not None, "the type annunciates no lower level, or it has no minimum")
    assert lower is not None
    off_ft = lower.altitude_ft - needed.altitude_ft
    needs(grade_of("minimum", off_ft) != "ok", "both lines have the same minimum")
    graded = [("set-level", NOTE), ("set-minimum-level", grade_of("minimum", off_ft))]
    if needed.kind != lower.kind:
        graded.append(("set-minimum-kind", STOP))
    return on_sides(case, NAMES, f"{level} is annunciated, and the minimum is still the one for {needed.line}.", graded,
                    level=level)


def day_of_change(case: Case, pick: Pick) -> Planted:
    """The flight is on the day on which the next data cycle takes over."""
    made = with_setup(case, day=airac.expiry_ordinal(str(case.setup.cycle)))
    made = replace(made, hour=pick.choose("hour", AFTER_CHANGE))
    return Planted(made, "The data cycle ended: the next one takes over on this very day.",
                   frozenset({("set-cycle", STOP), ("cycle-in-force", STOP)}))


def armed_away(case: Case, pick: Pick) -> Planted:
    """The approach is armed close to the course, flying away from it."""
    across_nm = case.setup.across_nm or 0.0
    away_deg = case.expected.course_deg + (30.0 if across_nm > 0.0 else -30.0)
    return _armed(with_setup(case, track_deg=degrees_360(away_deg)),
                  "The approach is armed while flying away from the course.")


def armed_far(case: Case, pick: Pick) -> Planted:
    """The approach is armed farther out than the operator has it, heading toward the course, where the type lets it."""
    within_nm = case.expected.arm_within_nm
    needs(within_nm is not None, "neither type nor operator arms within a distance of the course")
    assert within_nm is not None
    capture, rules = case.aircraft.capture, case.aircraft.rules
    refused = rules.arming_too_early == "refused" and capture.arms_within_of == "final course"
    most_nm = capture.arms_within_nm if refused and capture.arms_within_nm is not None else FAR_NM[-1]
    far_nm = [nm for nm in FAR_NM if within_nm < nm <= most_nm]
    needs(bool(far_nm), "the type does not arm so far out")
    side = 1.0 if (case.setup.across_nm or 0.0) > 0.0 else -1.0
    return _armed(with_setup(case, across_nm=side * pick.choose("far", far_nm)),
                  "The approach is armed far from the course.")


def _armed(case: Case, words: str) -> Planted:
    return Planted(case, words, frozenset({("set-armed", RESOLVE)}))


MISTAKES = {
    "wrong-kind": Mistake(
        "a DA set as an MDA or an MDA as a DA, on one side", False, wrong_kind(one_side)),
    "wrong-kind-both": Mistake(
        "a DA set as an MDA or an MDA as a DA, on both sides", True, wrong_kind(both_sides)),
    "minimum-hundred-low": Mistake(
        "a minimum a hundred feet too low, on one side", False, hundred_low),
    "minimum-under-floor": Mistake(
        "the chart's DA, below the operator's lowest, on both sides", True, under_floor),
    "minimum-cold-one": Mistake(
        "a minimum not corrected for cold, on one side", False, cold_minimum(one_side)),
    "minimum-cold": Mistake(
        "a minimum not corrected for cold, on both sides", True, cold_minimum(both_sides)),
    "missed-cold": Mistake(
        "a missed approach altitude not corrected for cold, on both sides", True, cold_missed),
    "missed-at-minimum": Mistake(
        "the minimum where the missed approach altitude belongs, on one side", False, missed_at_minimum),
    "missed-at-pfaf": Mistake(
        "the altitude of the FAF still set, on both sides", True, missed_at_pfaf),
    "level-lower": Mistake(
        "a lower level annunciated with the minimum of the better one", False, level_lower),
    "day-of-change": Mistake(
        "a flight on the day on which the next data cycle takes over", True, day_of_change),
    "armed-away": Mistake(
        "armed while flying away from the course", False, armed_away),
    "armed-far": Mistake(
        "armed far from the course", True, armed_far),
}

"""Mistakes in level, minimum, missed approach altitude, day and arming."""

from collections.abc import Callable

from lpv.core import airac
from lpv.core.units import degrees_360
from lpv.drill.case import Case, Pick, with_setup
from lpv.drill.planted import Mistake, Planted, both_sides, needs, on_sides, one_side
from lpv.drill.side_mistakes import NOTE, RESOLVE, STOP, Sides
from lpv.setup.minimum import cold_minimum_addition_ft, is_cold, needed_missed_ft
from lpv.setup.records import NAMES, Line

FAR_NM = (6.0, 8.0, 11.0)


def _line(case: Case) -> Line:
    """The line of minima of the level announced in the base."""
    line = case.wanted.line(case.setup.left.level)
    needs(line is not None, "no line of minima for the level announced")
    assert line is not None
    return line


def wrong_kind(sides: Sides) -> Callable[[Case, Pick], Planted]:
    """The minimum is set as the other kind."""
    def plant(case: Case, pick: Pick) -> Planted:
        kind = _line(case).kind
        wrong, grade = ("MDA", RESOLVE) if kind == "DA" else ("DA", STOP)
        return on_sides(case, sides(pick), f"the minimum is set as {wrong}; the chart says {kind}.",
                        [("set-minimum-kind", grade)], ["kind of minimum"], minimum_kind=wrong)
    return plant


def hundred_low(case: Case, pick: Pick) -> Planted:
    """The minimum is a hundred feet too low on one side."""
    low_ft = case.setup.left.minimum_ft - 100.0
    needs(all(low_ft != line.altitude_ft for line in case.wanted.lines), "it would be another line's")
    return on_sides(case, one_side(pick), "the minimum is a hundred feet too low.", [("set-minimum-low", STOP)],
                    ["minimum"], minimum_ft=low_ft)


def under_floor(case: Case, pick: Pick) -> Planted:
    """Both sides have the chart's DA, but the operator's lowest is higher."""
    line, floor_ft = _line(case), case.wanted.lowest_da_ft
    needs(line.kind == "DA" and floor_ft is not None and floor_ft > line.altitude_ft, "the chart's DA is high enough")
    needs(not is_cold(case.setup, case.wanted), "it is cold")
    return on_sides(case, NAMES, "the DA is the chart's, below the operator's lowest.", [("set-minimum-floor", STOP)],
                    minimum_ft=line.altitude_ft)


def cold_minimum(sides: Sides) -> Callable[[Case, Pick], Planted]:
    """The minimum is not corrected for cold."""
    def plant(case: Case, pick: Pick) -> Planted:
        line = _line(case)
        needs(cold_minimum_addition_ft(line, case.setup, case.wanted) > 0.0, "nothing is corrected for cold")
        return on_sides(case, sides(pick), "the minimum is not corrected for cold.", [("set-minimum-cold", STOP)],
                        ["minimum"], minimum_ft=line.altitude_ft)
    return plant


def cold_missed(case: Case, pick: Pick) -> Planted:
    """The altitude of the missed approach is not corrected for cold on either side."""
    charted_ft = case.wanted.missed_altitude_ft
    needs(charted_ft != needed_missed_ft(case.setup, case.wanted), "nothing is corrected for cold")
    return on_sides(case, NAMES, "the missed approach altitude is not corrected for cold.",
                    [("set-missed-cold", RESOLVE)], missed_altitude_ft=charted_ft)


def missed_at_minimum(case: Case, pick: Pick) -> Planted:
    """The minimum stands where the altitude of the missed approach belongs, on one side."""
    return on_sides(case, one_side(pick), "the minimum is set where the missed approach altitude belongs.",
                    [("set-missed-below-minimum", STOP)], ["missed approach altitude"],
                    missed_altitude_ft=case.setup.left.minimum_ft)


def missed_at_pfaf(case: Case, pick: Pick) -> Planted:
    """Both sides still have the altitude of the PFAF set, not that of the missed approach."""
    altitude_ft, charted_ft = case.approach.pfaf.altitude_ft, case.wanted.missed_altitude_ft
    needs(altitude_ft is not None and altitude_ft != charted_ft, "the two altitudes are the same")
    return on_sides(case, NAMES, "the altitude of the PFAF is still set, not that of the missed approach.",
                    [("set-missed", RESOLVE)], missed_altitude_ft=altitude_ft)


def level_lower(case: Case, pick: Pick) -> Planted:
    """LNAV is announced on both sides, with the minimum of the better level still set."""
    line, lnav = _line(case), case.wanted.line("LNAV")
    needs(line.name != "LNAV" and lnav is not None, "LNAV is announced already, or has no minimum")
    graded = [("set-level", NOTE), ("set-minimum-level", STOP)]
    if line.kind == "DA":
        graded.append(("set-minimum-kind", STOP))
    return on_sides(case, NAMES, f"LNAV is announced, and the minimum is still that of {line.name}.", graded,
                    level="LNAV")


def day_of_change(case: Case, pick: Pick) -> Planted:
    """The flight is on the day on which the next data cycle takes over."""
    made = with_setup(case, day=airac.expiry_ordinal(case.setup.cycle))
    return Planted(made, "The data cycle ended: the next one takes over on this very day.",
                   frozenset({("set-cycle", STOP), ("cycle-in-force", STOP)}))


def armed_away(case: Case, pick: Pick) -> Planted:
    """The approach is armed close to the course, flying away from it."""
    across_nm = case.setup.across_nm or 0.0
    away_deg = case.wanted.course_deg + (30.0 if across_nm > 0.0 else -30.0)
    return _armed(with_setup(case, track_deg=degrees_360(away_deg)),
                  "The approach is armed while flying away from the course.")


def armed_far(case: Case, pick: Pick) -> Planted:
    """The approach is armed far outside, heading toward the course."""
    side = 1.0 if (case.setup.across_nm or 0.0) > 0.0 else -1.0
    return _armed(with_setup(case, across_nm=side * pick.one("far", FAR_NM)),
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
        "the altitude of the PFAF still set, on both sides", True, missed_at_pfaf),
    "level-lower": Mistake(
        "LNAV announced with the minimum of the better level", False, level_lower),
    "day-of-change": Mistake(
        "a flight on the day on which the next data cycle takes over", True, day_of_change),
    "armed-away": Mistake(
        "armed while flying away from the course", False, armed_away),
    "armed-far": Mistake(
        "armed far from the course", True, armed_far),
}

"""The base of a drill: an approach set up as it should be, with a day, weather and place picked by the seed."""

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.course import reciprocal_deg
from lpv.core.errors import DomainError
from lpv.core.text import rounded
from lpv.core.units import degrees_360
from lpv.decide.lines import LEVELS
from lpv.drill.case import Case, Pick, but
from lpv.modes.state import level_at_activation
from lpv.setup.expected import Expected
from lpv.setup.records import NAMES, Setup, Side

# What is picked from.  All of it is made up; the frequencies are VOR channels.
VOR_MHZ = (112.3, 113.4, 114.7, 115.9, 116.2, 117.5)
REPORTED = {"inHg": (29.48, 29.64, 29.87, 30.02, 30.19, 30.33), "hPa": (996.0, 1004.0, 1011.0, 1019.0, 1027.0)}
MILD_C = (4.0, 8.0, 11.0, 15.0, 19.0)
NEAR_NM = (1.0, 1.5, 2.0, 2.5)
INTERCEPT_DEG = 30.0
# The approach before led somewhere else: its course against this one's.
TURNED_DEG = (70.0, 110.0, 160.0, 230.0, 290.0)


def base_case(
    approach: Approach, aircraft: Aircraft, pick: Pick, temperature_c: float | None = None,
    level: str | None = None, other: Approach | None = None,
) -> Case:
    """The approach with both sides set as they should be.

    temperature_c: reported, deg C; a mild one if None
    level:         announced level of service; the one that the type announces on this approach if None
    DomainError if the type cannot announce that level here, if the chart has no line of minima for it and the
    type's category, if it prints no
    missed approach altitude, or if a correction for cold lies outside its table.
    """
    expected = Expected(approach, aircraft)
    can = announced_levels(expected)
    if not can or (level or can[0]) not in can:
        raise DomainError(f"level: found {level or 'none'}; allowed: {', '.join(can) or 'none'}.")
    announced = level or can[0]
    if approach.chart.missed is None:
        raise DomainError("approach: the chart prints no missed approach altitude; a drill needs one.")
    common = _common(expected, announced, pick, temperature_c)
    return Case(approach, aircraft, _corrected(common, expected), other)


def announced_levels(expected: Expected) -> "list[str]":
    """The levels of service that the type can announce on the approach, the one with everything received first.

    Each is what `lpv.modes.state.level_at_activation` gives for some signal; LP where the type is approved for it.
    A level for which the chart prints no line for the type's category is left out.
    """
    aircraft = expected.aircraft
    assert aircraft is not None
    equipment, best = aircraft.equipment, expected.best_level
    levels = ["LP"] if best == "LP" and equipment.lp == "approved" else []
    for signal in LEVELS if best == "LPV" else ("LNAV",):
        if signal in ("LPV", "LNAV/VNAV", "LNAV"):
            levels.append(level_at_activation(signal, equipment.best_level, equipment.baro_vnav))
    if "LNAV/VNAV" in levels and not expected.has_line("LNAV/VNAV"):
        levels = [*[level for level in levels if level != "LNAV/VNAV"], "LNAV"]
    return [level for level in dict.fromkeys(levels) if expected.has_line(level)]


def _common(expected: Expected, level: str, pick: Pick, temperature_c: float | None) -> Setup:
    identity, course_deg = expected.approach.identity, expected.course_deg
    near_nm = [nm for nm in NEAR_NM if expected.arm_within_nm is None or nm <= expected.arm_within_nm]
    unit = "inHg" if identity.rule == "FAA" else "hPa"
    reported = pick.choose("reported", REPORTED[unit])
    across_nm = pick.choose("across", near_nm) * pick.choose("side of the course", (-1.0, 1.0))
    toward_deg = course_deg - (INTERCEPT_DEG if across_nm > 0.0 else -INTERCEPT_DEG)
    left, right = (_side(name, expected, level, pick, reported) for name in NAMES)
    return Setup(
        pick.choose("flying", NAMES), left, right,
        airac.effective_ordinal(identity.cycle) + pick.choose("day", range(1, 26)),
        identity.cycle, unit, reported, pick.choose("temperature", MILD_C) if temperature_c is None else temperature_c,
        armed=True, across_nm=across_nm, track_deg=degrees_360(toward_deg),
        previous_course_deg=degrees_360(reciprocal_deg(course_deg) + pick.choose("before", TURNED_DEG)),
    )


def _side(name: str, expected: Expected, level: str, pick: Pick, altimeter: float) -> Side:
    """A side without its altitudes, which `_corrected` sets."""
    identity = expected.approach.identity
    return Side(
        name, identity.title, identity.channel, identity.path_id, "SBAS", [pick.choose(f"VOR {name}", VOR_MHZ)],
        expected.course_deg, altimeter, level,
    )


def _corrected(setup: Setup, expected: Expected) -> Setup:
    """The set-up with the altitudes to set: the operator's lowest, and corrected for cold, in whole feet."""
    needed, missed = expected.minimum(str(setup.left.level), setup), expected.missed_altitude(setup)
    assert needed is not None
    assert missed is not None  # `base_case` has looked
    return but(setup, **{
        side.name: but(side, minimum_kind=needed.kind, minimum_ft=rounded(needed.altitude_ft),
                       missed_altitude_ft=rounded(missed.altitude_ft))
        for side in setup.sides()
    })

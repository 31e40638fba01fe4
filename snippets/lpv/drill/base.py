"""The base of a drill: an approach set up as it should be, with a day, weather and place picked by the seed."""

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.course import reciprocal_deg
from lpv.core.errors import DomainError
from lpv.core.units import degrees_360
from lpv.drill.case import Case, Pick, but
from lpv.setup.file import wanted
from lpv.setup.minimum import needed_minimum_ft, needed_missed_ft
from lpv.setup.records import NAMES, Setup, Side, Wanted

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
    level:         announced level of service; the approach's best one if None
    DomainError if the chart has no line of minima for that level and the type's category, if it prints no
    altitude of the missed approach, or if a correction for cold lies outside its table.
    """
    asked = wanted(approach, aircraft)
    announced = level or asked.best_level
    if asked.line(announced) is None:
        raise DomainError(f"level: found {announced}; allowed: {', '.join(line.name for line in asked.lines)}.")
    if asked.missed_altitude_ft is None:
        raise DomainError("approach: the chart prints no altitude of the missed approach; a drill needs one.")
    common = _common(approach, asked, announced, pick, temperature_c)
    return Case(approach, aircraft, _corrected(common, asked), other)


def _common(approach: Approach, asked: Wanted, level: str, pick: Pick, temperature_c: float | None) -> Setup:
    unit = "inHg" if approach.identity.rule == "FAA" else "hPa"
    reported = pick.one("reported", REPORTED[unit])
    across_nm = pick.one("across", NEAR_NM) * pick.one("side of the course", (-1.0, 1.0))
    toward_deg = asked.course_deg - (INTERCEPT_DEG if across_nm > 0.0 else -INTERCEPT_DEG)
    left, right = (_side(name, asked, level, pick, reported) for name in NAMES)
    return Setup(
        pick.one("flying", NAMES), left, right, airac.effective_ordinal(asked.cycle) + pick.one("day", range(1, 26)),
        asked.cycle, unit, reported, pick.one("temperature", MILD_C) if temperature_c is None else temperature_c,
        armed=True, across_nm=across_nm, track_deg=degrees_360(toward_deg),
        previous_course_deg=degrees_360(reciprocal_deg(asked.course_deg) + pick.one("before", TURNED_DEG)),
    )


def _side(name: str, asked: Wanted, level: str, pick: Pick, altimeter: float) -> Side:
    """A side with the charted altitudes; `_corrected` makes them those to set."""
    line = next(line for line in asked.lines if line.name == level)
    return Side(
        name, asked.title, asked.channel, asked.path_id, "SBAS", [pick.one(f"VOR {name}", VOR_MHZ)], asked.course_deg,
        altimeter, level, line.kind, line.altitude_ft, asked.missed_altitude_ft or 0.0,
    )


def _corrected(setup: Setup, asked: Wanted) -> Setup:
    """The set-up with the altitudes to set: the operator's lowest, and corrected for cold."""
    line = asked.line(setup.left.level)
    minimum_ft = round(needed_minimum_ft(line, setup, asked)) if line else 0
    missed_ft = round(needed_missed_ft(setup, asked))
    return but(setup, **{
        side.name: but(side, minimum_ft=float(minimum_ft), missed_altitude_ft=float(missed_ft))
        for side in setup.sides()
    })

"""Is an alternate needed, and may this airport be it: the rule of the United States, and EASA's apart.

United States: 14 CFR 91.169 for an aeroplane, as the Instrument Procedures Handbook states it, and
what the Aeronautical Information Manual lets an SBAS user plan on.  The EASA part is from memory and
says so in every answer.  Operators' own specifications ask for more: theirs come first.
"""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, timedelta

from lpv.core.errors import DomainError, above, in_range
from lpv.core.units import M_PER_SM
from lpv.facts import value
from lpv.plan.forecast import Forecast, Weather, in_words, meets, worst

PRECISION_LINES = ("ILS", "GLS", "PAR")
GROUND_LINES = ("LOC", "VOR", "NDB")
SBAS_LINES = ("LPV", "LP", "LNAV/VNAV", "LNAV", "circling")
FAA, EASA = "FAA", "EASA"
REMEMBERED = "from memory: read the rule in force"


@dataclass(frozen=True)
class Ruling:
    """An answer: yes or no, why, whose rule, its paragraph, its source key and status."""

    answer: bool
    reason: str
    rule: str
    paragraph: str
    source: str
    status: str


@dataclass(frozen=True)
class PlannedLine:
    """A line of minima that the alternate may be planned on, and the weather that it takes."""

    line: str
    ceiling_ft: float
    visibility_sm: float
    reason: str


@dataclass(frozen=True)
class NotPlanned:
    """A line of minima that the alternate may not be planned on, and why."""

    line: str
    reason: str


def alternate_needed(forecast: Forecast, eta: datetime, has_instrument_approach: bool = True) -> Ruling:
    """Whether a flight plan needs an alternate (14 CFR 91.169(a) and (b), aeroplanes).

    Needed unless the destination has an instrument approach and, from one hour before to one hour
    after the ETA, the forecast ceiling is at least 2000 ft and the visibility at least 3 SM; the
    edges are those of `lpv.plan.forecast.worst`. DataError for a forecast with a gap or too short.
    """
    hours = value("no_alternate_window_h")
    weather = worst(forecast, eta - timedelta(hours=hours), eta + timedelta(hours=hours))
    ceiling_ft, visibility_sm = value("no_alternate_ceiling_ft"), value("no_alternate_visibility_sm")
    found = f"{in_words(weather)} within {hours:.0f} h of the ETA; asked {ceiling_ft:.0f} ft and {visibility_sm:g} SM"
    if not has_instrument_approach:
        return _faa(True, "the destination has no instrument approach", "14 CFR 91.169(b)")
    needed = not meets(weather, ceiling_ft, visibility_sm)
    return _faa(needed, found, "14 CFR 91.169(b)")


def _faa(answer: bool, reason: str, paragraph: str) -> Ruling:
    return Ruling(answer, reason, FAA, paragraph, "iph", "published")


def plannable_lines(
    lines: Collection[str], baro_vnav_approved: bool
) -> tuple[tuple[PlannedLine, ...], tuple[NotPlanned, ...]]:
    """Which minima lines at an alternate an SBAS user may plan on, the lowest weather first, and which not.

    On LNAV or circling, with the weather of a nonprecision approach; on LNAV/VNAV if barometric
    vertical navigation is approved and used; never on LPV or LP, though either may be flown on arrival
    if shown available (Aeronautical Information Manual 1-1-18.c.9(a)). Approaches with ground aids by
    their kind: 600-2 precision, 800-2 nonprecision. DomainError for an unknown line.
    """
    planned, refused = [], []
    for line in sorted(set(lines)):
        reason = _refusal(line, baro_vnav_approved)
        if reason:
            refused.append(NotPlanned(line, reason))
        else:
            planned.append(_planned(line))
    return tuple(sorted(planned, key=lambda row: row.ceiling_ft)), tuple(refused)


def _refusal(line: str, baro_vnav_approved: bool) -> str:
    if line not in PRECISION_LINES + GROUND_LINES + SBAS_LINES:
        raise DomainError(f"line: found {line}; allowed: {', '.join(PRECISION_LINES + GROUND_LINES + SBAS_LINES)}.")
    if line in ("LPV", "LP"):
        return f"{line} may be flown there if shown available, but not planned on"
    if line == "LNAV/VNAV" and not baro_vnav_approved:
        return "LNAV/VNAV may be planned on only with approved barometric vertical navigation"
    return ""


def _planned(line: str) -> PlannedLine:
    kind = "precision" if line in PRECISION_LINES else "nonprecision"
    return PlannedLine(
        line,
        value(f"alternate_{kind}_ceiling_ft"),
        value(f"alternate_{kind}_visibility_sm"),
        f"{kind} approach for planning",
    )


def alternate_allowed(
    forecast: Forecast,
    eta: datetime,
    planned: PlannedLine,
    printed_ceiling_ft: float | None = None,
    printed_visibility_sm: float | None = None,
) -> Ruling:
    """Whether an airport may be listed as alternate, by its forecast at the ETA there.

    Alternate minima printed for the approach take the place of the standard ones; give both or
    neither. DataError for a forecast that does not cover the time.
    """
    if (printed_ceiling_ft is None) != (printed_visibility_sm is None):
        raise DomainError("printed alternate minima: found one of ceiling and visibility; allowed: both or neither.")
    weather = worst(forecast, eta, eta)
    ceiling_ft, visibility_sm, whose = planned.ceiling_ft, planned.visibility_sm, "standard"
    if printed_ceiling_ft is not None and printed_visibility_sm is not None:
        ceiling_ft, visibility_sm, whose = printed_ceiling_ft, printed_visibility_sm, "printed"
    reason = (
        f"{in_words(weather)} at the ETA; {whose} alternate minima for {planned.line}: "
        f"{ceiling_ft:.0f} ft and {visibility_sm:g} SM"
    )
    allowed = meets(weather, above("ceiling", ceiling_ft, 0.0, "ft"), above("visibility", visibility_sm, 0.0, "SM"))
    return _faa(allowed, reason, "14 CFR 91.169(c)")


def easa_alternate_needed(
    forecast: Forecast,
    eta: datetime,
    circling_height_ft: float | None,
    separate_runways: int,
    flight_h: float,
) -> Ruling:
    """Whether EASA's rules for commercial transport ask for a destination alternate; from memory.

    Not needed for a flight of at most 6 h to two separate usable runways, if from one hour before to
    one hour after the ETA the ceiling is at least 2000 ft, or the circling height plus 500 ft if that
    is more, and the visibility at least 5 km. circling_height_ft is None where circling has no minima.
    """
    weather = worst(forecast, *_easa_window(eta))
    ceiling_ft = _easa_ceiling_ft(circling_height_ft)
    in_range("runways", separate_runways, 0, 20)
    in_range("flight time", flight_h, 0.0, 30.0, "h")
    refusals = list(_easa_refusals(weather, ceiling_ft, separate_runways, flight_h))
    reason = "; ".join(refusals) or f"{in_words(weather)}, {separate_runways} runways, {flight_h:g} h"
    paragraph = f"CAT.OP.MPA.182 ({REMEMBERED})"
    return Ruling(bool(refusals), reason, EASA, paragraph, "easa-air-ops", "from memory")


def _easa_window(eta: datetime) -> tuple[datetime, datetime]:
    hours = timedelta(hours=value("easa_no_alternate_window_h"))
    return eta - hours, eta + hours


def _easa_ceiling_ft(circling_height_ft: float | None) -> float:
    lowest_ft = value("easa_no_alternate_ceiling_ft")
    if circling_height_ft is None:
        return lowest_ft
    in_range("circling height", circling_height_ft, 0.0, 10000.0, "ft")
    return max(lowest_ft, circling_height_ft + value("easa_circling_margin_ft"))


def _easa_refusals(weather: Weather, ceiling_ft: float, runways: int, flight_h: float) -> list[str]:
    visibility_m = value("easa_no_alternate_visibility_m")
    checks = (
        (weather.ceiling_ft is not None and weather.ceiling_ft < ceiling_ft, f"ceiling under {ceiling_ft:.0f} ft"),
        (weather.visibility_sm * M_PER_SM < visibility_m, f"visibility under {visibility_m:.0f} m"),
        (runways < value("easa_no_alternate_runways"), "fewer than two separate runways"),
        (flight_h > value("easa_no_alternate_flight_h"), "a flight of more than 6 h"),
    )
    return [words for holds, words in checks if holds]

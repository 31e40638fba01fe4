"""Why LPV comes and goes: protection levels over a day, and the level of service that they allow.

This explains the service; it does not predict it.  Left out: degradation between messages (see
`lpv.sbas.error_model`), the real grid, geostationary ranging (one geostationary satellite is taken to be
received but gives no range), signal travel time, failures.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from lpv.core.errors import DomainError, above, in_range
from lpv.facts import value
from lpv.fas.block import FinalApproachSegment
from lpv.sbas.constellation import Orbit
from lpv.sbas.error_model import ErrorModel, sigma_m
from lpv.sbas.integrity import protection_levels
from lpv.sbas.level import Limits, supports
from lpv.sbas.masks import Masks
from lpv.sbas.sky import Site, visible

DAY_S = 86400.0
STEP_S = 300.0


@dataclass(frozen=True)
class Epoch:
    """One moment: satellites in use, and protection levels in metres, None where there is no position."""

    gps_s: float
    satellites: int
    hpl_pa_m: float | None
    hpl_npa_m: float | None
    vpl_m: float | None


def limits_of(segment: FinalApproachSegment) -> Limits:
    """The alert limits that a segment carries."""
    return Limits(segment.hal_m, segment.val_m)


def site_of(segment: FinalApproachSegment) -> Site:
    """The place where a segment meets the threshold (its LTP)."""
    return Site(segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.ltp_height_m)


def epoch(orbits: Sequence[Orbit], site: Site, gps_s: float, masks: Masks, model: ErrorModel) -> Epoch:
    """Protection levels at one moment, from every healthy satellite that no mask hides.

    Satellites under 5 deg are never used, whatever the mask (the error model does not reach there).
    """
    satellites = [s for s in visible(orbits, site, gps_s, masks) if s.elevation_deg >= value("mask_elevation_deg")]
    azimuths, elevations = [s.azimuth_deg for s in satellites], [s.elevation_deg for s in satellites]
    try:
        levels = protection_levels(azimuths, elevations, [sigma_m(e, model) for e in elevations])
    except DomainError:
        return Epoch(gps_s, len(satellites), None, None, None)
    return Epoch(gps_s, len(satellites), levels.hpl_pa_m, levels.hpl_npa_m, levels.vpl_m)


def times(start_gps_s: float, length_s: float = DAY_S, step_s: float = STEP_S) -> tuple[float, ...]:
    """The moments of a span, its end left out: 288 in a day at 5-minute steps; 1 to 100 000 of them."""
    above("length", length_s, 0.0, "s")
    above("step", step_s, 0.0, "s")
    count = int(in_range("moments", length_s / step_s, 1.0, 1e5))
    return tuple(start_gps_s + number * step_s for number in range(count))


def span(
    orbits: Sequence[Orbit], site: Site, moments: Sequence[float], masks: Masks, model: ErrorModel
) -> tuple[Epoch, ...]:
    """Every moment one by one; `lpv.sbas.integrity_fast.span` gives the same and takes a fraction of the time."""
    return tuple(epoch(orbits, site, gps_s, masks, model) for gps_s in moments)


def outages(epochs: Sequence[Epoch], limits: Limits, level: str) -> tuple[tuple[float, float], ...]:
    """First and last moment (GPS seconds) of every run of moments at which a level is not supported."""
    return tuple(_runs(epochs, lambda moment: not supports(moment, limits, level)))


def gap_lengths_s(
    epochs: Sequence[Epoch], limits: Limits, level: str, step_s: float = STEP_S
) -> tuple[float, ...]:
    """How long each of those runs lasts, s: every moment stands for the step that begins with it."""
    above("step", step_s, 0.0, "s")
    return tuple(last - first + step_s for first, last in outages(epochs, limits, level))


def highest_m(
    epochs: Sequence[Epoch], name: Literal["vpl_m", "hpl_pa_m"], first_h: float, last_h: float
) -> float | None:
    """The highest protection level from one hour of a day to another, that one left out; None without a position.

    Hours count from the first moment.  DomainError where no moment lies between them.
    """
    start_s = epochs[0].gps_s if epochs else 0.0
    levels_m = [getattr(moment, name) for moment in epochs if first_h <= (moment.gps_s - start_s) / 3600.0 < last_h]
    if not levels_m:
        raise DomainError(f"hours: found no moment from {first_h} to {last_h}; allowed: hours of the series.")
    return None if None in levels_m else max(levels_m)


def costliest(before: Sequence[Epoch], after: Sequence[Epoch]) -> int:
    """Number of the moment at which the VPL grows most from one sky to another; a lost position costs most of all.

    DomainError for skies of different moments, or none.
    """
    if not before or [moment.gps_s for moment in before] != [moment.gps_s for moment in after]:
        raise DomainError("moments: found two different series; allowed: the same moments, one or more.")
    costs = [_vpl_or_far_m(b) - _vpl_or_far_m(a) for a, b in zip(before, after, strict=True)]
    return costs.index(max(costs))


def _vpl_or_far_m(moment: Epoch) -> float:
    return 1e6 if moment.vpl_m is None else moment.vpl_m


def _runs(epochs: Sequence[Epoch], holds: Callable[[Epoch], bool]) -> Iterator[tuple[float, float]]:
    first = last = None
    for moment in epochs:
        if holds(moment):
            first, last = (moment.gps_s if first is None else first), moment.gps_s
        elif first is not None and last is not None:
            yield first, last
            first = None
    if first is not None and last is not None:
        yield first, last

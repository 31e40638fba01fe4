"""A weather forecast as data, and the worst of it at a time or over a span.

Gaps are faults: nothing is assumed about a time that the forecast does not cover.  Temporary and
probable groups count as if they came; they never fill a gap.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from lpv.core.errors import DataError, Fault
from lpv.core.text import miles, quantity, with_unit
from lpv.core.units import M_PER_SM

PREVAILING = "prevailing"
TEMPORARY = "temporary"
KINDS = (PREVAILING, TEMPORARY)


@dataclass(frozen=True)
class Period:
    """Weather from `start` up to, but not at, `end`; times carry their time zone.

    ceiling_ft:    above the ground, None where there is no ceiling
    visibility_sm: statute miles
    kind:          "prevailing", or "temporary" for temporary and probable groups
    """

    start: datetime
    end: datetime
    ceiling_ft: float | None
    visibility_sm: float
    kind: str = PREVAILING


@dataclass(frozen=True)
class Forecast:
    """The forecast of one place."""

    place: str
    periods: tuple[Period, ...]


@dataclass(frozen=True)
class Weather:
    """The lowest ceiling (None: no ceiling) and the lowest visibility of a time or a span."""

    ceiling_ft: float | None
    visibility_sm: float


def faults_of(forecast: Forecast) -> list[Fault]:
    """Everything wrong in a forecast: no periods, impossible values, times without zone, gaps."""
    name = f"forecast {forecast.place}"
    if not forecast.periods:
        return [Fault(name, "", "no periods", "one or more", "Add the forecast.")]
    faults = [fault for number, p in enumerate(forecast.periods, 1) for fault in _period_faults(name, number, p)]
    return faults or list(_gaps(forecast))


def _period_faults(name: str, number: int, period: Period) -> Iterator[Fault]:
    key = f"period {number}"
    if period.start.tzinfo is None or period.end.tzinfo is None:
        yield Fault(name, key, "a time without a time zone", "UTC, ending in Z", "Add the Z.")
    elif not period.start < period.end:
        period_words = f"{_clock(period.start)} to {_clock(period.end)}"
        yield Fault(name, key, period_words, "an end after the start", "Correct the times.")
    if period.kind not in KINDS:
        yield Fault(name, key, f"kind {period.kind}", ", ".join(KINDS), "Correct the kind.")
    if period.ceiling_ft is not None and not 0.0 <= period.ceiling_ft <= 60000.0:
        yield Fault(name, key, f"ceiling {period.ceiling_ft} ft", "0 to 60000 ft, or none", "Correct it.")
    if not 0.0 <= period.visibility_sm <= 100.0:
        yield Fault(name, key, f"visibility {period.visibility_sm} SM", "0 to 100 SM", "Correct it.")


def _prevailing(forecast: Forecast) -> list[Period]:
    return sorted((p for p in forecast.periods if p.kind == PREVAILING), key=lambda p: p.start)


def _gaps(forecast: Forecast) -> Iterator[Fault]:
    reached: datetime | None = None
    for period in _prevailing(forecast):
        if reached is not None and period.start > reached:
            gap_words = f"nothing from {_clock(reached)} to {_clock(period.start)}"
            yield Fault(f"forecast {forecast.place}", "", gap_words, "periods without a gap", "Add the missing period.")
        reached = period.end if reached is None else max(reached, period.end)


def worst(forecast: Forecast, start: datetime, end: datetime) -> Weather:
    """The lowest ceiling and visibility from `start` to `end`, both moments included.

    A period that begins just at `end` counts, one that ends just at `start` does not; a forecast that
    ends just at `end` covers it. DataError for a faulty forecast or a span that it does not cover.
    """
    faults = faults_of(forecast) or _uncovered(forecast, start, end)
    if faults:
        raise DataError(faults)
    inside = [p for p in forecast.periods if p.start <= end and p.end > start]
    ceiling_ft = min(math.inf if p.ceiling_ft is None else p.ceiling_ft for p in inside)
    visibility_sm = min(p.visibility_sm for p in inside)
    return Weather(None if ceiling_ft == math.inf else ceiling_ft, visibility_sm)


def _uncovered(forecast: Forecast, start: datetime, end: datetime) -> list[Fault]:
    name, periods = f"forecast {forecast.place}", _prevailing(forecast)
    span = f"{_clock(start)} to {_clock(end)}"
    if not periods:
        return [Fault(name, "", "no prevailing period", span, "Add the prevailing forecast.")]
    first, last = periods[0].start, max(p.end for p in periods)
    if first <= start and end <= last and start < last:
        return []
    return [Fault(name, "", f"{_clock(first)} to {_clock(last)}", f"all of {span}", "Get a forecast for that time.")]


def _clock(moment: datetime) -> str:
    return moment.strftime("%Y-%m-%d %H:%MZ")


def meets(weather: Weather, ceiling_ft: float, visibility_sm: float) -> bool:
    """Whether ceiling and visibility are both at least as given; no ceiling is above every ceiling."""
    return (weather.ceiling_ft is None or weather.ceiling_ft >= ceiling_ft) and (
        weather.visibility_sm >= visibility_sm
    )


def in_words(weather: Weather, authority: str = "FAA") -> str:
    """The weather in words: "ceiling 1999 ft, visibility 3 SM"; the visibility in the unit of the rules."""
    ceiling = "no ceiling" if weather.ceiling_ft is None else f"ceiling {quantity(weather.ceiling_ft, 'ft')}"
    return f"{ceiling}, visibility {visibility_words(weather.visibility_sm, authority)}"


def visibility_words(visibility_sm: float, authority: str) -> str:
    """A visibility in the unit of the rules: statute miles for the FAA, metres elsewhere."""
    return with_unit(miles(visibility_sm), "SM") if authority == "FAA" else quantity(visibility_sm * M_PER_SM, "m")


def lines_of(forecast: Forecast, authority: str = "FAA") -> Sequence[str]:
    """The forecast in words, one line a period."""
    return [
        f"{_clock(p.start)} to {_clock(p.end)}, {p.kind}: {in_words(Weather(p.ceiling_ft, p.visibility_sm), authority)}"
        for p in forecast.periods
    ]

"""What a planning scenario holds: one flight to one approach, its weather and its notices.

    [flight]                # approach and aircraft by the names of their files, ETA, temperature
    approach = "zzak-rnav-09"
    aircraft = "light-jet"
    operator = "demo-charter"  # whose rules; left out: 14 CFR 91 for a chart of the FAA, nothing for any other
    eta = 2026-12-01T14:00:00Z
    temperature_c = -4      # coldest within an hour of the ETA
    [[forecast]]            # the destination, without a gap
    start = 2026-12-01T12:00:00Z
    end = 2026-12-01T18:00:00Z
    ceiling_ft = 800        # left out where there is no ceiling
    visibility_sm = 2       # or visibility_m
    [[notice]]              # text = "..."
    [alternate]             # airport, eta, lines;  [[alternate.forecast]]
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

from lpv.approach.schema import FaultRow
from lpv.core.airac import FIRST_YEAR, LAST_YEAR
from lpv.core.errors import DomainError, shown
from lpv.core.units import M_PER_SM
from lpv.decide.cold import SEGMENTS
from lpv.files import schema
from lpv.files.toml_value import MARKUP
from lpv.plan.forecast import KINDS, PREVAILING, Forecast, Period, faults_of
from lpv.plan.rules import KNOWN_LINES, WITHOUT_GNSS, LineMinimum

FILE_NAME = "[a-z0-9]+(-[a-z0-9]+)*"
TIME = "2026-12-01T14:00:00Z"
TIMES = r"\d{4}-\d\d-\d\d[Tt ]\d\d:\d\d(:\d\d(\.\d+)?)?([Zz]|[+-]\d\d:\d\d)"
RUNWAY = "(0[1-9]|[12][0-9]|3[0-6])[LCR]?"
NOTICE = '"!FDC FDC NAV WAAS NOT AVBL"'
LONGEST_NOTICE = 4000
TAKES = ("LPV", "LP", "LNAV/VNAV", "LNAV", "circling", "nothing")
YES_NO = ("yes", "no")
NOT_AUTHORIZED_WHEN = ("night", "no local altimeter setting")


def utc(entry: object) -> datetime:
    """A date and time with its zone, in UTC, written without quotes; DomainError for anything else."""
    if not isinstance(entry, datetime) or entry.tzinfo is None:
        raise DomainError(f"time: found {shown(entry)}; allowed: UTC without quotes, for example {TIME}.")
    try:
        return entry.astimezone(UTC)
    except OverflowError:
        fault = f"found {entry.isoformat()}; allowed: a time before the end of the year 9999 in UTC."
        raise DomainError(fault) from None


def notice_text(entry: object) -> str:
    """The text of a notice on one line; DomainError for what is no text, too long, or holds signs of markup."""
    line = " ".join(entry.split()) if isinstance(entry, str) else ""
    if not line or not line.isprintable() or len(line) > LONGEST_NOTICE or any(sign in MARKUP for sign in line):
        raise DomainError(
            f"notice: found {shown(entry)}; allowed: up to {LONGEST_NOTICE} letters, figures, signs; none of {MARKUP}.")
    return line


@dataclass(frozen=True, kw_only=True)
class Flight:
    """Who flies what, when, and what the day is like."""

    approach: str = schema.text("approach: name of its file without .toml", pattern=FILE_NAME, example="zzak-rnav-09")
    aircraft: str = schema.text("aircraft: name of its file without .toml", pattern=FILE_NAME, example="light-jet")
    operator: str | None = schema.text(
        "operator: name of its file in the folder operators, without .toml", pattern=FILE_NAME, example="demo-charter",
        required=False)
    eta: datetime = schema.parsed("ETA at the destination", utc, example=TIME, pattern=TIMES)
    temperature_c: float = schema.number("coldest forecast within an hour of the ETA", "deg C", -50, 60)
    speed_kt: float | None = schema.number("speed to be flown, if above VREF", "kt", 60, 250, required=False)
    remote_addition_ft: float | None = schema.number(
        "addition that the chart prints for a remote altimeter setting, if in use", "ft", 0, 2000, required=False)
    visibility_addition_sm: float | None = schema.number(
        "addition to the visibility that a note asks today", "SM", 0, 5, required=False)
    baro_vnav_barred: bool = schema.flag("whether a note takes baro-VNAV away today")
    zone_not_clear: bool = schema.flag("whether the precision obstacle free zone may not be clear")
    no_notices: bool = schema.flag("whether somebody has looked, and there are no notices for this flight")
    no_site_notices: bool = schema.flag("whether the chart is marked: no SBAS notices for this site")
    cold_segments: tuple[str, ...] = schema.choices(
        "segments that the list of cold temperature airports marks; without it all segments are corrected", SEGMENTS)
    flight_h: float | None = schema.number("time of the flight", "h", 0, 30, required=False)
    separate_runways: int | None = schema.whole(
        "separate usable runways at the destination", "", 0, 20, required=False)
    other_approaches: tuple[str, ...] = schema.choices(
        "approaches without GNSS at the destination that the aircraft can fly, or none", (*WITHOUT_GNSS, "none"))
    receivers_out: int | None = schema.whole(
        "SBAS receivers that are out of service today", "", 0, 3, required=False)
    mel_entry: str | None = schema.text(
        "entry of the minimum equipment list under which the flight goes with a receiver out", required=False)
    night: str | None = schema.choice("whether it is night at the ETA", YES_NO, required=False)
    invented: bool = schema.flag("whether the flight is made up")

    @property
    def ways_without_gnss(self) -> tuple[str, ...] | None:
        """The approaches without GNSS at the destination; None where nobody has stated them."""
        return tuple(line for line in self.other_approaches if line != "none") if self.other_approaches else None

    def faults(self) -> Iterator[FaultRow]:
        """A day that data cycles are numbered for."""
        if not FIRST_YEAR < self.eta.year < LAST_YEAR:
            yield "eta", str(self.eta.year), f"a year from {FIRST_YEAR + 1} to {LAST_YEAR - 1}", "Correct the year."


@dataclass(frozen=True, kw_only=True)
class Row:
    """One period of a forecast, as `lpv.plan.forecast.Period`."""

    start: datetime = schema.parsed("from, included", utc, example=TIME, pattern=TIMES)
    end: datetime = schema.parsed("to, not included", utc, example=TIME, pattern=TIMES)
    ceiling_ft: float | None = schema.number("ceiling; left out if there is none", "ft", 0, 60000, required=False)
    visibility_sm: float | None = schema.number("visibility", "SM", 0, 100, required=False)
    visibility_m: float | None = schema.number("or visibility in meters", "m", 0, 99999, required=False)
    kind: str | None = schema.choice("prevailing, or temporary and probable", KINDS, required=False)

    @property
    def miles(self) -> float:
        """The visibility in SM; in metres 9999 stands for 10 km and more."""
        return (self.visibility_m or 0.0) / M_PER_SM if self.visibility_sm is None else self.visibility_sm

    def faults(self) -> Iterator[FaultRow]:
        """One visibility."""
        if (self.visibility_sm is None) == (self.visibility_m is None):
            count = "none" if self.visibility_sm is None else "two"
            yield "visibility_sm", f"{count} of visibility_sm and visibility_m", "one of them", "Give one visibility."


def _forecast(place: str, rows: tuple[Row, ...]) -> Forecast:
    return Forecast(place, tuple(
        Period(row.start, row.end, row.ceiling_ft, row.miles, row.kind or PREVAILING) for row in rows
    ))


@dataclass(frozen=True, kw_only=True)
class NoticeText:
    """One notice as published, and what a person who has read it says that it takes."""

    text: str = schema.parsed("the notice, whole, on one line or several", notice_text, example=NOTICE)
    takes: tuple[str, ...] = schema.choices(
        "what it takes, in the words of a person who has read it; settles a doubt of the reader", TAKES)


@dataclass(frozen=True, kw_only=True)
class MinimumThere:
    """The landing minimum of one line at the alternate, as its chart prints it."""

    line: str = schema.choice("line of minima", KNOWN_LINES)
    height_ft: float = schema.number("height above touchdown, for circling above the airport", "ft", 0, 5000)
    visibility_sm: float | None = schema.number("visibility", "SM", 0, 10, required=False)
    visibility_m: float | None = schema.number("or visibility or RVR in meters", "m", 0, 20000, required=False)
    runway: str | None = schema.text("its runway", pattern=RUNWAY, example="09 or 27R", required=False)

    def faults(self) -> Iterator[FaultRow]:
        """One visibility."""
        if (self.visibility_sm is None) == (self.visibility_m is None):
            count = "none" if self.visibility_sm is None else "two"
            yield "visibility_sm", f"{count} of visibility_sm and visibility_m", "one of them", "Give one visibility."

    @property
    def minimum(self) -> LineMinimum:
        """The same for the rules, in SM."""
        miles = (self.visibility_m or 0.0) / M_PER_SM if self.visibility_sm is None else self.visibility_sm
        return LineMinimum(self.line, self.height_ft, miles, self.runway or "")


@dataclass(frozen=True, kw_only=True)
class AlternatePlan:
    """The airport listed as alternate."""

    airport: str = schema.text("location identifier", pattern="[A-Z0-9]{3,4}", example="ZZAA")
    runway: str | None = schema.text(
        "runway of the approach there", pattern=RUNWAY, example="09 or 27R", required=False)
    eta: datetime = schema.parsed("ETA at the alternate", utc, example=TIME, pattern=TIMES)
    lines: tuple[str, ...] = schema.texts("minima lines and approaches there that the aircraft can fly")
    printed_ceiling_ft: float | None = schema.number(
        "alternate minima printed there: ceiling", "ft", 100, 5000, required=False)
    printed_visibility_sm: float | None = schema.number(
        "alternate minima printed there: visibility", "SM", 0.25, 10, required=False)
    minimums: str | None = schema.choice(
        "what the chart there says of alternate minima", ("standard", "printed", "not authorized"), required=False)
    not_authorized_when: tuple[str, ...] = schema.choices(
        "when its approach may not be planned on", NOT_AUTHORIZED_WHEN)
    night: str | None = schema.choice("whether it is night at the ETA there", YES_NO, required=False)
    local_altimeter: str | None = schema.choice(
        "whether a local altimeter setting is available there", YES_NO, required=False)
    minima: tuple[MinimumThere, ...] = schema.tables(MinimumThere, "landing minima there", key="minimum")
    rows: tuple[Row, ...] = schema.tables(Row, "its forecast", least=1, key="forecast")

    def faults(self) -> Iterator[FaultRow]:
        """Known lines, printed minima whole, a forecast without gaps."""
        for line in self.lines:
            if line not in KNOWN_LINES:
                yield "lines", line, ", ".join(KNOWN_LINES), "Correct the word."
        if (self.printed_ceiling_ft is None) != (self.printed_visibility_sm is None):
            yield "printed_ceiling_ft", "one of ceiling and visibility", "both or neither", "Add the other one."
        if self.minimums == "printed" and self.printed_ceiling_ft is None:
            yield ("minimums", "printed, without figures", "printed_ceiling_ft and printed_visibility_sm",
                   "Add what the chart prints.")
        yield from _forecast_rows(self.forecast)

    @property
    def forecast(self) -> Forecast:
        """The forecast of the alternate."""
        return _forecast(self.airport, self.rows)


def _forecast_rows(forecast: Forecast) -> Iterator[FaultRow]:
    for fault in faults_of(forecast):
        yield ("forecast" + (f", {fault.key}" if fault.key else "")), fault.found, fault.allowed, fault.action


@dataclass(frozen=True, kw_only=True)
class Scenario:
    """One flight to plan.  slug is the file's name."""

    flight: Flight = schema.table(Flight, "who flies what, when")
    rows: tuple[Row, ...] = schema.tables(Row, "the destination's forecast", least=1, key="forecast")
    notices: tuple[NoticeText, ...] = schema.tables(NoticeText, "notices", key="notice")
    alternate: AlternatePlan | None = schema.table(AlternatePlan, "the alternate", required=False)
    slug: str = ""

    def faults(self) -> Iterator[FaultRow]:
        """A forecast without gaps, and no notices where there are said to be none."""
        yield from _forecast_rows(self.forecast)
        if self.flight.no_notices and self.notices:
            yield "flight.no_notices", "true, with notices listed", "one of the two", "Remove one of them."

    @property
    def forecast(self) -> Forecast:
        """The forecast of the destination."""
        return _forecast("the destination", self.rows)

"""Adapters for check values on planning: plain arguments in, an answer out."""

from datetime import UTC, datetime, timedelta

from lpv.plan import alternate
from lpv.plan.forecast import Forecast, Period

ETA = datetime(2026, 11, 26, 12, tzinfo=UTC)
FINE = (5000.0, 10.0)


def alternate_needed(ceiling_ft: float, visibility_sm: float, minutes_from_eta: int) -> bool:
    """Whether an alternate is needed with this weather for one minute of an otherwise fine day."""
    start = ETA + timedelta(minutes=minutes_from_eta)
    end = start + timedelta(minutes=1)
    day = timedelta(hours=12)
    forecast = Forecast(
        "ZZAA",
        (
            Period(ETA - day, start, *FINE),
            Period(start, end, ceiling_ft, visibility_sm),
            Period(end, ETA + day, *FINE),
        ),
    )
    return alternate.alternate_needed(forecast, ETA).answer


def alternate_allowed(line: str, ceiling_ft: float, visibility_sm: float) -> bool:
    """Whether an alternate may be planned on a line with this weather at the ETA."""
    hour = timedelta(hours=1)
    forecast = Forecast("ZZBB", (Period(ETA - hour, ETA + hour, ceiling_ft, visibility_sm),))
    planned, _ = alternate.plannable_lines([line], baro_vnav_approved=False)
    return alternate.alternate_allowed(forecast, ETA, planned[0]).answer


def may_plan_on(line: str, baro_vnav_approved: bool) -> bool:
    """Whether an SBAS user may plan the alternate on a line."""
    planned, _ = alternate.plannable_lines([line], baro_vnav_approved)
    return bool(planned)

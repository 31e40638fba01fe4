"""Share of a day with the charted level of service at each demo approach: all satellites, the worst one missing."""

from lpv.approach.record import Approach
from lpv.core.text import exact, percent, quantity
from lpv.sbas.constellation import baseline, baseline_epoch_gps_s
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity_fast import missing_one, span
from lpv.sbas.level import availability
from lpv.sbas.masks import Masks
from lpv.sbas.service import STEP_S, gap_lengths_s, limits_of, site_of, times
from lpv_site.department.data import examples
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A table of the approaches; values: the step of the day, in minutes."""
    rows = [_row(approach) for approach in examples()]
    return Shown(table(["approach", "all", "one missing", "longest gap"], rows),
                 {"step": Value.of(STEP_S / 60.0, "min")})


def _row(approach: Approach) -> tuple[str, str, str, str]:
    limits, level = limits_of(approach.segment), approach.identity.level_of_service
    scene = site_of(approach.segment), times(baseline_epoch_gps_s()), Masks(), default_error_model()
    days = missing_one(baseline(), *scene)
    missed = min(days, key=lambda name: availability(days[name], limits, level))
    complete, fewer = (percent(availability(day, limits, level)) for day in (span(baseline(), *scene), days[missed]))
    gaps_s = gap_lengths_s(days[missed], limits, level)
    metres = "/".join(exact(limit_m) for limit_m in (limits.hal_m, limits.val_m))
    name = f"{escape(approach.identity.airport)} {escape(approach.identity.runway)}<br>{escape(level)} {metres}"
    longest = quantity(max(gaps_s) / 60.0, "min") if gaps_s else "none"
    return name, complete, f"{fewer}<br>no {missed}" if gaps_s else fewer, longest

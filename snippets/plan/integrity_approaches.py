"""Share of a day with the charted level of service at each demo approach: all satellites, the worst one missing."""

from lpv.sbas.constellation import baseline, baseline_epoch_gps_s
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity_fast import missing_one, span
from lpv.sbas.service import STEP_S, availability, limits_of, outages, site_of, times
from lpv.sbas.sky import Masks
from lpv_site.department.data import examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, percent, plain, quantity

moments, rows = times(baseline_epoch_gps_s()), []
for approach in examples():
    limits, level = limits_of(approach.segment), approach.identity.level_of_service
    scene = site_of(approach.segment), moments, Masks(), default_error_model()
    days = missing_one(baseline(), *scene)
    missed = min(days, key=lambda name: availability(days[name], limits, level))
    whole, fewer = span(baseline(), *scene), days[missed]
    shares = [percent(availability(day, limits, level)) for day in (whole, fewer)]
    gaps_s = [last - first + STEP_S for first, last in outages(fewer, limits, level)]
    name = f"{escape(approach.identity.airport)} {escape(approach.identity.runway)}"
    metres = "/".join(plain(limit_m) for limit_m in (limits.hal_m, limits.val_m))
    worst = f"{shares[1]}<br>no {missed}" if gaps_s else shares[1]
    longest = quantity(max(gaps_s) / 60.0, "min") if gaps_s else "none"
    rows.append((f"{name}<br>{escape(level)} {metres}", shares[0], worst, longest))
print(table(["approach", "all", "one missing", "longest gap"], rows))
values = {"step": quantity(STEP_S / 60.0, "min")}

"""The sky over the example approach when a turn on to final, and a ridge, cost the vertical guidance most."""

from lpv.facts import value
from lpv.sbas.constellation import baseline, baseline_epoch_gps_s
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity import dops
from lpv.sbas.integrity_fast import span
from lpv.sbas.service import availability, level_of_service, limits_of, site_of, times
from lpv.sbas.sky import Masks, in_view, sights
from lpv_site.department.data import example
from lpv_site.figures.figure import figure
from lpv_site.figures.skyplot import draw_sky
from lpv_site.text.table import stacked
from lpv_site.text.text import course, number, percent, quantity

BANK_DEG, RIDGE_DEG = 25.0, 20.0
RIDGE = ((100.0, 0.0), (110.0, RIDGE_DEG), (250.0, RIDGE_DEG), (260.0, 0.0))  # an invented skyline
approach, level = example(), Masks()
site, limits, moments = site_of(approach.segment), limits_of(approach.segment), times(baseline_epoch_gps_s())
lines = [line.line for line in approach.chart.minima]
turn = Masks(heading_deg=(approach.true_course_deg - value("vector_angle_deg")) % 360.0, bank_deg=BANK_DEG)
skies = {
    "turn": (f"right turn on to final, {quantity(BANK_DEG, '°')} of bank", turn),
    "ridge": (f"a ridge to the south, {quantity(RIDGE_DEG, '°')} high", Masks(terrain=RIDGE)),
}


def day(masks):
    return span(baseline(), site, moments, masks, default_error_model())


def said(seen, moment) -> tuple[str, str, str, str]:
    """Satellites in view, VDOP, VPL and the best level; none without a position."""
    best = level_of_service(moment, limits, lines)
    if moment.vpl_m is None:
        return str(len(seen)), "none", "none", best
    found = dops([s.azimuth_deg for s in seen], [s.elevation_deg for s in seen])
    return str(len(seen)), number(found.vdop, 1), quantity(moment.vpl_m, "m"), best


clear, entries, figures = day(level), [], []
for key, (name, masks) in skies.items():
    hidden = day(masks)
    costs = [(b.vpl_m or 1e6) - (a.vpl_m or 1e6) for a, b in zip(clear, hidden, strict=True)]
    worst = costs.index(max(costs))
    whole = [s for s in sights(baseline(), site, moments[worst]) if in_view(s, level)]
    left = [s for s in whole if in_view(s, masks)]
    pairs = zip(said(whole, clear[worst]), said(left, hidden[worst]), strict=True)
    change = [before if before == after else f"{before} to {after}" for before, after in pairs]
    share = percent(availability(hidden, limits, "LPV"))
    labels = "satellites in view", "VDOP", "VPL", "<b>level</b>", "LPV, if it lasted all day"
    entries.append((name[0].upper() + name[1:], list(zip(labels, [*change, share], strict=True))))
    finding = f"{len(whole) - len(left)} of {len(whole)} satellites hidden (crosses): {name}. VPL {change[2]}."
    drawn = {"data": (masks, whole), "height_in": 3.8, "headers": ["satellite", "azimuth", "elevation", "in view"]}
    side = {s: "yes" if s in left else "hidden" for s in whole}
    drawn["rows"] = [(s.name, course(s.azimuth_deg), quantity(s.elevation_deg, "°"), side[s]) for s in whole]
    figures.append(figure(f"sky-{key}", draw_sky, finding=finding, **drawn))
print(stacked(entries), *figures, sep="\n")

"""The sky over the example approach when a turn on to final, and a ridge, cost the vertical guidance most."""

from collections.abc import Sequence

from lpv.core.text import course, number, percent, quantity
from lpv.core.units import degrees_360
from lpv.facts import value
from lpv.sbas.constellation import baseline, baseline_epoch_gps_s
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity import dops
from lpv.sbas.integrity_fast import span
from lpv.sbas.level import availability, level_of_service
from lpv.sbas.masks import Masks, in_view
from lpv.sbas.service import Epoch, costliest, limits_of, site_of, times
from lpv.sbas.sky import Sight, sights
from lpv_site.department.data import example
from lpv_site.figures.figure import figure
from lpv_site.figures.skyplot import draw_sky
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked

BANK_DEG, RIDGE_DEG = 25.0, 20.0
RIDGE = ((100.0, 0.0), (110.0, RIDGE_DEG), (250.0, RIDGE_DEG), (260.0, 0.0))  # an invented skyline
IN_VIEW = {True: "yes", False: "hidden"}
HEADERS = ("satellite", "azimuth", "elevation", "in view")
LABELS = ("satellites in view", "VDOP", "VPL", "<b>level</b>", "LPV, if it lasted all day")


def show() -> Shown:
    """What each costs, as blocks, and one plot of the sky each."""
    turn = Masks(heading_deg=degrees_360(example().true_course_deg - value("vector_angle_deg")), bank_deg=BANK_DEG)
    first, plot = _sky("turn", f"right turn on to final, {quantity(BANK_DEG, '°')} of bank", turn)
    second, other = _sky("ridge", f"a ridge to the south, {quantity(RIDGE_DEG, '°')} high", Masks(terrain=RIDGE))
    return Shown(f"{stacked([first, second])}\n{plot}\n{other}")


def _sky(key: str, name: str, masks: Masks) -> tuple[tuple[str, list[tuple[str, str]]], str]:
    """Before and after at the moment when it costs most: the block, and the plot of the sky."""
    site, moments, model = site_of(example().segment), times(baseline_epoch_gps_s()), default_error_model()
    clear, hidden = (span(baseline(), site, moments, hiding, model) for hiding in (Masks(), masks))
    worst = costliest(clear, hidden)
    whole = [sight for sight in sights(baseline(), site, moments[worst]) if in_view(sight, Masks())]
    left = [sight for sight in whole if in_view(sight, masks)]
    pairs = zip(_words(whole, clear[worst]), _words(left, hidden[worst]), strict=True)
    change = [a if a == b else f"{a} to {b}" for a, b in pairs]
    share = percent(availability(hidden, limits_of(example().segment), "LPV"))
    entry = name.capitalize(), list(zip(LABELS, [*change, share], strict=True))
    finding = f"{len(whole) - len(left)} of {len(whole)} satellites hidden (crosses): {name}. VPL {change[2]}."
    rows = [(s.name, course(s.azimuth_deg), quantity(s.elevation_deg, "°"), IN_VIEW[s in left]) for s in whole]
    return entry, figure(f"sky-{key}", draw_sky, finding=finding, data=(masks, whole), headers=HEADERS, rows=rows,
                         height_in=3.8)


def _words(seen: Sequence[Sight], moment: Epoch) -> tuple[str, str, str, str]:
    """Satellites in view, VDOP, VPL and the best level; none without a position."""
    best = level_of_service(moment, limits_of(example().segment), [line.line for line in example().chart.minima])
    if moment.vpl_m is None:
        return str(len(seen)), "none", "none", best
    vdop = dops([sight.azimuth_deg for sight in seen], [sight.elevation_deg for sight in seen]).vdop
    return str(len(seen)), number(vdop, 0.1), quantity(moment.vpl_m, "m"), best

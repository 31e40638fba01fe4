"""The sky over the example approach when a turn on to final, and a ridge, cost the vertical guidance most."""

from collections.abc import Sequence

from lpv.core.text import number, percent, quantity
from lpv.core.units import degrees_360
from lpv.facts import value
from lpv.sbas.constellation import baseline, baseline_epoch_gps_s
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity import dops
from lpv.sbas.integrity_fast import span
from lpv.sbas.level import availability, level_of_service
from lpv.sbas.masks import Masks, in_view, ridge
from lpv.sbas.service import Epoch, costliest, limits_of, site_of, times
from lpv.sbas.sky import Sight, sights
from lpv_site.department.data import example
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked

BANK_DEG, RIDGE_DEG = 25.0, 20.0
RIDGE = ridge(180.0, 140.0, RIDGE_DEG, 10.0)  # an invented skyline
LABELS = ("satellites in view", "VDOP", "VPL", "<b>level</b>", "LPV, if it lasted all day")


def show() -> Shown:
    """What each costs, as blocks."""
    turn = Masks(heading_deg=degrees_360(example().true_course_deg - value("vector_angle_deg")), bank_deg=BANK_DEG)
    return Shown(stacked([
        _cost(f"right turn onto final, {quantity(BANK_DEG, '°')} of bank", turn),
        _cost(f"a ridge to the south, {quantity(RIDGE_DEG, '°')} high", Masks(terrain=RIDGE)),
    ]))


def _cost(name: str, masks: Masks) -> tuple[str, list[tuple[str, str]]]:
    """Before and after at the moment when it costs most."""
    site, moments, model = site_of(example().segment), times(baseline_epoch_gps_s()), default_error_model()
    clear, hidden = (span(baseline(), site, moments, hiding, model) for hiding in (Masks(), masks))
    worst = costliest(clear, hidden)
    received = [sight for sight in sights(baseline(), site, moments[worst]) if in_view(sight, Masks())]
    left = [sight for sight in received if in_view(sight, masks)]
    pairs = zip(_words(received, clear[worst]), _words(left, hidden[worst]), strict=True)
    change = [a if a == b else f"{a} to {b}" for a, b in pairs]
    share = percent(availability(hidden, limits_of(example().segment), "LPV"))
    return name.capitalize(), list(zip(LABELS, [*change, share], strict=True))


def _words(sights_left: Sequence[Sight], moment: Epoch) -> tuple[str, str, str, str]:
    """Satellites in view, VDOP, VPL and the best level; none without a position."""
    best = level_of_service(moment, limits_of(example().segment), [line.line for line in example().chart.minima])
    if moment.vpl_m is None:
        return str(len(sights_left)), "none", "none", best
    vdop = dops([sight.azimuth_deg for sight in sights_left], [sight.elevation_deg for sight in sights_left]).vdop
    return str(len(sights_left)), number(vdop, 0.1), quantity(moment.vpl_m, "m"), best

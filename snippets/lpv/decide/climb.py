"""The climb that a missed approach needs: the chart's, else the standard by the chart's rules.

`approach` is the approach record, or the same from its JSON form (`lpv.core.record`).
"""

from lpv.core.units import FT_PER_NM
from lpv.facts import remembered, value

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.approach.record import Approach


def climb_gradient_ft_per_nm(approach: "Approach") -> float:
    """Climb gradient that the missed approach needs: published, else standard by the chart's rules; the higher."""
    missed = approach.chart.missed
    published = (missed.climb_gradient_ft_per_nm if missed else None) or 0.0
    faa = approach.identity.rule == "FAA"
    return max(value("missed_gradient_ft_per_nm") if faa else icao_gradient_ft_per_nm(), published)


def climb_remembered(approach: "Approach") -> str:
    """ ", from memory" where that gradient is a standard that was read in no document, else ""."""
    standard = approach.identity.rule != "FAA" and climb_gradient_ft_per_nm(approach) == icao_gradient_ft_per_nm()
    return remembered("missed_gradient_icao_percent") if standard else ""


def icao_gradient_ft_per_nm() -> float:
    """ICAO's standard climb gradient of a missed approach, ft/NM."""
    return value("missed_gradient_icao_percent") / 100.0 * FT_PER_NM

"""Which level of service the protection levels of a moment allow; it runs on the phone too.

A moment has hpl_pa_m, hpl_npa_m and vpl_m, None where there is no position (`lpv.sbas.service.Epoch`,
`lpv.sbas.day.Moment`).
"""

from lpv.core.errors import DomainError
from lpv.facts import value

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence

    from lpv.sbas.day import Moment
    from lpv.sbas.service import Epoch

LEVELS = ("LPV", "LP", "LNAV/VNAV", "LNAV", "none")


class Limits:
    """The segment's own alert limits in metres; a VAL of 0 means lateral guidance only (LP)."""

    def __init__(self, hal_m: float, val_m: float) -> None:
        self.hal_m, self.val_m = hal_m, val_m


def supports(epoch: "Epoch | Moment", limits: Limits, level: str) -> bool:
    """Whether the protection levels lie within the alert limits of one level of service.

    LPV: HPL and VPL against the segment's own HAL and VAL. LP: HPL against HAL, for a segment with
    VAL 0. LNAV/VNAV: 556 m and 50 m. LNAV: the nonprecision HPL against 556 m. A level equal to its
    limit is within (MAAST avail_contour.m). DomainError for another name of a level.
    """
    hpl_m, npa_m, vpl_m = epoch.hpl_pa_m, epoch.hpl_npa_m, epoch.vpl_m
    if level not in LEVELS:
        raise DomainError(f"level of service: found {level}; allowed: {', '.join(LEVELS)}.")
    if level == "none":
        return True
    if hpl_m is None or npa_m is None or vpl_m is None:
        return False
    if level == "LPV":
        return limits.val_m > 0.0 and hpl_m <= limits.hal_m and vpl_m <= limits.val_m
    if level == "LP":
        return limits.val_m == 0.0 and hpl_m <= limits.hal_m
    if level == "LNAV/VNAV":
        return hpl_m <= value("hal_lnav_m") and vpl_m <= value("val_lpv_m")
    return npa_m <= value("hal_lnav_m")


def level_of_service(epoch: "Epoch | Moment", limits: Limits, lines: "Sequence[str]") -> str:
    """The best level that signal and procedure support: one of the minima lines published, or "none"."""
    for level in LEVELS:
        if level in lines and supports(epoch, limits, level):
            return level
    return "none"


def availability(epochs: "Sequence[Epoch | Moment]", limits: Limits, level: str) -> float:
    """Share of the moments, 0 to 1, at which a level is supported; DomainError without any moment."""
    if not epochs:
        raise DomainError("moments: found none; allowed: one or more.")
    return sum([supports(epoch, limits, level) for epoch in epochs]) / len(epochs)

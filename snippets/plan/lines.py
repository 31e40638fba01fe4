"""Which line may be flown: level announced against what aircraft and operator are approved for."""

from lpv.decide.minima import Situation, usable_lines
from lpv_site.text.shown import Shown
from lpv_site.text.table import table

PUBLISHED = ["LPV", "LNAV/VNAV", "LNAV"]
LEVELS = ("LPV", "LNAV/VNAV", "LNAV", "none")
# Column -> approvals, and the levels that such an aircraft can announce at all.
APPROVED = {
    "approved for LPV": (["LPV", "LNAV/VNAV", "LNAV"], LEVELS),
    "SBAS, no LPV": (["LNAV/VNAV", "LNAV"], LEVELS[1:]),
    "GPS, baro-VNAV": (["LNAV", "baro-VNAV"], LEVELS[2:]),
}


def show() -> Shown:
    """A table by the level announced: the best line of three aircraft."""
    rows = [
        (_broken(announced), *(_best(announced, approvals, levels) for approvals, levels in APPROVED.values()))
        for announced in LEVELS
    ]
    head = "The best line, where the chart prints LPV, LNAV/VNAV and LNAV:"
    return Shown(f"{head}\n\n{table(['annunciated', *APPROVED], rows)}")


def _best(announced: str, approvals: list[str], levels: tuple[str, ...]) -> str:
    if announced not in levels:
        return ""
    lines = usable_lines(Situation(announced, approvals, PUBLISHED))
    return f"**{_broken(lines[0])}**" if lines else "none"


def _broken(line: str) -> str:
    """A name that may break after its slash, for narrow columns."""
    return line.replace("/", "/<wbr>")

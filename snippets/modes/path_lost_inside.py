"""Vertical guidance lost inside the PFAF: the signal returns, the guidance does not."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import TO_INSIDE_PFAF, timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["vertical guidance lost", "signal returns", "arm approach", "activate approach", "go around"]


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-path-lost-inside-figure", EVENTS, usual_rules(), set_up=TO_INSIDE_PFAF, begin="inside the FAF",
        answer="go around",
        finding="Neither the signal, nor arming, nor activating brings the glidepath back inside the FAF; lateral "
        "guidance stays captured until the go-around.",
    ))

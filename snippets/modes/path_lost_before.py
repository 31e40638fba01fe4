"""Vertical guidance lost before the PFAF: activating and arming again brings the path back."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["vertical guidance lost", "signal returns", "activate approach", "arm approach", "path reached from below"]
SET_UP = ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached"]


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-path-lost-before-figure", EVENTS, usual_rules(), set_up=SET_UP, begin="before the FAF",
        answer="activate approach",
        finding="The level of service comes back when the approach is activated again, the glidepath only after "
        "arming too.",
    ))

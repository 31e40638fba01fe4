"""All SBAS guidance lost inside the PFAF, with the signal back soon after."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import TO_INSIDE_PFAF, timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["lateral guidance lost", "signal returns", "go around"]


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-course-lost-figure", EVENTS, usual_rules(), set_up=TO_INSIDE_PFAF, begin="inside the FAF",
        answer="go around",
        finding="With the course everything is lost, and a returning signal changes nothing.",
    ))

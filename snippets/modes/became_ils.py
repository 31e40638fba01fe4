"""SBAS captured, the selector turned off with a localizer tuned, and the approach armed again."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["selector off", "arm approach", "course reached"]
SET_UP = ["take off", "load SBAS approach", "activate approach", "tune localizer", "select SBAS", "arm approach",
          "course reached", "path reached from below"]


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-became-ils-figure", EVENTS, usual_rules(), set_up=SET_UP, begin="on course and glidepath",
        answer="selector off",
        finding="The level of service stays annunciated, but source, course and glidepath are the ILS's: arming again "
        "follows the localizer that happens to be tuned.",
    ))

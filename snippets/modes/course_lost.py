"""All SBAS guidance lost inside the PFAF, with the signal back soon after."""

from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["lateral guidance lost", "signal returns", "go around"]
SET_UP = ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
          "path reached from below", "PFAF passed"]


def show() -> Shown:
    rules = usual_rules()
    return Shown(timeline_figure(
        "modes-course-lost-figure", EVENTS, rules, start=run(SET_UP, rules), begin="inside the PFAF",
        answer="go around",
        finding="With the course everything is lost, and a returning signal changes nothing.",
    ))

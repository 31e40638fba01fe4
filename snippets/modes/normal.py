"""A normal approach, event by event, on a type whose vertical guidance arms with lateral."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["activate approach", "select SBAS", "arm approach", "course reached", "path reached from below",
          "PFAF passed", "go around"]
SET_UP = ["take off", "load SBAS approach"]
RULES = usual_rules(vertical_arms="with lateral")


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-normal-figure", EVENTS, RULES, set_up=SET_UP, begin="loaded, in flight",
        answer="arm approach",
        finding="The level of service is annunciated when the approach is activated; nothing is captured before "
        "the crew has selected SBAS and armed. The go-around ends all of it.",
    ))

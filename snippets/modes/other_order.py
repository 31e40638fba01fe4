"""The same approach on a type whose vertical guidance arms after lateral, and does not capture from above."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["arm approach", "course reached", "path reached from above", "path reached from below"]
SET_UP = ["take off", "load SBAS approach", "activate approach", "select SBAS"]
RULES = usual_rules(vertical_arms="once lateral is captured", path_from_above="stays armed")


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-other-order-figure", EVENTS, RULES, set_up=SET_UP, begin="SBAS selected",
        answer="path reached from above",
        finding="Here vertical guidance arms only once lateral is captured, and a glidepath met from above is not "
        "captured.",
    ))

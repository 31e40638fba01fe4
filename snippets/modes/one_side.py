"""One selector per side: the other side never selected, and a localizer left in its receiver."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["select SBAS, flying side", "arm approach", "course reached", "select SBAS, monitoring side"]
SET_UP = ["take off", "load SBAS approach", "activate approach", "tune localizer, monitoring side"]


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-one-side-figure", EVENTS, usual_rules(source_control="per side"), set_up=SET_UP, begin="approach active",
        answer="select SBAS, monitoring side",
        finding="Until its own selector is on, the other side shows the ILS: each side can be centered on its own "
        "path.",
    ))

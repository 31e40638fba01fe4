"""FMS lateral captured first, and the hand-over to the final course, on a type that transfers the source."""

from lpv.modes.rules import FMS, SBAS, Source, usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["FMS lateral mode", "arm approach", "course reached", "path reached from below", "PFAF passed"]
SET_UP = ["take off", "load SBAS approach", "activate approach"]
SOURCES = (
    Source(SBAS, ("SBAS approach active",), (), ("its course captured",), ("no longer offered",)),
    Source(FMS, (), (), ("another taken away",), ()),
)


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-hand-over-figure", EVENTS, usual_rules(sources=SOURCES), set_up=SET_UP, begin="approach active",
        answer="course reached",
        finding="The FMS lateral mode flies first; armed beside it, the final course takes over when it is captured, "
        "and the source changes with it.",
    ))

"""FMS lateral captured first, and the hand-over to the final course, on a type that transfers the source."""

from lpv.modes.machine import run
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
    rules = usual_rules(sources=SOURCES)
    return Shown(timeline_figure(
        "modes-hand-over-figure", EVENTS, rules, start=run(SET_UP, rules), begin="approach active",
        answer="course reached",
        finding="The FMS lateral mode flies first; armed beside it, the final course takes over when it is captured, "
        "and the source changes with it.",
    ))

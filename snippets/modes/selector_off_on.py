"""The source selector turned off and on again inside the PFAF, then armed again."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import TO_INSIDE_PFAF, timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["selector off", "select SBAS", "arm approach", "course reached", "path reached from below"]


def show() -> Shown:
    return Shown(timeline_figure(
        "modes-selector-off-on-figure", EVENTS, usual_rules(), set_up=TO_INSIDE_PFAF, begin="inside the FAF",
        answer="arm approach",
        finding="With the selector on again the source is back, but course and glidepath stay lost until the approach "
        "is armed again, where the type allows that inside the FAF.",
    ))

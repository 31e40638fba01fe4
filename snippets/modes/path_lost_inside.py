"""Vertical guidance lost inside the PFAF: the signal returns, the guidance does not."""

from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown

EVENTS = ["vertical guidance lost", "signal returns", "arm approach", "activate approach", "go around"]
SET_UP = ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
          "path reached from below", "PFAF passed"]


def show() -> Shown:
    rules = usual_rules()
    return Shown(timeline_figure(
        "modes-path-lost-inside-figure", EVENTS, rules, start=run(SET_UP, rules), begin="inside the PFAF",
        answer="go around",
        finding="Neither the signal, nor arming, nor activating brings the path back inside the PFAF; lateral "
        "guidance stays captured until the go-around.",
    ))

"""The selector left on after landing, and the next leg an ILS."""

from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The timeline."""
    return Shown(
        timeline_figure(
            "after-landing-next-leg-figure",
            ["land", "take off", "load ILS approach", "tune localizer", "activate approach", "arm approach",
             "selector off", "arm approach"],
            usual_rules(),
            set_up=["take off", "load SBAS approach", "activate approach", "select SBAS"],
            begin="SBAS approach flown",
            answer="selector off",
            finding="With the selector still on, the next crew's ILS shows nothing and nothing arms, although it is "
            "loaded, tuned and active; turning the selector off brings the ILS.",
        )
    )

"""The reset flow on one page to print."""

from lpv_site.pages.flow_card import Step, flow_card
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The card."""
    return Shown(flow_card(
        "Reset after an SBAS approach",
        "Clear of the runway; again before leaving the aircraft.",
        [
            Step("source selector off, and shown off", per_side=True),
            Step("approach cleared, or the next one loaded"),
            Step("localizers out of all receivers, standby included", per_side=True),
            Step("minimum cleared: value and kind", per_side=True),
            Step("course and missed approach altitude reset", per_side=True),
            Step("any loss, wrong source or interference written down while it is fresh"),
            Step("next crew told what was left set, and what was not right"),
        ],
    ))

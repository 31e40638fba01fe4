"""The set-up flow on one page to print, in cockpit order for both sides."""

from lpv_site.pages.flow_card import Step, flow_card
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The card."""
    return Shown(flow_card(
        "Set-up for an SBAS approach",
        "Before descent; then again after every change of runway, approach or minimum.",
        [
            Step("data cycle in force today, and the chart's"),
            Step("procedure loaded: title, channel, identifier as charted", per_side=True),
            Step("fixes, courses, altitudes as charted"),
            Step("altimeter as reported", per_side=True),
            Step("no localizer in any receiver, standby included", per_side=True),
            Step("course as charted", per_side=True),
            Step("SBAS selected, and SBAS shown", per_side=True),
            Step("level of service read, once active", per_side=True),
            Step("minimum for that level: value, and DA or MDA", per_side=True),
            Step("cold correction, if the chart asks for it"),
            Step("missed approach altitude known; set when your operator says"),
            Step("both sides read out and alike"),
            Step("cleared, near the course and closing: armed, and read"),
        ],
    ))

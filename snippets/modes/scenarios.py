"""Every scenario, flown: what it shows and how it ended; what is as it should be first, losses near the end."""

from itertools import groupby

from lpv_site.department.data import DOCS
from lpv_site.pages.flight_page import Ended, ended, scenarios
from lpv_site.text.shown import Shown, Value
from lpv_site.text.text import escape


def show() -> Shown:
    text = ""
    for kind, group in groupby(scenarios(), key=lambda story: story.story.kind):
        entries = [entry(ended(DOCS, scenario)) for scenario in group]
        text += f"**{kind[0].upper()}{kind[1:]}**\n\n" + "".join(entries) + "\n"
    return Shown(text, {"count": Value(len(scenarios()), "", str(len(scenarios())))})


def entry(flight: Ended) -> str:
    story = flight.scenario.story
    unstable = "" if flight.stable else "; not stabilized"
    head = f"**[{escape(story.name)}]({flight.name}.md)** ({escape(flight.ending)}{unstable})"
    return f"- {head}  \n  {escape(story.about)}\n"

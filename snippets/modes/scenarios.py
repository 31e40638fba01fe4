"""Every scenario, flown: what it shows and how it ended; what is as it should be first, losses near the end."""

from itertools import groupby

from lpv.simulate.simulation import summary
from lpv_site.pages.flight_page import Flown, flown
from lpv_site.text.shown import Shown, Value
from lpv_site.text.text import escape


def show() -> Shown:
    text = ""
    for kind, group in groupby(flown(), key=lambda one: one.kind):
        text += f"**{kind[0].upper()}{kind[1:]}**\n\n" + "".join(map(entry, group)) + "\n"
    return Shown(text, {"count": Value(len(flown()), "", str(len(flown())))})


def entry(one: Flown) -> str:
    story, found = one.flight.scenario.story, summary(one.flight)
    unstable = "; not stabilized" if found.unstable else ""
    head = f"**[{escape(story.name)}]({one.name}.md)** ({escape(found.ending)}{unstable})"
    return f"- {head}  \n  {escape(story.about)}\n"

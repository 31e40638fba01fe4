"""Every scenario, flown: what it shows and how it ended; what is as it should be first, losses near the end."""

from itertools import groupby

from lpv.simulate.simulation import summary
from lpv_site.pages.flight_page import flown
from lpv_site.text.text import escape

for kind, group in groupby(flown(), key=lambda one: one.kind):
    print(f"**{kind[0].upper()}{kind[1:]}**\n")
    for one in group:
        story, found = one.flight.scenario.story, summary(one.flight)
        unstable = "; not stabilised" if found.unstable else ""
        head = f"**[{escape(story.name)}]({one.name}.md)** ({escape(found.ending)}{unstable})"
        print(f"- {head}  \n  {escape(story.about)}")
    print()
values = {"count": str(len(flown()))}

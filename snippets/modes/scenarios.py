"""Every scenario, flown: what it shows and how it ended."""

from lpv.flight import summary
from render.flight_page import flown
from render.text import escape

for one in flown():
    story, found = one.flight.scenario.story, summary(one.flight)
    unstable = "; not stabilised" if found.unstable else ""
    print(f"- **[{escape(story.name)}]({one.name}.md)** ({escape(found.ending)}{unstable})  \n  {escape(story.about)}")
values = {"count": str(len(flown()))}

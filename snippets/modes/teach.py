"""Which page teaches what a scenario shows: only scenarios of this site, since a department may bring its own."""

from lpv_site.pages.flight_page import page_name, scenarios
from lpv_site.text.shown import Shown

# What it is about -> lessons: scenario and words of its link, of each that shows it; the page that teaches it.
LESSONS = {
    "Course": [
        ({"armed-far-outside": "armed far outside", "armed-late": "late"},
         "[when to arm](../intercept/arming.md#armed-far-out)"),
        ({"vectors-tailwind": "tailwind", "intercept-too-steep": "too steep",
          "lead-without-wind": "wind not counted"},
         "[through the course](../intercept/lateral.md#through-the-course)"),
    ],
    "Path": [({"path-from-above": "captured from above", "path-from-above-not-captured": "not captured from above"},
              "[met from above](../intercept/vertical.md#path-from-above)"),
             ({"altimeter-set-wrong": "altimeter set wrong"},
              "[off by a round amount](../final/altimeter.md#altimeter-setting-slip)"),
             ({"shear-on-final": "headwind that goes", "tailwind-over-limit": "too much tailwind"},
              "[wind on final](../final/rate.md#tailwind)")],
    "Cold": [({"cold-corrected": "corrected", "cold-uncorrected": "not corrected"},
              "[the DA on a cold day](../final/altimeter.md#cold-da-not-corrected)")],
    "Source": [
        ({"ils-left-on": "ILS left on"}, "[wrong source](wrong-source.md#deviation-was-the-ils)"),
        ({"localizer-inhibits": "a localizer inhibits"}, "[set-up](../set-up/localizer.md#localizer-inhibits-sbas)"),
        ({"source-off-and-on": "off and on again", "source-off-not-again": "off and not again"},
         "[what comes back](rearm.md#selector-off-and-on)"),
    ],
    "Loss": [({"vertical-lost-outside": "glidepath outside the FAF", "vertical-lost-inside": "glidepath inside it",
               "lateral-lost": "course", "level-falls-inside": "level inside it"}, "[the decision](loss.md#table)")],
    "After": [({"go-around-at-da": "go-around at the DA"}, "[missed approach](../decide/missed.md)"),
              ({"after-landing": "selector left on"}, "[after landing](../after-landing/index.md#selector-left-on)")],
}


def show() -> Shown:
    page_names = {page_name(scenario) for scenario in scenarios()}
    text = ""
    for about, lessons in LESSONS.items():
        taught = [line for scenarios, lesson in lessons if (line := taught_by(scenarios, lesson, page_names))]
        text += f"- **{about}**: {'; '.join(taught)}\n" if taught else ""
    return Shown(text or "The scenarios here are the department's own: each says what it is about.\n")


def taught_by(scenarios: dict[str, str], lesson: str, page_names: set[str]) -> str:
    links = [f"[{words}](scenario-{slug}.md)" for slug, words in scenarios.items() if f"scenario-{slug}" in page_names]
    return f"{', '.join(links)}: {lesson}" if links else ""

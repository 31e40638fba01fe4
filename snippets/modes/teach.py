"""Which page teaches what a scenario shows: only scenarios of this site, since a department may bring its own."""

from lpv_site.pages.flight_page import flown

# What it is about -> lessons: scenario and words of its link, of each that shows it; the page that teaches it.
LESSONS = {
    "Course": [
        ({"armed-far-outside": "armed far outside", "armed-late": "late"},
         "[when to arm](../intercept/arming.md#armed-far-out)"),
        ({"vectors-tailwind": "tailwind", "intercept-too-steep": "too steep"},
         "[through the course](../intercept/lateral.md#through-the-course)"),
    ],
    "Path": [({"path-from-above": "captured from above", "path-from-above-not-captured": "not captured from above"},
              "[met from above](../intercept/vertical.md#path-from-above)")],
    "Cold": [({"cold-corrected": "corrected", "cold-uncorrected": "not corrected"},
              "[the DA on a cold day](../final/altimeter.md#cold-da-not-corrected)")],
    "Source": [
        ({"ils-left-on": "ILS left on"}, "[wrong source](wrong-source.md#deviation-was-the-ils)"),
        ({"localizer-inhibits": "a localizer inhibits"}, "[set-up](../set-up/localizer.md#localizer-inhibits-sbas)"),
        ({"source-off-and-on": "off and on again", "source-off-not-again": "off and not again"},
         "[what comes back](rearm.md#selector-off-and-on)"),
    ],
    "Loss": [({"vertical-lost-outside": "path outside the PFAF", "vertical-lost-inside": "path inside it",
               "lateral-lost": "course"}, "[the decision](loss.md#table)")],
    "After": [({"go-around-at-da": "go-around at the DA"}, "[missed approach](../decide/missed.md)"),
              ({"after-landing": "selector left on"}, "[after landing](../after-landing/index.md#selector-left-on)")],
}
there = {one.name for one in flown()}
for about, lessons in LESSONS.items():
    taught = []
    for scenarios, lesson in lessons:
        shown = {f"scenario-{slug}": words for slug, words in scenarios.items() if f"scenario-{slug}" in there}
        links = [f"[{words}]({name}.md)" for name, words in shown.items()]
        taught += [f"{', '.join(links)}: {lesson}"] if links else []
    if taught:
        print(f"- **{about}**: {'; '.join(taught)}")
if not any(f"scenario-{slug}" in there for rows in LESSONS.values() for scenarios, _ in rows for slug in scenarios):
    print("The scenarios here are the department's own: each says what it is about.")

"""All SBAS guidance lost inside the PFAF, with the signal back soon after."""

from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure

rules = usual_rules()
print(
    timeline_figure(
        "modes-course-lost-figure",
        ["lateral guidance lost", "signal returns", "go around"],
        rules,
        start=run(
            ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
             "path reached from below", "PFAF passed"],
            rules,
        ),
        begin="inside the PFAF",
        answer="go around",
        finding="With the course everything is lost, and a returning signal changes nothing.",
    )
)

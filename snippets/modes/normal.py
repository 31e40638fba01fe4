"""A normal approach, event by event, on a type whose vertical guidance arms with lateral."""

from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure

rules = usual_rules(vertical_arms="with lateral")
print(
    timeline_figure(
        "modes-normal-figure",
        ["activate approach", "select SBAS", "arm approach", "course reached", "path reached from below",
         "PFAF passed", "go around"],
        rules,
        start=run(["take off", "load SBAS approach"], rules),
        begin="loaded, in flight",
        answer="arm approach",
        finding="The level of service is announced when the approach is activated; nothing is captured before "
        "the crew has selected SBAS and armed. The go-around ends all of it.",
    )
)

"""The source selector turned off and on again inside the PFAF, then armed again."""

from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure

rules = usual_rules()
print(
    timeline_figure(
        "modes-selector-off-on-figure",
        ["selector off", "select SBAS", "arm approach", "course reached", "path reached from below"],
        rules,
        start=run(
            ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
             "path reached from below", "PFAF passed"],
            rules,
        ),
        begin="inside the PFAF",
        answer="arm approach",
        finding="With the selector on again the source is back, but course and path stay lost until the approach is "
        "armed again, where the type allows that inside the PFAF.",
    )
)

"""Vertical guidance lost before the PFAF: activating and arming again brings the path back."""

from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure

rules = usual_rules()
print(
    timeline_figure(
        "modes-path-lost-before-figure",
        ["vertical guidance lost", "signal returns", "activate approach", "arm approach", "path reached from below"],
        rules,
        start=run(
            ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached"],
            rules,
        ),
        begin="before the PFAF",
        answer="activate approach",
        finding="The level of service comes back when the approach is activated again, the path only after arming too.",
    )
)

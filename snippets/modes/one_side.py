"""One selector per side: the other side never selected, and a localizer left in its receiver."""

from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.mode_figures import timeline_figure

rules = usual_rules(selector="per side")
print(
    timeline_figure(
        "modes-one-side-figure",
        ["select SBAS, flying side", "arm approach", "course reached", "select SBAS, monitoring side"],
        rules,
        start=run(
            ["take off", "load SBAS approach", "activate approach", "tune localizer, monitoring side"], rules
        ),
        begin="approach active",
        answer="select SBAS, monitoring side",
        finding="Until its own selector is on, the other side shows the ILS: each side can be centred on its own path.",
    )
)

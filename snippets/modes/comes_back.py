"""What comes back after the cause of a loss is gone: by itself, and after what the crew can do."""

from lpv.aircraft.record import read_all
from lpv.modes.machine import run
from lpv.modes.rules import Rules
from lpv.modes.state import lateral_source, vertical_source
from lpv_site.department.data import DOCS
from lpv_site.text.table import table
from lpv_site.text.text import escape

ON_COURSE = ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
             "path reached from below"]
CAUSES = {
    "selector off and on": ["selector off", "select SBAS"],
    "localizer in and out": ["tune localizer", "untune localizer"],
    "path lost, signal back": ["vertical guidance lost", "signal returns"],
    "course lost, signal back": ["lateral guidance lost", "signal returns"],
}
FOLLOWED = ("armed", "captured")


def back(events: list[str], rules: Rules) -> str:
    """What SBAS guides again after the approach was flown, these events happened and the course was met."""
    state = run([*ON_COURSE, *events, "course reached"], rules)
    lateral = state.lateral in FOLLOWED and lateral_source(state, rules) == "SBAS"
    vertical = state.vertical in FOLLOWED and vertical_source(state, rules) == "SBAS"
    return {(True, True): "✓ both", (True, False): "course only"}.get((lateral, vertical), "✕ nothing")


for jet in read_all(DOCS / "aircraft")[:3]:
    print(f"{escape(jet.type.name)}:\n")
    print(table(
        ["what happened", "before the PFAF: arm", "before: activate, arm", "inside: arm"],
        [
            (words, *[back(events, jet.rules) for events in (
                [*cause, "arm approach"], [*cause, "activate approach", "arm approach"],
                ["PFAF passed", *cause, "arm approach"])])
            for words, cause in CAUSES.items()
        ],
        left=4,
    ))

"""The shortest way from each loss inside the PFAF back to captured SBAS guidance, else to a missed approach."""

from lpv.aircraft.record import read_all
from lpv.modes.machine import run
from lpv.modes.state import State, lateral_source, vertical_source
from lpv.modes.ways import WAY, shortest_way
from lpv_site.department.data import DOCS
from lpv_site.text.table import table
from lpv_site.text.text import escape

FINAL = ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
         "path reached from below", "PFAF passed"]
LOSSES = ("selector off", "tune localizer", "vertical guidance lost", "lateral guidance lost")
types = read_all(DOCS / "aircraft")[:3]


def way(loss: str, jet) -> str:
    lost = run([*FINAL, loss], jet.rules)
    if lost.vertical == "captured":
        return "nothing lost"

    def on_sbas(state: State) -> bool:
        sources = lateral_source(state, jet.rules), vertical_source(state, jet.rules)
        return sources == ("SBAS", "SBAS") and (state.lateral, state.vertical) == ("captured", "captured")

    inside = tuple(event for event in WAY if event not in ("go around", "next approach"))
    back = shortest_way(lost, inside, jet.rules, on_sbas)
    out = shortest_way(lost, WAY, jet.rules, lambda state: state.phase == "missed")
    return ",<br>".join(back or out or ("no way",))


print(table(
    ["lost by", *[escape(jet.type.name) for jet in types]],
    [(loss, *[way(loss, jet) for jet in types]) for loss in LOSSES],
    left=1 + len(types),
))

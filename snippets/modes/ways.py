"""The shortest way from each loss inside the PFAF back to captured SBAS guidance, else to a missed approach."""

from lpv.aircraft import read_all
from lpv.mode_state import State, lateral_source, vertical_source
from lpv.mode_ways import WAY, shortest_way
from lpv.modes import run
from render.data import DOCS
from render.table import table
from render.text import escape

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

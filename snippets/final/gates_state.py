"""One state of an aircraft judged by the published gates that were read in full and by the operator's own."""

from lpv.core.text import NARROW_SPACE, quantity
from lpv.decide.stabilised import DONE, GATES, Item, State, evaluate, not_judged, stable
from lpv_site.department.data import aircraft
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape

STATE = State(
    height_ft=950, speed_kt=138, target_speed_kt=123, sink_rate_fpm=900,
    lateral_dots=0.5, vertical_dots=1.2, bank_deg=6, done=DONE[:2],
)


def show() -> Shown:
    """A row for each item that a gate limits, a column for each gate."""
    operators = [gate for jet in aircraft() for gate in jet.operator_gates()][:1]
    gates = [*GATES[:1], *operators]
    judged = [{item.item: item for item in evaluate(gate, STATE)} for gate in gates]
    items = {item.item: item.actual for gate in judged for item in gate.values()}
    rows = [(f"{name}: **{together(actual)}**", *[verdict(gate, name) for gate in judged])
            for name, actual in items.items()]
    rows.append(("verdict", *["met" if stable(evaluate(gate, STATE)) else "**go around**" for gate in gates]))
    operator_words = "".join(f"; the operator's gate is {escape(gate.name)}" for gate in operators)
    head = f"An invented aircraft passing {quantity(STATE.height_ft, 'ft')} above the airport{operator_words}:"
    listed = table(["found", "ALAR, IMC", *["operator" for _ in operators]], rows)
    return Shown(f"{head}\n\n{listed}", {"silent": ", ".join(not_judged(gates[0]))})


def together(text: str) -> str:
    """A value with its unit, kept on one line."""
    return text.replace(" deg", "deg").replace(" ", NARROW_SPACE)


def verdict(gate: dict[str, Item], name: str) -> str:
    """What a gate says of an item, with its limit where it is not met."""
    if name not in gate:
        return "silent"
    limit = "" if gate[name].limit == "yes" else f"<br>{gate[name].limit}"
    return "met" if gate[name].met else f"**not met**{limit}"

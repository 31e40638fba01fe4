"""One state of an aircraft judged by the published gates that were read in full and by the operator's own."""

from lpv.decide.stabilised import DONE, GATES, State, evaluate, not_judged, stable
from lpv_site.department.data import aircraft
from lpv_site.text.table import table
from lpv_site.text.text import NARROW_SPACE, escape, quantity

operators = [gate for jet in aircraft() for gate in jet.operator_gates()]
JUDGES = [*GATES[:1], *operators[:1]]
STATE = State(
    height_ft=950, speed_kt=138, target_speed_kt=123, sink_rate_fpm=900,
    lateral_dots=0.5, vertical_dots=-1.2, bank_deg=6, done=DONE[:2],
)
judged = [{item.item: item for item in evaluate(gate, STATE)} for gate in JUDGES]
items = {item.item: item.found for gate in judged for item in gate.values()}


def together(found: str) -> str:
    return found.replace(" deg", "°").replace(" ", NARROW_SPACE)


def verdict(gate: dict, name: str) -> str:
    if name not in gate:
        return "silent"
    limit = "" if gate[name].limit == "yes" else f"<br>{gate[name].limit}"
    return "met" if gate[name].met else f"**not met**{limit}"


own = f"; the operator's gate is {escape(operators[0].name)}" if operators else ""
print(f"An invented aircraft passing {quantity(STATE.height_ft, 'ft')} above the airport{own}:\n")
columns = ["ALAR, IMC", *["operator" for _ in operators[:1]]]
results = ["met" if stable(evaluate(gate, STATE)) else "**go around**" for gate in JUDGES]
print(
    table(
        ["found", *columns],
        [
            *[
                (f"{name}: **{together(found)}**", *[verdict(gate, name) for gate in judged])
                for name, found in items.items()
            ],
            ("verdict", *results),
        ],
    )
)
values = {"silent": ", ".join(not_judged(JUDGES[0]))}

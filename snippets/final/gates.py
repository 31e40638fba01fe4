"""The published stabilised gates item by item, and whose each is."""

from collections.abc import Callable
from functools import partial

from lpv.core.text import dots, exact
from lpv.decide.stabilised import DONE, GATES, Gate
from lpv.facts import FACTS, value
from lpv_site.checks.check_table import source_text
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import stacked, table


def at_most(limit: float | None) -> str:
    return "none" if limit is None else exact(limit)


def speed(gate: Gate) -> str:
    if gate.slowest_kt is None or gate.fastest_kt is None:
        return "none"
    return f"{exact(gate.slowest_kt)} to {exact(gate.fastest_kt)}"


def asked(done: str, gate: Gate) -> str:
    return "yes" if done in gate.required else "not named"


ROWS: dict[str, Callable[[Gate], str]] = {
    "by, ft above the airport": lambda gate: f"**{exact(gate.height_ft)}**",
    "speed over VREF, kt": speed,
    "highest rate down, ft/min": lambda gate: at_most(gate.sink_rate_fpm),
    "course, most dots": lambda gate: at_most(gate.lateral_dots),
    "glidepath, most dots": lambda gate: at_most(gate.vertical_dots),
    **{done: partial(asked, done) for done in DONE},
}
NAMES = {"ALAR, instrument conditions": "ALAR, IMC", "ALAR, visual conditions": "ALAR, VMC"}


def show() -> Shown:
    """A column for each gate, and whose they are."""
    gates = table(
        ["item", *[NAMES.get(gate.name, gate.name) for gate in GATES]],
        [(name, *[text(gate) for gate in GATES]) for name, text in ROWS.items()],
    )
    status = {fact.source: fact.status for key, fact in FACTS.items() if key.startswith("gate_")}
    sources = stacked([(source_text(source), [("read as", status[source])])
                       for source in sorted({gate.source for gate in GATES})])
    most_dots = value("gate_deviation_dots")
    return Shown(f"{gates}\nWhose they are:\n\n{sources}", {"dot": Value(most_dots, "dots", dots(most_dots))})

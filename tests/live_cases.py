"""Random settings of the live figures: what their dials can hold, the ends of their ranges often enough."""

import random

from calculator_cases import block
from lpv.core.text import field_number
from lpv.figures.cold import Charted
from lpv.figures.figure import Figure
from lpv.forms.fields import Block, Choice, Field, Number


def cases(figure: Figure, count: int) -> list[dict[str, str]]:
    """Texts for the fields of a figure, the same on every run; first what they begin with."""
    source = random.Random(figure.name)
    begun = {field.key: field.default for field in figure.inputs}
    return [begun, *(setting(figure, source) for _ in range(count - 1))]


def setting(figure: Figure, source: random.Random) -> dict[str, str]:
    found = {field.key: text(field, source) for field in figure.inputs}
    if "charted" in found and source.random() < 0.9:  # the altitudes of the airport that is set
        found["charted"] = charted(source, int(float(found["airport_ft"])))
    return found


def text(field: Field, source: random.Random) -> str:
    if isinstance(field, Choice):
        return source.choice(field.options)[0]
    if isinstance(field, Charted):
        return charted(source)
    if isinstance(field, Block):
        return block(source)
    assert isinstance(field, Number)
    steps = int((field.high - field.low) / field.step + 1e-6)
    step = source.choice([0, steps, *[source.randint(0, steps)] * 8])
    return field_number(field.low + step * field.step, field.step)


def charted(source: random.Random, base: int = 0) -> str:
    """The altitudes of a chart at an airport of some elevation."""
    down = sorted((base + source.randrange(1000, 7000, 100) for _ in range(3)), reverse=True)
    found = [("IF", "ORBIT", down[0]), ("PFAF", "GULLY", down[1])]
    found += [("step-down", "REEFY", down[2])] if source.random() < 0.5 else []
    found += [("LPV", "DA", base + source.randrange(200, 500)), ("LNAV", "MDA", base + source.randrange(400, 900, 20))]
    found += [("missed", "", base + source.randrange(2000, 8000, 100))] if source.random() < 0.8 else []
    return ";".join(f"{role}|{name}|{feet}" for role, name, feet in found)

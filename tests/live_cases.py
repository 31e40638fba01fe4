"""Random settings of the live figures: what their dials can hold, the ends of their ranges often enough."""

import random

from lpv.core.text import field_number
from lpv.figures.figure import Figure
from lpv.forms.fields import Choice, Field, Number


def cases(figure: Figure, count: int) -> list[dict[str, str]]:
    """Texts for the fields of a figure, the same on every run; first what they begin with."""
    source = random.Random(figure.name)
    begun = {field.key: field.default for field in figure.inputs}
    return [begun, *({field.key: text(field, source) for field in figure.inputs} for _ in range(count - 1))]


def text(field: Field, source: random.Random) -> str:
    if isinstance(field, Choice):
        return source.choice(field.options)[0]
    assert isinstance(field, Number)
    steps = int((field.high - field.low) / field.step + 1e-6)
    step = source.choice([0, steps, *[source.randint(0, steps)] * 8])
    return field_number(field.low + step * field.step, field.step)

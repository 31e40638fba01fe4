"""Random cases for the calculators: what people may type, most of it in range."""

import json
import random

from lpv.calculators.verify import EXAMPLE_BLOCK
from lpv.core import airac
from lpv.core.text import field_number, places_of
from lpv.fas.codec import crc
from lpv.fas.remainder import FIELD_BYTES
from lpv.forms.fields import Block, Choice, Day, Field, Number, Word
from lpv.forms.form import Calculator

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"


def cases(calculator: Calculator, count: int) -> list[dict[str, str]]:
    """Texts for the fields of a calculator, the same on every run."""
    source = random.Random(calculator.name)
    return [{field.key: typed(field, source) for field in calculator.inputs} for _ in range(count)]


def typed(field: Field, source: random.Random) -> str:
    if isinstance(field, Number):
        return number(field, source)
    if isinstance(field, Choice):
        return source.choice(field.options)[0]
    if isinstance(field, Day):
        return airac.iso(source.randint(airac.FIRST_ORDINAL, airac.LAST_ORDINAL))
    if isinstance(field, Block):
        return block(source)
    assert isinstance(field, Word)
    return cycle(source) if field.key == "ident" else "".join(source.choices(LETTERS, k=4))


def number(field: Number, source: random.Random) -> str:
    """Anywhere in the range, its ends often enough, half of them with a decimal comma."""
    value = source.choice([field.low, field.high, *[source.uniform(field.low, field.high)] * 8])
    places = source.randint(0, max(2, places_of(field.step)))
    text = field_number(value, 10.0**-places)
    inside = field.low <= float(text) <= field.high
    return text.replace(".", source.choice([".", ","])) if inside else field_number(field.low, field.step)


def cycle(source: random.Random) -> str:
    return airac.cycle_at(source.randint(airac.FIRST_ORDINAL, airac.LAST_ORDINAL)).ident


def block(source: random.Random) -> str:
    """The example's block with some bytes changed, its remainder made right again more often than not."""
    data = bytearray.fromhex(EXAMPLE_BLOCK)
    for _ in range(source.choice([0, 1, 3, 40])):
        data[source.randrange(len(data))] = source.randrange(256)
    if source.random() < 0.6:
        data[FIELD_BYTES:] = crc(bytes(data)).to_bytes(4, "little")
    return data.hex(" ") if source.random() < 0.5 else data.hex().upper()


def as_json(texts: dict[str, str]) -> str:
    """The texts as a page sends them."""
    return json.dumps(texts)

"""Random settings of the live figures: what their dials can hold, the ends of their ranges often enough."""

import random

from calculator_cases import block
from lpv.core.text import field_number
from lpv.figures import replay
from lpv.figures.cold import Charted
from lpv.figures.figure import Figure
from lpv.figures.replay import Replay
from lpv.figures.slowing import Slowing
from lpv.forms.fields import Block, Choice, Field, Number


def cases(figure: Figure, count: int) -> list[dict[str, str]]:
    """Texts for the fields of a figure, the same on every run; first what they begin with."""
    source = random.Random(figure.name)
    begun = {field.key: field.default for field in figure.inputs}
    return [begun, *(setting(figure, source) for _ in range(count - 1))]


def setting(figure: Figure, source: random.Random) -> dict[str, str]:
    setting = {field.key: text(field, source) for field in figure.inputs}
    if "charted" in setting and source.random() < 0.9:  # the altitudes of the airport that is set
        setting["charted"] = charted(source, int(float(setting["airport_ft"])))
    return setting


def text(field: Field, source: random.Random) -> str:
    if isinstance(field, Choice):
        return source.choice(field.options)[0]
    if isinstance(field, Charted):
        return charted(source)
    if isinstance(field, Slowing):
        return slowing(source)
    if isinstance(field, Replay):
        return flight(source)
    if isinstance(field, Block):
        return block(source)
    assert isinstance(field, Number)
    steps = int((field.high - field.low) / field.step + 1e-6)
    step = source.choice([0, steps, *[source.randint(0, steps)] * 8])
    return field_number(field.low + step * field.step, field.step)


def slowing(source: random.Random) -> str:
    """How some type slows down: one to five steps of falling speeds and growing drag."""
    count, brake = source.randint(1, 5), source.choice([0, round(source.uniform(0.1, 1.5), 2)])
    before_nm, speed_kt, level = source.uniform(2, 12), source.randint(170, 230), source.uniform(0.5, 1.0)
    records = [f"{source.randint(0, 12)}|{brake}|{source.randrange(0, 3000, 100)}|{speed_kt + 20}",
               f"150/{level:.2f},250/{level + 0.4:.2f}"]
    for place in range(count):
        label = source.choice(["Flaps one", "Gear down", "Slats and flaps half", "F1", "Flaps full, gear"])
        target = "+5" if place == count - 1 else str(speed_kt - 10 * place - 10)
        level += source.uniform(0.1, 0.6)
        records.append(f"{label}|{before_nm:.1f}|{target}|{speed_kt + 15}|{source.randint(0, 12)}|120/{level:.2f}")
        before_nm -= source.uniform(0, 3)
    return ";".join(records)


def charted(source: random.Random, base: int = 0) -> str:
    """The altitudes of a chart at an airport of some elevation."""
    down = sorted((base + source.randrange(1000, 7000, 100) for _ in range(3)), reverse=True)
    fixes = [("IF", "ORBIT", down[0]), ("PFAF", "GULLY", down[1])]
    fixes += [("step-down", "REEFY", down[2])] if source.random() < 0.5 else []
    fixes += [("LPV", "DA", base + source.randrange(200, 500)), ("LNAV", "MDA", base + source.randrange(400, 900, 20))]
    fixes += [("missed", "", base + source.randrange(2000, 8000, 100))] if source.random() < 0.8 else []
    return ";".join(f"{role}|{name}|{feet}" for role, name, feet in fixes)


WORDS = {
    "source": ("SBAS on both sides", "ILS on both sides", "SBAS without guidance on both sides",
               "SBAS without guidance on the left, FMS lateral navigation on the right"),
    "level": ("LPV", "LPV, vertical lost", "none"),
    "lateral": ("basic mode", "basic mode, armed", "captured", "basic mode, lost", "FMS lateral"),
    "vertical": ("basic mode", "basic mode, armed", "captured", "fixed pitch", ""),
    "go-around": ("selected", ""),
}


def flight(source: random.Random) -> str:
    """A flight of any shape: its samples, events and announcements."""
    count = source.randint(2, 60)
    times_s = sorted({0.0, *(round(source.uniform(0.0, source.choice([60.0, 900.0])), 1) for _ in range(count))})
    times_s += [times_s[-1] + 1.0]
    far_nm, wide_ft, high_ft = source.uniform(0.5, 30.0), source.uniform(0.0, 60000.0), source.uniform(100.0, 15000.0)
    samples = [
        replay.Sample(
            time_s, far_nm * (1.0 - time_s / times_s[-1]) - source.choice([0.0, 2.0]),
            source.uniform(-wide_ft, wide_ft), source.uniform(-200.0, high_ft),
            source.choice([None, source.uniform(-3000.0, 3000.0)]), source.uniform(80.0, 250.0))
        for time_s in times_s
    ]
    events = sorted((source.uniform(0.0, times_s[-1]), source.choice(["PFAF passed", "Gear down", "Course reached"]))
                    for _ in range(source.randint(0, 20)))
    told = [(0.0 if first else source.uniform(0.0, times_s[-1]), what, source.choice(WORDS[what]))
            for what in source.sample(sorted(WORDS), source.randint(1, 5)) for first in (True, *[False] * 3)]
    return replay.written(replay.Flight(samples, events, sorted(told, key=lambda row: row[0])))

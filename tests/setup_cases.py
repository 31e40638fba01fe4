"""Random set-ups for the set-up check: right ones with mistakes in them, as set-up files and as entries of the form."""

import dataclasses
import random
from pathlib import Path

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core import airac
from lpv.decide.lines import straight_in_rows
from lpv.drill.base import base_case
from lpv.drill.case import Pick, with_setup, with_sides
from lpv.setup.file import SetupFile, read_text
from lpv.setup.radio import localizer_channels
from lpv.setup.records import ALTIMETER_RANGE, KINDS, LEVELS, NAMES, SOURCES

DOCS = Path(__file__).resolve().parents[1] / "docs"
APPROACHES = approach.read_all(DOCS / "approaches")
TYPES = aircraft.read_all(DOCS / "aircraft")
VOR_MHZ = (108.0, 112.3, 113.4, 115.95, 117.9)


def cases(count, seed="set-up"):
    """(set-up file, approach, type or None), the same on every run."""
    source = random.Random(seed)
    return [_case(source, number) for number in range(count)]


def _case(source, number):
    of, by = source.choice(APPROACHES), source.choice(TYPES)
    by = source.choice([by, by, by, staying(by)])
    cold_c = of.chart.cold_temperature_airport_c
    temperature = source.choice([None, cold_c, (cold_c or 0.0) - 8.0, round(source.uniform(-40.0, 40.0), 1)])
    case = base_case(of, by, Pick(f"case {number}"), temperature)
    for _ in range(source.choice([0, 1, 1, 2, 4])):
        case = with_sides(case, source.choice([NAMES, NAMES[:1], NAMES[1:]]), **_side_change(source, case, of, by))
    for _ in range(source.choice([0, 0, 1, 2])):
        case = with_setup(case, **_common_change(source, case))
    if case.setup.across_nm is None or case.setup.track_deg is None:
        case = with_setup(case, across_nm=None, track_deg=None)
    return file_of(case.setup, of, by), of, source.choice([by, by, by, None])


def staying(by):
    """The type, if its source selector survived the removal of power."""
    kept = tuple(dataclasses.replace(row, removed_by=tuple(
        word for word in row.removed_by if word not in ("removal of power", "landing"))) for row in by.sources)
    return dataclasses.replace(by, sources=kept)


def _side_change(source, case, of, by):
    """One thing that a side may have set instead."""
    other, setup, side = source.choice(APPROACHES).identity, case.setup, case.setup.left
    low, high = ALTIMETER_RANGE[setup.altimeter_unit]
    return source.choice([
        {"title": other.title, "channel": other.channel, "path_id": other.path_id},
        {"channel": source.randint(0, 99999)},
        {"path_id": side.path_id[:3] + source.choice("ABCZ09")},
        {"source": source.choice(SOURCES)},
        {"tuned_mhz": [source.choice(localizer_channels() + list(VOR_MHZ)) for _ in range(source.choice([1, 2]))]},
        {"course_deg": source.choice([0.0, 360.0, round(source.uniform(0.0, 360.0), 1)])},
        {"course_deg": round((case.expected.course_deg + source.uniform(-4.0, 4.0)) % 360.0, 1)},
        {"course_deg": setup.previous_course_deg},
        {"altimeter": round(setup.reported + source.choice([-0.02, -0.01, 0.01, 0.5]), 2)},
        {"altimeter": source.choice([low, high])},
        {"level": source.choice(LEVELS)},
        {"minimum_kind": source.choice(KINDS)},
        {"minimum_ft": float(source.choice([row.altitude_ft for row in straight_in_rows(of, by.type.category)]))},
        {"minimum_ft": side.minimum_ft + source.choice([-100.0, -1.0, 1.0, 40.0])},
        {"minimum_ft": float(source.randint(-1500, 20000))},
        {"missed_altitude_ft": source.choice([side.minimum_ft, of.chart.missed.altitude_ft, 30000.0, -20.0])},
    ])


def _common_change(source, case):
    """One thing that both sides have in common, and that may be otherwise."""
    setup = case.setup
    return source.choice([
        {"day": setup.day + source.choice([-28, -1, 27, 28, 300])},
        {"cycle": airac.cycle_ident(setup.day + source.choice([-28, 28]))},
        {"flying": source.choice(NAMES)},
        {"armed": False},
        {"across_nm": round(source.uniform(-12.0, 12.0), 2)},
        {"track_deg": round(source.uniform(0.0, 360.0), 1)},
        {"across_nm": None, "track_deg": None},
        {"previous_course_deg": None},
        {"temperature_c": round(source.uniform(-50.0, 60.0), 1)},
    ])


def file_of(setup, of, by) -> SetupFile:
    """A set-up as its file is read."""
    return read_text(text_of(setup, of.slug, by.slug), "case.toml")


def text_of(setup, approach_slug, aircraft_slug):
    """A set-up as the text of its file."""
    common = {
        "flying": setup.flying, "cycle": setup.cycle, "altimeter_unit": setup.altimeter_unit,
        "reported_altimeter": setup.reported, "temperature_c": setup.temperature_c, "armed": setup.armed,
        "across_nm": setup.across_nm, "track_deg": setup.track_deg, "previous_course_deg": setup.previous_course_deg,
        "name": "Random", "invented": True, "approach": approach_slug, "aircraft": aircraft_slug,
    }
    lines = ["[setup]", f"day = {airac.iso(setup.day)}", *_lines(common)]
    for side in setup.sides():
        lines += [f"[{side.name}]", *_lines({key: value for key, value in vars(side).items() if key != "name"})]
    return "\n".join(lines) + "\n"


def _lines(table):
    return [f"{key} = {_value(value)}" for key, value in table.items() if value is not None]


def _value(value):
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else repr(value)

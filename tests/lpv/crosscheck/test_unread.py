"""Every field of an approach file is compared, or listed as not compared: each is changed, and the findings watched."""

import dataclasses
import datetime
import tomllib
from itertools import islice

import pytest

from lpv.approach.record import Approach, read_text
from lpv.core import airac
from lpv.core.errors import DataError
from lpv.crosscheck.check import crosscheck
from lpv.crosscheck.unread import BOOKS, POSSIBLE, UNREAD
from lpv.fas.block import encode
from lpv.fas.layout import LAYOUT
from lpv.files.schema import entries
from lpv.files.toml_writer import toml_text
from lpv.geodesy import earth
from lpv_site.checks.mismatches import altered, base_text

BASES = ("zzak-rnav-09", "zzeg-rnp-24", "zzhc-rnav-33", "zzak-rnav-16", "kbtv-rnav-01", "khwd-rnav-28l")
TEXTS = {  # another value of a text, where its example would not do
    "identity.title": ["RNAV (GPS) RWY 36"], "identity.runway": ["36"], "chart.lights.name": ["ODALS", "SSALR"],
    "chart.missed.text": ["Climb to 9000 and hold."], "chart.minima.categories": ["AC", "B"],
    "chart.msa.centre": ["RW36", "ZZX"],
    "database.leg.sequence": ["999"], "database.leg.terminator": ["HM"], "database.leg.gnss": ["B"],
    "database.leg.fix": ["GULLY", "JRVIS"], "database.leg.qualifiers": ["PS"], "chart.fix.leg_from": ["BRYNA"],
}
VISIBILITIES = ("visibility_sm", "visibility_m", "rvr_ft", "rvr_m")
MAX_TRIED = 25  # changes of a field that should all lead to nothing
FOLLOWS = "chart.minima.kind"  # from the line: a file with another kind is refused
# Another way to write the two differences, read as these (tests/lpv/approach): a file with both is refused.
COORDINATES = {"database.segment.fpap_latitude_deg", "database.segment.fpap_longitude_deg"}


def by_fields():
    """The plain approach with its segment as fields by name, and with coded legs: straight ones and an arc."""
    tables = altered(base_text("zzak-rnav-09"), {})
    read = read_text(base_text("zzak-rnav-09"))
    fields = {row.name: getattr(read.segment, row.name) for row in LAYOUT}
    del tables["database"]["block"]
    tables["database"] |= {"segment": fields, "leg": legs(read)}
    return toml_text(tables)


def legs(read):
    """From BRYNA straight to SWELO, then a quarter of a right turn of 4 NM about a centre, then the final."""
    bryna, swelo, pfaf = read.chart.fixes[:3]
    start = swelo.latitude_deg, swelo.longitude_deg
    inbound = earth.inverse(bryna.latitude_deg, bryna.longitude_deg, *start).course_deg
    centre = earth.destination(*start, (inbound + 90.0) % 360.0, 4.0)
    end = earth.destination(*centre, (inbound + 0.0) % 360.0, 4.0)
    first = {"part": "transition", "transition": "BRYNA"}
    return [
        first | {"sequence": "010", "terminator": "IF", "fix": "BRYNA", "latitude": bryna.latitude_deg,
                 "longitude": bryna.longitude_deg},
        first | {"sequence": "020", "terminator": "TF", "fix": "SWELO", "latitude": start[0], "longitude": start[1],
                 "course_deg": 181.6, "distance_nm": 6.0},
        first | {"sequence": "030", "terminator": "RF", "fix": "OTHER", "latitude": end.latitude_deg,
                 "longitude": end.longitude_deg, "turn": "right", "radius_nm": 4.0, "centre": "ZZC",
                 "centre_latitude": centre.latitude_deg, "centre_longitude": centre.longitude_deg,
                 "distance_nm": 6.3},
        {"part": "final", "sequence": "020", "terminator": "TF", "fix": "GULLY", "latitude": pfaf.latitude_deg,
         "longitude": pfaf.longitude_deg, "altitude_ft": 2000, "altitude_rule": "at or above", "angle_deg": -3.0},
    ]


def leaves(record, place=""):
    """Every place of the schema that holds a value: (place, its entry)."""
    for key, (_, entry) in entries(record).items():
        here = f"{place}.{key}" if place else key
        if entry.record is not None and dataclasses.is_dataclass(entry.record):
            yield from leaves(entry.record, here)
        else:
            yield here, entry


LEAVES = {place: entry for place, entry in leaves(Approach) if place.partition(".")[0] not in BOOKS}


def others(place, entry, value):
    """Other values that the schema allows in a place, modest ones first."""
    if place == "database.block":
        return [encode(dataclasses.replace(read_text(base_text(BASES[0])).segment, hal_m=10.0)).hex()]
    if place == "database.path_point":
        return [[line.replace("F40050", "F10050") for line in value or []]]
    if entry.kind == "parsed":
        return ["2601"]
    if entry.kind == "day":
        return [value + datetime.timedelta(28)] if value else []
    if entry.kind == "flag":
        return [not value]
    if entry.kind == "text":
        return TEXTS.get(place, [entry.example or "Something else"])
    if entry.kind == "texts":
        return [["Something else."]]
    if entry.kind == "choice":
        return [word for word in entry.allowed if word != value]
    if entry.kind == "choices":
        return [[], *([word] for word in entry.allowed)]
    if isinstance(value, str):  # a latitude or longitude
        degrees, minutes, seconds = value.split()
        return [f"{degrees} {(int(minutes) + 2) % 60:02} {seconds}"]
    start = entry.low if value is None else value
    steps = [start + step * (entry.high - entry.low) for step in (0.02, -0.02, 0.1, 0.3, -0.3, 0.6)]
    steps += [entry.low, entry.high]
    if place.startswith("database.segment."):
        row = next(row for row in LAYOUT if place.endswith("." + row.name))
        return [int(number) if row.kind == "whole" else round(number * row.per_unit) / row.per_unit for number in steps
                if row.low <= number <= row.high]
    within = [number for number in steps if entry.low <= number <= entry.high]
    return [round(number) for number in within] if entry.kind == "whole" else [round(number, 1) for number in within]


def holders(tables, parts):
    """The tables in which a place's last part stands or could stand."""
    if not parts:
        return [tables]
    below = tables.get(parts[0])
    rows = below if isinstance(below, list) else [] if below is None else [below]
    return [holder for row in rows for holder in holders(row, parts[1:])]


def graded(text, day):
    return {(f.name(), f.grade) for f in crosscheck(read_text(text), day) if f.grade in ("stop", "resolve", "note")}


KNOWN = []
for text in [by_fields(), *map(base_text, BASES)]:
    flown_on = airac.effective_ordinal(tomllib.loads(text)["identity"]["cycle"]) + 5
    KNOWN.append((text, flown_on, graded(text, flown_on)))


def outcomes(place):
    """For each change of a place that the file may hold: whether it leads to a finding that was not there."""
    *parts, key = place.split(".")
    for text, day, known in KNOWN:
        for number, row in enumerate(holders(tomllib.loads(text), parts)):
            value = row.get(key)
            for other in [other for other in others(place, LEAVES[place], value) if other != value]:
                tables = tomllib.loads(text)
                holder = holders(tables, parts)[number]
                for name in VISIBILITIES if key in VISIBILITIES else ():
                    holder.pop(name, None)
                holder[key] = other
                try:
                    yield bool(graded(toml_text(tables), day) - known)
                except DataError:
                    continue


LISTED = POSSIBLE | UNREAD


def test_lists_name_schema_fields_once():
    assert set(BOOKS) <= {place.partition(".")[0] for place, _ in leaves(Approach)}
    assert set(LISTED) <= set(LEAVES)
    assert set(POSSIBLE).isdisjoint(UNREAD)
    assert all(LISTED.values())


def test_kind_not_following_from_line_refused():
    with pytest.raises(DataError, match="MDA on a line LPV"):
        read_text(base_text("zzak-rnav-09").replace('kind = "DA"', 'kind = "MDA"', 1))


@pytest.mark.parametrize("place", sorted(set(LEAVES) - set(LISTED) - {FOLLOWS} - COORDINATES))
def test_change_of_any_other_field_detected(place):
    assert any(outcomes(place)), f"no change of {place} is found: compare it, or list it in lpv.crosscheck.unread"


@pytest.mark.parametrize("place", sorted(POSSIBLE))
def test_only_impossible_values_detected(place):
    seen = set()
    for outcome in outcomes(place):
        seen.add(outcome)
        if seen == {True, False}:
            break
    assert seen == {True, False}, f"{place}: {seen}; every change found: compared; none found: unread"


@pytest.mark.parametrize("place", sorted(UNREAD))
def test_unread_field_change_undetected(place):
    results = list(islice(outcomes(place), MAX_TRIED))
    assert results
    assert not any(results), f"{place} is compared after all: take it off the list"

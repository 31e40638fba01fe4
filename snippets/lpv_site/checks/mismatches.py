"""Seeded mismatches: approaches altered in one place, and what the cross-check makes of each.

`tests/mismatches/*.toml` lists them; the approaches are those of the demo and, in `tests/mismatches/bases`, published
ones.  Each case names one alteration and its effect on the flight.  Pytest runs them, and the scoreboard prints them.

    [[mismatch]]
    id = "threshold-height-low"        # unique
    what = "Threshold height 95 m too low"
    base = "zzak-rnav-09"              # name of the approach's file
    effect = 312                       # size of the effect, in
    unit = "ft"                        # ft, m or deg; or words = "another runway" in place of both
    alter = { segment_by = { ltp_height_m = -95.0 } }
    grade = "stop"                     # of the most serious finding that is new; "missed" if there is none
    by = "threshold-height"            # one of the new findings of that grade

A case in `[[harmless]]` has no grade: nothing new to stop or resolve may come of it.  `alter` may hold several of:

    set         places of the file and their new values: { "chart.fix.GULLY.altitude_ft" = 2300 }
    remove      places of the file that are left out
    order       lists of tables and their names in another order
    segment     fields of the data block and their new values; the remainder is made anew
    segment_by  the same, as differences
    move        the whole segment, in along_m, across_m (right) and turned_deg about the LTP; fpap_m moves the FPAP
    record      fields of the path point record outside the segment, "" for a blank one
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, replace
from functools import cache
from pathlib import Path
from typing import Any

from lpv.approach.record import Approach, read_text
from lpv.core import airac
from lpv.core.errors import DataError, Fault
from lpv.core.findings import SEVERITY, Finding, worst
from lpv.core.units import M_PER_NM, degrees_360
from lpv.crosscheck.check import crosscheck
from lpv.fas import segment as fas_segment
from lpv.fas.block import FinalApproachSegment, encode, remainder_hex
from lpv.fas.layout import LAYOUT, STEPS_PER_DEG, nearest
from lpv.fas.path_point import PathPoint, write
from lpv.files.toml_writer import toml_text
from lpv.geodesy import earth

ROOT = Path(__file__).resolve().parents[3]
FOLDER = ROOT / "tests" / "mismatches"
BASES = (FOLDER / "bases", ROOT / "docs" / "approaches")
UNITS = ("ft", "m", "deg")
# What a mismatch may not have without being found: feet, metres, degrees.
MOST = {"ft": 50.0, "m": 50.0, "deg": 1.0}
MISSED = "missed"
DAY_OF_CYCLE = 5  # a case is flown on this day of the data cycle of its base
Tables = dict[str, Any]


@dataclass(frozen=True, kw_only=True)
class Case:
    """One alteration; grade and by are "" for a harmless one, effect is None where words say what it does."""

    id: str
    kind: str
    what: str
    base: str
    alter: Mapping[str, Any]
    effect: float | None = None
    unit: str = ""
    words: str = ""
    grade: str = ""
    by: str = ""

    @property
    def is_serious(self) -> bool:
        """Whether it must be found: it turns the flight elsewhere, by words or by more than MOST."""
        return self.effect is None or abs(self.effect) > MOST[self.unit]


@dataclass(frozen=True)
class Outcome:
    """What the cross-check found in a case that it does not find in its base, the most serious first."""

    case: Case
    findings: tuple[Finding, ...]

    @property
    def grade(self) -> str:
        """The most serious grade among them; "missed" if there are none."""
        return worst(list(self.findings)) if self.findings else MISSED

    @property
    def found_by(self) -> list[str]:
        """The names of the findings of that grade."""
        return [finding.name() for finding in self.findings if finding.grade == self.grade]


def cases(folder: Path = FOLDER) -> list[Case]:
    """Every case of every file in name order, harmless ones among them; DataError with every fault."""
    all_cases: list[Case] = []
    faults: list[Fault] = []
    for path in sorted(folder.glob("*.toml")):
        data = tomllib.loads(path.read_text("utf-8"))
        for list_name in ("mismatch", "harmless"):
            for row in data.get(list_name, []):
                made, wrong = _case(path.name, data.get("kind", path.stem), row, list_name == "harmless")
                all_cases, faults = all_cases + made, faults + wrong
    ids = [case.id for case in all_cases]
    faults += [Fault(FOLDER.name, name, "the same id twice", "one id, one case", "Rename one.")
               for name in sorted(set(ids)) if ids.count(name) > 1]
    if faults:
        raise DataError(faults)
    return all_cases


def _case(file: str, kind: str, row: Tables, harmless: bool) -> tuple[list[Case], list[Fault]]:
    known, key = {field.name for field in fields(Case)}, str(row.get("id", "?"))
    needed = {"id", "what", "base", "alter"} | (set() if harmless else {"grade"})
    wrong = [f"unknown {name}" for name in sorted(row.keys() - known)]
    wrong += [f"no {name}" for name in sorted(needed - row.keys())]
    sized = "effect" in row and row.get("unit") in UNITS
    if not harmless and sized == bool(row.get("words")):
        wrong.append("neither or both of an effect with its unit, and words")
    if wrong:
        return [], [Fault(file, key, "; ".join(wrong), "a case as the module says", "Correct it.")]
    return [Case(kind=kind, **{key: value for key, value in row.items() if key != "kind"})], []


def run(case: Case) -> Outcome:
    """The case's outcome; DataError where the altered file could not be read at all."""
    known = {_mark(finding) for finding in crosschecked(case.base)}
    altered = crosscheck(approach(case), _day(case.base))
    new = [finding for finding in altered if finding.grade != "ok" and _mark(finding) not in known]
    return Outcome(case, tuple(sorted(new, key=lambda finding: SEVERITY.index(finding.grade))))


@cache
def outcomes() -> tuple[Outcome, ...]:
    """Every case run once per process."""
    return tuple(run(case) for case in cases())


def _mark(finding: Finding) -> tuple[str, ...]:
    """What makes a finding another one than before: for one that compares nothing also what it shows."""
    shown = (finding.chart, finding.database) if finding.grade == "not compared" else ()
    return finding.name(), finding.grade, *shown


@cache
def crosschecked(base: str) -> tuple[Finding, ...]:
    """The findings about a base as it stands."""
    return tuple(crosscheck(read_text(base_text(base), f"{base}.toml"), _day(base)))


@cache
def base_text(base: str) -> str:
    """The text of a base's file; DataError if there is none."""
    for folder in BASES:
        if (path := folder / f"{base}.toml").is_file():
            return path.read_text("utf-8")
    allowed = "an approach of tests/mismatches/bases or of the demo"
    raise DataError([Fault(base, "base", "no such approach", allowed, "Correct the name.")])


def _day(base: str) -> int:
    """The day on which a base is flown."""
    cycle = tomllib.loads(base_text(base))["identity"]["cycle"]
    return airac.effective_ordinal(cycle) + DAY_OF_CYCLE


def approach(case: Case) -> Approach:
    """The altered approach, written and read as any other file; DataError with every fault."""
    return read_text(toml_text(altered(base_text(case.base), case.alter)), f"{case.base}.toml")


def altered(text: str, alter: Mapping[str, Any]) -> Tables:
    """The tables of a file with an alteration made in them; KeyError for a place that is not there."""
    tables = tomllib.loads(text)
    _alter_segment(tables, text, alter)
    for place, value in alter.get("set", {}).items():
        holder, key = _place(tables, place)
        holder[key] = value
    for place in alter.get("remove", ()):
        holder, key = _place(tables, place)
        del holder[key]
    for place, names in alter.get("order", {}).items():
        holder, key = _place(tables, place)
        holder[key] = [holder[key][_row(holder[key], name)] for name in names]
    return tables


def _place(tables: Any, place: str) -> tuple[Any, Any]:
    """(table or list, key or index) of a place such as "chart.fix.GULLY.altitude_ft"."""
    *parts, last = place.split(".")
    for part in parts:
        tables = tables[_row(tables, part)] if isinstance(tables, list) else tables[part]
    return tables, _row(tables, last) if isinstance(tables, list) else last


def _row(rows: list[Tables], name: str) -> int:
    """Index of a row by its name, its line of minima (with categories where there are several), or its number."""
    for index, row in enumerate(rows):
        names = (row.get("name"), row.get("line"), f"{row.get('line')} {row.get('categories')}", row.get("sequence"))
        if name in names:
            return index
    return int(name) - 1


def _alter_segment(tables: Tables, text: str, alter: Mapping[str, Any]) -> None:
    """The segment changed in the form in which the file holds it."""
    if not any(key in alter for key in ("segment", "segment_by", "move", "record")):
        return
    coded = read_text(text).held
    segment = coded.segment
    changes = dict(alter.get("segment", {}))
    for name, difference in alter.get("segment_by", {}).items():
        changes[name] = nearest(name, getattr(segment, name) + difference, segment.tch_unit)
    segment = moved(replace(segment, **changes), **alter.get("move", {}))
    database = tables["database"]
    if coded.point is not None:
        database["path_point"] = _record_lines(coded.point, segment, alter.get("record", {}))
    elif "block" in database:
        database["block"] = encode(segment).hex()
    else:
        database["segment"] = {row.name: getattr(segment, row.name) for row in LAYOUT}


def _record_lines(point: PathPoint, segment: FinalApproachSegment, changes: Mapping[str, Any]) -> list[str]:
    remainder = remainder_hex(encode(segment))
    values: dict[str, Any] = {name: None if value == "" else value for name, value in changes.items()}
    return write(replace(point, segment=segment, printed_remainder=remainder, **values)).splitlines()


def moved(
    segment: FinalApproachSegment, along_m: float = 0.0, across_m: float = 0.0, turned_deg: float = 0.0,
    fpap_m: float = 0.0,
) -> FinalApproachSegment:
    """The segment moved along its course and to its right, then turned about its LTP; fpap_m lengthens it."""
    if not any((along_m, across_m, turned_deg, fpap_m)):
        return segment
    course_deg = fas_segment.true_course_deg(segment)
    length_nm = earth.distance_nm(
        segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.fpap_latitude_deg, segment.fpap_longitude_deg)
    ltp = earth.destination(segment.ltp_latitude_deg, segment.ltp_longitude_deg, course_deg, along_m / M_PER_NM)
    ltp = earth.destination(*ltp, degrees_360(course_deg + 90.0), across_m / M_PER_NM)
    latitude, longitude = _on_grid(ltp.latitude_deg), _on_grid(ltp.longitude_deg)
    fpap = earth.destination(latitude, longitude, degrees_360(course_deg + turned_deg), length_nm + fpap_m / M_PER_NM)
    return replace(
        segment, ltp_latitude_deg=latitude, ltp_longitude_deg=longitude,
        delta_fpap_latitude_deg=_on_grid(fpap.latitude_deg - latitude),
        delta_fpap_longitude_deg=_on_grid(fpap.longitude_deg - longitude),
    )


def _on_grid(angle_deg: float) -> float:
    return round(angle_deg * STEPS_PER_DEG) / STEPS_PER_DEG


def counted(judged: Iterable[Outcome]) -> dict[str, int]:
    """How many outcomes there are of each grade, "missed" last."""
    grades = [outcome.grade for outcome in judged]
    return {grade: grades.count(grade) for grade in (*SEVERITY[:-1], MISSED)}

"""What changed between two approach files, field by field: the old cycle against the new one, graded.

Every field that either file may hold is compared, since the comparison walks the schema of the files
itself; the final approach segment is compared by its fields, in whatever form each file holds it.  Who filled
what, what is to be read again and the marks of records are about the file's making and are not compared.

    stop     another channel, path, fix or minimum: the old chart or database leads elsewhere
    resolve  anything else you fly or brief: brief it again
    note     dates, names and how the file was made
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from lpv.approach.record import Approach
from lpv.core.findings import SEVERITY
from lpv.core.text import exact_quantity, latitude, longitude
from lpv.fas.block import FinalApproachSegment, decode_unchecked, encode
from lpv.fas.layout import LAYOUT, Row
from lpv.files.schema import Entry, entries

MEANING = {
    "stop": "another channel, path, fix or minimum: do not fly anything from the old cycle",
    "resolve": "anything else you fly or brief: brief it again",
    "note": "dates and names: for information",
}
# Place -> grade, in the order in which changes are told; a place that is not here takes the grade of the
# longest beginning that is.
GRADES = {
    "identity.channel": "stop",
    "database.channel": "stop",
    "identity.path_id": "stop",
    "database.path_id": "stop",
    "segment.reference_path_id": "stop",
    "chart.course_deg": "stop",
    "chart.course_reference": "stop",
    "database.course_deg": "stop",
    "chart.glidepath_deg": "stop",
    "segment.gpa_deg": "stop",
    "chart.tch_ft": "stop",
    "segment.tch": "stop",
    "chart.minima": "stop",
    "chart.fix": "stop",
    "database.fix": "stop",
    "segment": "stop",
    "identity.airport": "stop",
    "identity.runway": "stop",
    "identity.level_of_service": "stop",
    "chart.missed": "resolve",
    "chart.minima.hat_ft": "resolve",
    "chart.minima.visibility_sm": "resolve",
    "chart.minima.visibility_m": "resolve",
    "chart.minima.rvr_ft": "resolve",
    "chart.minima.rvr_m": "resolve",
    "chart.fix.leg_course_deg": "resolve",
    "chart.fix.leg_distance_nm": "resolve",
    "chart.fix.leg_from": "resolve",
    "chart.fix.leg_computed": "note",
    "chart.fix.also": "resolve",
    "database.fix.course_deg": "resolve",
    "database.fix.distance_nm": "resolve",
    "chart": "resolve",
    "identity": "resolve",
    "runway": "resolve",
    "runway.source": "note",
    "database": "resolve",
    "chart.variation_year": "note",
    "chart.course_computed": "note",
    "filled": "note",
    "read_again": "note",
    "records": "note",
    "chart.notes": "resolve",
    "chart.to_be_filled": "note",
    "chart.from_coded_record": "note",
    "identity.airport_name": "note",
    "identity.invented": "note",
    "identity.cycle": "note",
    "database.cycle": "note",
    "database.effective": "note",
    "database.expires": "note",
    "database.form": "note",
    "database.remainder": "note",
}
PLACES = list(GRADES)
FROM_THE_CHART = "to be filled from the chart"
SEGMENT_FORMS = ("block", "segment", "path_point")
UNIT_SIGNS = {"deg": "°", "deg C": " °C"}


@dataclass(frozen=True)
class Change:
    """One difference.

    place: where it stands in the file, rows of tables left out: "chart.fix.altitude_ft"
    what:  what it is, in words
    about: the fix or line of minima that it is about, "" for the approach as a whole
    old, new: as text; "" where that file has nothing
    grade: "stop", "resolve" or "note" (MEANING)
    """

    place: str
    what: str
    about: str
    old: str
    new: str
    grade: str


def compare(old: Approach, new: Approach) -> list[Change]:
    """Every difference between two approaches, the most serious first, then in the order of GRADES; [] for none."""
    waiting = [f"chart.{key}" for key in new.chart.to_be_filled]
    changes = [
        *_record("identity", "", old.identity, new.identity),
        *(_waiting(change) if change.place in waiting else change
          for change in _record("chart", "", old.chart, new.chart)),
        *_record("database", "", old.database, new.database),
        *_field("runway", "", entries(Approach)["runway"][1], old.runway, new.runway),
        *_segments(old, new),
    ]
    return sorted(changes, key=lambda change: (SEVERITY.index(change.grade), PLACES.index(_beginning(change.place))))


def _waiting(change: Change) -> Change:
    """What the new file lacks because it is still to be filled: not gone from the chart, so at most to resolve."""
    return replace(change, new=FROM_THE_CHART, grade="resolve" if change.grade == "stop" else change.grade)


def grade_at(place: str) -> str:
    """The grade of a change at a place, such as "chart.fix.altitude_ft"; KeyError for a place in no table."""
    return GRADES[_beginning(place)]


def _beginning(place: str) -> str:
    while place not in GRADES:
        if "." not in place:
            raise KeyError(place)
        place = place.rpartition(".")[0]
    return place


ROWS = {"chart.minima": "line of minima", "chart.msa": "minimum safe altitude"}
SIDES = {"segment": ", in the data block", "database": ", in the database"}


def _change(place: str, what: str, about: str, old: str, new: str) -> Change:
    side = SIDES.get(place.partition(".")[0], "")
    return Change(place, what + side, about, old, new, grade_at(place))


def _record(place: str, about: str, old: Any, new: Any) -> Iterator[Change]:
    """Field by field, by the schema of the two records (of the same class)."""
    for key, (name, entry) in entries(type(new)).items():
        if place != "database" or key not in SEGMENT_FORMS:
            yield from _field(f"{place}.{key}", about, entry, getattr(old, name), getattr(new, name))


def _field(place: str, about: str, entry: Entry, old: Any, new: Any) -> Iterator[Change]:
    if old == new:
        return
    if entry.kind == "tables":
        yield from _rows(place, old, new)
    elif entry.kind in ("texts", "choices"):
        yield from (_change(place, entry.what, about, text, "") for text in old if text not in new)
        yield from (_change(place, entry.what, about, "", text) for text in new if text not in old)
        if sorted(old) == sorted(new):
            yield _change(place, "order of the " + entry.what, about, "; ".join(old), "; ".join(new))
    elif entry.kind == "table" and old is not None and new is not None:
        yield from _record(place, about, old, new)
    elif entry.kind == "table":
        yield _change(place, entry.what, about, _presence(old), _presence(new))
    else:
        before, after = _text(entry, old), _text(entry, new)
        if before == after:  # a difference beyond what is usually printed
            before, after = str(old), str(new)
        yield _change(place, entry.what, about, before, after)


def _rows(place: str, old: tuple[Any, ...], new: tuple[Any, ...]) -> Iterator[Change]:
    """Rows by name: gone, new, changed, and common ones in another order."""
    before, after = _named(old), _named(new)
    what = ROWS.get(place, "fix")
    for name in [name for name in before if name not in after]:
        yield _change(place, what, name, "there", "gone")
    for name in [name for name in after if name not in before]:
        yield _change(place, what, name, "not there", "new")
    both = [name for name in after if name in before]
    for name in both:
        yield from _record(place, name, before[name], after[name])
    order = [name for name in before if name in after]
    if order != both:
        yield _change(place, f"order, {what} by {what}", "", ", ".join(order), ", ".join(both))


def _named(rows: tuple[Any, ...]) -> dict[str, Any]:
    """Name -> row; one that stands there again is told from the others by its categories, else by a number."""
    names = [getattr(row, "name", "") or row.line for row in rows]
    named: dict[str, Any] = {}
    for name, row in zip(names, rows, strict=True):
        if names.count(name) > 1 and hasattr(row, "categories"):
            name = f"{name} {row.categories}"
        same = [key for key in named if key == name or key.startswith(f"{name} no ")]
        named[f"{name} no {len(same) + 1}" if same else name] = row
    return named


def _segments(old: Approach, new: Approach) -> Iterator[Change]:
    """The fields of the data block; the remainder itself only where no field explains it."""
    before, after = _as_encoded(old), _as_encoded(new)
    changed = [row for row in LAYOUT if getattr(before, row.name) != getattr(after, row.name)]
    for row in changed:
        texts = [_segment_text(row, segment) for segment in (before, after)]
        yield _change(f"segment.{row.name}", row.what, "", *texts)
    if old.held.form != new.held.form:
        yield _change("database.form", "form of the segment", "", old.held.form, new.held.form)
    if old.held.stored != new.held.stored and not changed:
        yield _change("database.remainder", "remainder, of the same fields", "", old.held.stored or "none",
                      new.held.stored or "none")


def _as_encoded(approach: Approach) -> FinalApproachSegment:
    """The segment in whole steps of the block, so that two ways of writing one number are no change."""
    return decode_unchecked(encode(approach.segment).hex())


def _segment_text(row: Row, segment: FinalApproachSegment) -> str:
    value = getattr(segment, row.name)
    if row.name == "ltp_latitude_deg":
        return latitude(value, 0.0001)
    if row.name == "ltp_longitude_deg":
        return longitude(value, 0.0001)
    return _text(Entry("number", row.what, segment.tch_unit if row.name == "tch" else row.unit), value)


def _presence(value: Any) -> str:
    return "none" if value is None else "there"


def _text(entry: Entry, value: Any) -> str:
    """A value with its unit, as a reader writes it; "none" for nothing."""
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return value.isoformat()
    if entry.kind == "latitude":
        return latitude(value, 0.01)
    if entry.kind == "longitude":
        return longitude(value, 0.01)
    if isinstance(value, (int, float)):
        return exact_quantity(value, entry.unit)
    return str(value) or "none"

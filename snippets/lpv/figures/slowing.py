"""How a type slows down, in a line of text: written from its file, kept in a field that no dial holds, read here.

Records follow each other, a semicolon between them, a bar between their cells; drag is speed/deceleration, a comma
between the rows:

    spool-up s|speed brake kt/s, 0 for none|its lowest height ft|first speed kt
    drag before the first step
    what a step sets|NM before the PFAF|speed kt, "+5" over VREF|limit kt|takes s|drag once it is set
"""

from lpv.core.errors import DomainError
from lpv.forms.fields import Field, read_decimal, shown_text
from lpv.intercept.schedule import Slowed
from lpv.motion.energy import Step

MAX_STEPS, MAX_LETTERS, MAX_ROWS = 8, 24, 12
MOST = 1500
ANY_VREF_KT = 130.0
_read = []  # type: list[tuple[str, tuple[Slowed, list[float | None]]]]
"""The text read last: a dial asks about the same one again and again."""
HINT = "steps of a schedule, as the handbook writes them"
EXAMPLE = (
    "6|0.6|1000|220;150/0.7,220/1.0;Flaps half|4|170|200|6|140/1.1,180/1.4;"
    "Gear down|1.5|160|190|8|135/1.5,170/1.9;Flaps full|0.2|+5|175|6|120/1.7,170/2.3"
)


class Slowing(Field):
    """How a type slows down, in one text; it is set by choosing an aircraft, and goes along in a link."""

    kind = "hidden"
    hint = HINT
    longest = MOST

    def read(self, text: str) -> str:
        slowed(text, ANY_VREF_KT)
        return text

    def show(self, value: "float | str") -> str:
        return ", ".join([record.split("|")[0] for record in str(value).split(";")[2:]])


def slowed(text: str, vref_kt: float) -> Slowed:
    """How a type slows down that weighs what gives this VREF; DomainError for a text that does not say it."""
    if not _read or _read[0][0] != text:
        parsed = _parsed(text)
        _read.clear()
        _read.append((text, parsed))
    read, over_vref = _read[0][1]
    steps = [
        step if over_kt is None else Step(step.begins_nm, vref_kt + over_kt, step.limit_kt, step.takes_s, step.rows)
        for step, over_kt in zip(read.steps, over_vref)]  # noqa: B905
    return Slowed(read.labels, steps, read.first_kt, read.rows, read.spool_up_s, read.brake_kt_per_s,
                  read.brake_lowest_ft)


def _parsed(text: str) -> "tuple[Slowed, list[float | None]]":
    """What a text says for any VREF, and which of its target speeds lie how far over VREF."""
    records = text.split(";")
    if not 3 <= len(records) <= MAX_STEPS + 2:
        raise DomainError(f"Found {shown_text(text)}; allowed: {HINT}.")
    spool_up_s, brake_kt_per_s, lowest_ft, first_kt = _numbers(
        records[0], ((0.0, 15.0), (0.0, 3.0), (0.0, 10000.0), (60.0, 350.0)))
    labels = []  # type: list[str]
    steps = []  # type: list[Step]
    over_vref = []  # type: list[float | None]
    for record in records[2:]:
        cells = record.split("|")
        if len(cells) != 6 or not 1 <= len(cells[0]) <= MAX_LETTERS:
            raise DomainError(f"Found {shown_text(record)}; allowed: {HINT}.")
        before_nm = _number(cells[1], -10.0, 30.0 if not steps else steps[-1].begins_nm)
        over_kt = _number(cells[2], 0.0, 60.0) if cells[2][:1] == "+" else None
        target_kt = _number(cells[2], 60.0, 300.0) if over_kt is None else ANY_VREF_KT + over_kt
        over_vref.append(over_kt)
        limit_kt, takes_s = _number(cells[3], 60.0, 999.0), _number(cells[4], 0.0, 60.0)
        labels.append(cells[0])
        steps.append(Step(before_nm, target_kt, limit_kt, takes_s, _drag(cells[5])))
    return Slowed(labels, steps, first_kt, _drag(records[1]), spool_up_s, brake_kt_per_s, lowest_ft), over_vref


def _drag(text: str) -> "list[tuple[float, float]]":
    rows = []  # type: list[tuple[float, float]]
    for row in text.split(","):
        speed_kt, slows = _numbers(row.replace("/", "|"), ((50.0, 350.0), (0.1, 6.0)))
        if (rows and speed_kt <= rows[-1][0]) or len(rows) == MAX_ROWS:
            raise DomainError(f"Found {shown_text(row)}; allowed: {HINT}.")
        rows.append((speed_kt, slows))
    return rows


def _numbers(text: str, ranges: "tuple[tuple[float, float], ...]") -> "list[float]":
    cells = text.split("|")
    if len(cells) != len(ranges):
        raise DomainError(f"Found {shown_text(text)}; allowed: {HINT}.")
    return [_number(cells[place], ranges[place][0], ranges[place][1]) for place in range(len(cells))]


def _number(text: str, low: float, high: float) -> float:
    value = read_decimal(text, 4, HINT)
    if not low <= value <= high:
        raise DomainError(f"Found {shown_text(text)}; allowed: {HINT}.")
    return value

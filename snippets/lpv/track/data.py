"""The figures that a recorded flight is compared with, as texts: "key TAB text" lines that the browser hands on unread.

Those of an approach stand beside the ones of the set-up check (`lpv.setup.data`) and share what both need: airport,
title, level, elevations, minima, the temperature for additions.  A figure is handed over exactly.
"""

from lpv.core.errors import DomainError, shown
from lpv.decide.stabilised import Gate
from lpv.forms.fields import read_decimal
from lpv.setup.data import MINIMUM, MOST_DECIMALS, exact_text, texts_of
from lpv.track.against import LPV, Against, By, Final, Fix
from lpv.track.records import is_digits

FINAL = ("ltp_latitude_deg", "ltp_longitude_deg", "ltp_height_m", "course_deg", "gpa_deg", "tch_ft", "width_ft",
         "garp_ft")
LIMITS = ("slowest_kt", "fastest_kt", "sink_rate_fpm", "lateral_dots", "vertical_dots", "bank_deg")
FINAL_KEY, FIX, GATE = "final ", "fix ", "gate "
NONE = "-"
LONGEST = 150  # characters of a figure
MOST = 99  # fixes, minima and gates of one file
AGAIN = "Load the page again."


def whole_text(value: float) -> str:
    """A number as a decimal one, else as a fraction of whole numbers, so that nothing of it is lost.

    Domain: 0, and 1e-20 to 1e9 in size.
    """
    try:
        return exact_text(value)
    except DomainError:
        above, below = value.as_integer_ratio()
        return f"{above}/{below}"


def figure_of(text: str) -> float:
    """The number that `whole_text` wrote; DomainError for any other text."""
    above, found, below = text.partition("/")
    if not found:
        return read_decimal(text, MOST_DECIMALS, "a figure of the approach or the type")
    digits = above[1:] if above[:1] == "-" else above
    if not is_digits(digits) or not is_digits(below) or len(text) > LONGEST:
        raise DomainError(f"a figure: found {shown(text)}; allowed: a number. {AGAIN}")
    if not int(below):
        raise DomainError(f"a figure: found {shown(text)}; allowed: a number. {AGAIN}")
    return float(int(above)) / float(int(below))


def against_texts(approach: Against) -> "list[tuple[str, str]]":
    """An approach as (key, text), without what `lpv.setup.data.charted_texts` has."""
    rows = [("slug", approach.slug), ("rule", approach.rule), ("threshold_ft", whole_text(approach.threshold_ft))]
    rows += [(FINAL_KEY + key, whole_text(getattr(approach.final, key))) for key in FINAL]
    for number, fix in enumerate(approach.fixes, 1):
        altitude = NONE if fix.altitude_ft is None else whole_text(fix.altitude_ft)
        rows.append((FIX + str(number), " ".join([whole_text(fix.along_nm), altitude, fix.name])))
    return rows


def against_of(lines: str) -> Against:
    """An approach, from the lines of both; DomainError if they are no such lines."""
    texts = texts_of(lines)
    figures = [figure_of(text(texts, FINAL_KEY + key)) for key in FINAL]
    return Against(
        text(texts, "slug"), text(texts, "airport"), text(texts, "title"), text(texts, "best_level"),
        text(texts, "rule"), figure_of(text(texts, "airport_elevation_ft")), figure_of(text(texts, "threshold_ft")),
        figure_of(text(texts, "floor_from_ft")), figure_of(texts["cold_c"]) if "cold_c" in texts else None,
        Final(*figures), [_fix(row) for row in numbered(texts, FIX)],
        [(row[2], figure_of(row[3])) for row in _minima(texts) if row[0] == LPV],
    )


def by_texts(aircraft: By) -> "list[tuple[str, str]]":
    """A type as (key, text), without what `lpv.setup.data.flown_texts` has."""
    rows = [("slug", aircraft.slug)]
    for number, gate in enumerate(aircraft.gates, 1):
        limits = [getattr(gate, key) for key in LIMITS]
        parts = [NONE if limit is None else whole_text(limit) for limit in limits]
        rows.append((GATE + str(number), ";".join(
            [whole_text(gate.height_ft), gate.above] + parts + [",".join(gate.required), gate.name])))  # noqa: RUF005
    return rows


def by_of(lines: str) -> By:
    """A type, from the lines of both; DomainError if they are no such lines."""
    texts = texts_of(lines)
    return By(
        text(texts, "slug"), text(texts, "name"), text(texts, "category"),
        figure_of(text(texts, "lowest_da_above_tdze_ft")), [_gate(row) for row in numbered(texts, GATE)])


def numbered(texts: "dict[str, str]", key: str) -> "list[str]":
    """The texts of key1, key2 and so on."""
    return [texts[key + str(number)] for number in range(1, MOST + 1) if key + str(number) in texts]


def text(texts: "dict[str, str]", key: str) -> str:
    """The text of a key; DomainError without one."""
    if not texts.get(key, ""):
        raise DomainError(f"{key}: found nothing; allowed: a text. {AGAIN}")
    return texts[key]


def _minima(texts: "dict[str, str]") -> "list[list[str]]":
    rows = [row.split(" ") for row in numbered(texts, MINIMUM)]
    if [row for row in rows if len(row) != 4]:
        raise DomainError(f"minimum: found a line that is none; allowed: line, kind, categories and altitude. {AGAIN}")
    return rows


def _fix(row: str) -> Fix:
    parts = row.split(" ", 2)
    if len(parts) != 3:
        raise DomainError(f"fix: found {shown(row)}; allowed: distance, altitude and name. {AGAIN}")
    return Fix(parts[2], None if parts[1] == NONE else figure_of(parts[1]), figure_of(parts[0]))


def _gate(row: str) -> Gate:
    parts = row.split(";", len(LIMITS) + 3)
    if len(parts) != len(LIMITS) + 4:
        raise DomainError(f"gate: found {shown(row)}; allowed: height, limits, what is done and name. {AGAIN}")
    slow, fast, sink, lateral, vertical, bank = [None if part == NONE else figure_of(part) for part in parts[2:-2]]
    required = tuple([name for name in parts[-2].split(",") if name])
    return Gate(parts[-1], figure_of(parts[0]), parts[1], slow, fast, sink, lateral, vertical, bank, required)

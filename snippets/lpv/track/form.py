"""A recording picked on the phone: the file's text and the entries in as JSON, the whole debrief out as lines.

The page calls `begin`, then `step` until an answer comes; each call does a little, so that the page stays awake.

begin(approach, aircraft, entries, columns, name, size, head, text, digits): the JSON forms of the approach ("" if none
    is chosen) and of the type ("" for any); the texts of the entries by key, and the columns that the reader assigned
    by our names ("" for none), as JSON; the file's name, its size in bytes, its first bytes as numbers of two
    hexadecimal digits, its text, "" if it is no UTF-8, and the beginning of the hash that the page has of the
    approach's figures, None where no page is asking
columns(name, text): the columns of a table: "column TAB name" for each, "guess TAB ours TAB theirs" for what they may
    be; "known" where they have our names, and nothing for a file that is no table
Out: "error TAB key TAB words" for entries; "working TAB words"; or the answer, with
     "fault TAB place TAB found TAB allowed TAB action" for each fault of the file.
"""

import json

from lpv.air.atmosphere import hpa_from_inches
from lpv.core.errors import DataError, DomainError
from lpv.core.record import record
from lpv.facts import value
from lpv.forms.fields import Choice, Field
from lpv.forms.form import read_field
from lpv.forms.listed import OTHER_EDITION, is_listed
from lpv.setup.form_fields import Altimeter, Figure
from lpv.setup.records import UNITS
from lpv.track.analysis import Analysis
from lpv.track.readers import (
    COMPRESSED,
    JSON,
    TABLES,
    compressed,
    ending_of,
    kind_of,
    no_text,
    reader_of,
    too_large,
)
from lpv.track.records import (
    IN_WORDS,
    JOINED,
    RECEIVERS,
    REFERENCES,
    Conditions,
    printable,
    refuse,
)
from lpv.track.report import lines_of, page_lines
from lpv.track.tables import ALTITUDES, OURS, POSITION, TIMES, guess, header_of, json_table
from lpv.track.target import LEVEL_NAMES, LEVELS, Target

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from lpv.track.readers import AnyReader

AS_NAMED = "as the file says"
BEST = "the best one of the approach"
FIELDS = (
    Choice("level", "Level flown", tuple([("", BEST)] + [(key, LEVELS[key][1]) for key in LEVEL_NAMES]), ""),
    Choice("altitude", "Altitudes count", tuple([("", AS_NAMED)] + [(key, IN_WORDS[key]) for key in REFERENCES]), ""),
    Choice("joined", "Joined", ((JOINED[0], "by the procedure"), (JOINED[1], "on vectors")), JOINED[0]),
    Figure("temperature_c", "Temperature", "deg C", -60, 50, 1),
    Figure("minimum_ft", "Minimum used", "ft", -1500, 20000),
    Figure("number", "Which approach", "", 1, 99),
    Choice("altimeter_unit", "Altimeter in", ((UNITS[1], UNITS[1]), (UNITS[0], UNITS[0])), UNITS[1]),
    Altimeter("setting", "Altimeter setting"),
    Choice("receiver", "Receiver", ((RECEIVERS[0], "not known, or without SBAS"), (RECEIVERS[1], "with SBAS")),
           RECEIVERS[0]),
    Figure("limit_dots", "Limit of deviation", "dots", 0.1, 2, 2),
    Figure("limit_fpm", "Limit of descent", "ft/min", 300, 3000),
)  # type: tuple[Field, ...]
# What stands under an entry that may stay empty.
HINTS = {
    "temperature_c": "at the airport, else standard", "minimum_ft": "else the chart's", "number": "else the last",
    "setting": "for pressure altitudes", "limit_dots": "else one dot", "limit_fpm": "else 1000 ft/min",
}


class Entries:
    """The entries, read: `altitude`, `given`, and `errors` as (key, words) of those that cannot be used."""

    def __init__(self, entries: str) -> None:
        texts = json.loads(entries)
        self.errors: list[tuple[str, str]] = []
        unit = texts.get("altimeter_unit", "")
        answers = {field.key: self._read(field, texts.get(field.key, ""), unit) for field in FIELDS}
        setting = answers["setting"]
        if setting is not None and unit != "hPa":
            setting = hpa_from_inches(float(setting))
        number = answers["number"]
        self.altitude = str(answers["altitude"] or "")
        self.given = Conditions(
            _float(answers["temperature_c"]), _float(setting), str(answers["joined"] or JOINED[0]),
            _float(answers["minimum_ft"]), None if number is None else int(number),
            str(answers["receiver"] or RECEIVERS[0]), str(answers["level"] or ""), _float(answers["limit_dots"]),
            _float(answers["limit_fpm"]))

    def _read(self, field: Field, text: str, unit: str) -> "float | str | None":
        if not text.strip():
            return None
        try:
            return read_field(field, text, unit)
        except DomainError as error:
            self.errors.append((field.key, str(error)))
            return None


def _float(value: "float | str | None") -> "float | None":
    return None if value is None else float(value)


MAX_MB = value("recording_phone_mb")
MAX_ROWS = int(value("recording_phone_rows"))
MAX_LINES = 5 * MAX_ROWS
LONGEST_NAME = 60
ROWS = 200  # of the file read in one piece
REFUSED = "The file is not read."
PARSE = "parse"


class Job:
    """One file against one approach."""

    def __init__(self, target: Target, entries: Entries, reader: "AnyReader") -> None:
        self.target, self.entries, self.reader = target, entries, reader
        self.analysis: Analysis | None = None

    def step(self) -> str:
        """One piece of the work: "working" with what is done, or the answer."""
        if self.analysis is None:
            if not self.reader.read(ROWS):
                self.analysis = Analysis(self.reader.recording(), self.target, self.entries.given)
        elif self.analysis.debrief is not None:
            return page_lines(self.analysis.debrief)
        else:
            self.analysis.step()
        return lines_of([["working", self.words()]])

    def words(self) -> str:
        """What is being done."""
        if self.analysis is None:
            return f"Reading: {self.reader.count} samples."
        return f"Working: {self.analysis.done} of {len(self.analysis.recording.readings)} samples."


JOBS: "list[Job]" = []  # the one that runs


def check(approach: str, entries: str) -> str:
    """What is wrong about the entries, as lines; and what to do next."""
    form = Entries(entries)
    rows = [["error", key, words] for key, words in form.errors]
    if not approach:
        rows.append(["error", "approach", "Choose an approach."])
    ready = "Then choose the file and press Read it." if rows else "Choose the file and press Read it."
    rows.append(["sentence", f"Correct what is marked. {ready}" if form.errors else ready])
    return lines_of(rows)


def begin(
    approach: str, aircraft: str, entries: str, columns: str, name: str, size: str, head: str, text: str,
    digits: "str | None" = None,
) -> str:
    """Take a file; the first lines of the answer (see above)."""
    JOBS.clear()
    if approach and digits is not None and not is_listed(approach, digits):
        return lines_of([["error", "approach", OTHER_EDITION], ["sentence", REFUSED]])
    name = shown_name(name)
    try:
        entered = Entries(entries)
        if entered.errors or not approach:
            return check(approach, entries)
        target = target_of(approach, aircraft, entered.given)
        altitude = _refused(name, size, head, text, entered.altitude)
        reader = reader_of(text, name, altitude, json.loads(columns) if columns else None, MAX_ROWS)
        JOBS.append(Job(target, entered, reader))
        return job_line(JOBS[0])
    except (DataError, DomainError) as error:
        return failed(error)


def columns(name: str, text: str) -> str:
    """The columns of a table (see above), for the page to let its reader assign them."""
    names = columns_of(name, text)
    if not names:
        return ""
    if [name for name in names if name in TIMES] and not [name for name in POSITION if name not in names] and (
            [name for name in names if name in ALTITUDES]):
        return lines_of([["known"]])
    guesses = guess(names)
    return lines_of([["column", name] for name in names] + [
        ["guess", ours, guesses[ours]] for ours in OURS if ours in guesses])


def columns_of(name: str, text: str) -> "list[str]":
    """The names of the columns in a table; [] for a file that is none."""
    kind = ending_of(name)
    try:
        return json_table(text, name).names if kind == JSON else header_of(text) if kind in TABLES else []
    except DataError:
        return []


def target_of(approach: str, aircraft: str, conditions: Conditions) -> Target:
    """The approach and the type from their JSON forms; DomainError for a text that is none."""
    records = [_record(approach), _record(aircraft) if aircraft else None]
    return Target(records[0], records[1], conditions.level, conditions.joined == JOINED[1])


def _record(text: str) -> "Any":
    try:
        return record(text)
    except ValueError as error:
        raise DomainError(f"record: {error}. Load the page again.") from None


def shown_name(name: str) -> str:
    """A file's name as one short line; what is cut away is cut out of its middle, so that the ending stays."""
    if len(name) > LONGEST_NAME:
        name = name[: LONGEST_NAME - 11] + "..." + name[-8:]
    return printable(name)


def _refused(name: str, size: str, head: str, text: str, altitude: str) -> str:
    """What the altitudes count from, "" where the file says it; DataError for a file that is not read."""
    if not name:
        raise DomainError("Choose a file first.")
    if int(size) > MAX_MB * 1e6:
        raise too_large(name, MAX_MB)
    first = bytes([int(pair, 16) for pair in head.split(" ") if pair])
    if [sign for sign in COMPRESSED if first[: len(sign)] == sign]:
        raise compressed(name)
    if int(size) and (not text or "\0" in text):
        raise no_text(name)
    if text.count("\n") > MAX_LINES:
        raise refuse(name, f"more than {MAX_LINES} lines", f"at most {MAX_LINES}", "Cut the approach out.")
    kind_of(name, altitude)
    return altitude


def job_line(job: Job) -> str:
    """What is being done, as a line."""
    return lines_of([["working", job.words()]])


def step() -> str:
    """The next piece: "working" with what is done, or the answer."""
    if not JOBS:
        return failed(DomainError("No file is being read."))
    try:
        answer = JOBS[0].step()
    except (DataError, DomainError) as error:
        JOBS.clear()
        return failed(error)
    if not answer.startswith("working\t"):
        JOBS.clear()
    return answer


def failed(error: "DataError | DomainError") -> str:
    """Why nothing is told, as lines."""
    if isinstance(error, DataError):
        return lines_of([["sentence", REFUSED]] + [
            ["fault", fault.key, fault.found, fault.allowed, fault.action] for fault in error.faults])
    return lines_of([["sentence", str(error)]])

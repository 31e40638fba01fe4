"""A recording picked on the phone: the file's text and the entries in as JSON, the whole debrief out as lines.

The page calls `begin`, then `step` until an answer comes; each call does a little, so that the page stays awake.

begin(approach, aircraft, entries, name, size, head, text): the JSON forms of the approach ("" if none is chosen) and
    of the type ("" for any); the texts of the entries by key, as JSON; the file's name, its size in bytes, its first
    bytes as numbers of two hexadecimal digits, and its text, "" if it is no UTF-8
points(lines): the track points of a GPX file: "seg", "pt TAB line TAB lat TAB lon TAB ele TAB time",
    "other TAB name TAB count"; "xml TAB line", "root TAB name" or "deep" for what is no such file
Out: "error TAB key TAB words" for entries; "parse" where the browser must parse the text as XML; "working TAB words";
     or the answer, with "fault TAB place TAB found TAB allowed TAB action" for each fault of the file.
"""

import json

from lpv.air.atmosphere import hpa_from_inches
from lpv.core.errors import DataError, DomainError
from lpv.core.record import record
from lpv.facts import value
from lpv.forms.fields import Choice, Field
from lpv.forms.form import MOST_CHARACTERS
from lpv.setup.form_fields import Altimeter, Figure
from lpv.setup.records import UNITS
from lpv.track.analysis import Analysis
from lpv.track.readers import COMPRESSED, CSV, CsvReader, compressed, kind_of, no_text, too_large
from lpv.track.records import (
    IN_WORDS,
    JOINED,
    RECEIVERS,
    REFERENCES,
    Conditions,
    Recording,
    is_digits,
    printable,
    refuse,
)
from lpv.track.report import lines_of, page_lines
from lpv.track.target import LEVEL_NAMES, LEVELS, Target
from lpv.track.trackpoints import Trackpoints, guard

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

AS_NAMED = "as the column's name says (CSV)"
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
        found = {field.key: self._read(field, texts.get(field.key, ""), unit) for field in FIELDS}
        setting = found["setting"]
        if setting is not None and unit != "hPa":
            setting = hpa_from_inches(float(setting))
        number = found["number"]
        self.altitude = str(found["altitude"] or "")
        self.given = Conditions(
            _float(found["temperature_c"]), _float(setting), str(found["joined"] or JOINED[0]),
            _float(found["minimum_ft"]), None if number is None else int(number),
            str(found["receiver"] or RECEIVERS[0]), str(found["level"] or ""), _float(found["limit_dots"]),
            _float(found["limit_fpm"]))

    def _read(self, field: Field, text: str, unit: str) -> "float | str | None":
        if not text.strip():
            return None
        try:
            if len(text) > MOST_CHARACTERS:
                raise DomainError(f"Found {len(text)} characters; allowed: {MOST_CHARACTERS}.")
            return field.read_in(unit, text) if isinstance(field, Altimeter) and unit in UNITS else field.read(text)
        except DomainError as error:
            self.errors.append((field.key, str(error)))
            return None


def _float(value: "float | str | None") -> "float | None":
    return None if value is None else float(value)


MOST_MB = value("recording_phone_mb")
MOST_ROWS = int(value("recording_phone_rows"))
MOST_LINES = 5 * MOST_ROWS
LONGEST_NAME = 60
ROWS = 200  # of the file read in one piece
REFUSED = "The file is not read."
PARSE = "parse"


class Job:
    """One file against one approach."""

    def __init__(self, target: Target, entries: Entries, name: str) -> None:
        self.target, self.entries, self.name = target, entries, name
        self.table: CsvReader | None = None
        self.track: Trackpoints | None = None
        self.rows: list[str] = []
        self.at = 0
        self.analysis: Analysis | None = None

    def step(self) -> str:
        """One piece of the work: "working" with what is done, or the answer."""
        if self.analysis is None:
            self._read()
        elif self.analysis.debrief is not None:
            return page_lines(self.analysis.debrief)
        else:
            self.analysis.step()
        return lines_of([["working", self.words()]])

    def words(self) -> str:
        """What is being done."""
        if self.analysis is None:
            return f"Reading: {self.at} samples."
        return f"Working: {self.analysis.done} of {len(self.analysis.recording.readings)} samples."

    def _read(self) -> None:
        if self.table is not None:
            more = self.table.read(ROWS)
            self.at = self.table.count
            if not more:
                self._analyse(self.table.recording())
        elif self.track is not None:
            for row in self.rows[self.at : self.at + ROWS]:
                take(self.track, row.split("\t"))
            self.at += ROWS
            if self.at >= len(self.rows):
                self._analyse(self.track.recording())

    def _analyse(self, recording: Recording) -> None:
        self.analysis = Analysis(recording, self.target, self.entries.given)


def take(track: Trackpoints, parts: "list[str]") -> None:
    """One line of what the browser found in a GPX file."""
    if parts[0] == "seg":
        track.begin()
    elif parts[0] == "other" and len(parts) == 3 and is_digits(parts[2]):
        track.other(parts[1], int(parts[2]))
    elif parts[0] in ("xml", "root", "deep"):
        track.refuse(parts[0], parts[1] if len(parts) > 1 else "")
    elif parts[0] == "pt" and len(parts) == 6 and is_digits(parts[1]) and not track.full:
        if track.is_full():
            track.refuse_more(int(parts[1]))
        else:
            track.take(int(parts[1]), parts[2], parts[3], parts[4], parts[5])


JOBS: "list[Job]" = []  # the one that runs


def check(approach: str, entries: str) -> str:
    """What is wrong about the entries, as lines; and what to do next."""
    found = Entries(entries)
    rows = [["error", key, words] for key, words in found.errors]
    if not approach:
        rows.append(["error", "approach", "Choose an approach."])
    ready = "Then choose the file and press Read it." if rows else "Choose the file and press Read it."
    rows.append(["sentence", f"Correct what is marked. {ready}" if found.errors else ready])
    return lines_of(rows)


def begin(approach: str, aircraft: str, entries: str, name: str, size: str, head: str, text: str) -> str:
    """Take a file; the first lines of the answer (see above)."""
    JOBS.clear()
    name = shown_name(name)
    try:
        entered = Entries(entries)
        if entered.errors or not approach:
            return check(approach, entries)
        job = Job(target_of(approach, aircraft, entered.given), entered, name)
        kind = _refused(name, size, head, text, entered.altitude)
        JOBS.append(job)
        if kind == CSV:
            job.table = CsvReader(text, name, MOST_ROWS)
            return job_line(job)
        guard(text, name)
        job.track = Trackpoints(name, entered.altitude, MOST_ROWS)
        return PARSE
    except (DataError, DomainError) as error:
        return failed(error)


def target_of(approach: str, aircraft: str, given: Conditions) -> Target:
    """The approach and the type from their JSON forms; DomainError for a text that is none."""
    found = [_record(approach), _record(aircraft) if aircraft else None]
    return Target(found[0], found[1], given.level, given.joined == JOINED[1])


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
    """The kind of the file; DataError for one that is not read."""
    if not name:
        raise DomainError("Choose a file first: CSV or GPX.")
    if int(size) > MOST_MB * 1e6:
        raise too_large(name, MOST_MB)
    first = bytes([int(pair, 16) for pair in head.split(" ") if pair])
    if [sign for sign in COMPRESSED if first[: len(sign)] == sign]:
        raise compressed(name)
    if int(size) and (not text or "\0" in text):
        raise no_text(name)
    if text.count("\n") > MOST_LINES:
        raise refuse(name, f"more than {MOST_LINES} lines", f"at most {MOST_LINES}", "Cut the approach out.")
    return kind_of(name, altitude)


def points(lines: str) -> str:
    """Take the track points of the GPX file that `begin` asked to parse."""
    if not JOBS:
        return failed(DomainError("No file is being read."))
    JOBS[0].rows = lines.split("\n") if lines else []
    return job_line(JOBS[0])


def job_line(job: Job) -> str:
    """What is being done, as a line."""
    return lines_of([["working", job.words()]])


def step() -> str:
    """The next piece: "working" with what is done, or the answer."""
    if not JOBS:
        return failed(DomainError("No file is being read."))
    try:
        found = JOBS[0].step()
    except (DataError, DomainError) as error:
        JOBS.clear()
        return failed(error)
    if not found.startswith("working\t"):
        JOBS.clear()
    return found


def failed(error: "DataError | DomainError") -> str:
    """Why nothing is told, as lines."""
    if isinstance(error, DataError):
        return lines_of([["sentence", REFUSED]] + [
            ["fault", fault.key, fault.found, fault.allowed, fault.action] for fault in error.faults])
    return lines_of([["sentence", str(error)]])

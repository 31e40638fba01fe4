"""YUMA almanac files: read strictly, write byte for byte.

The week in the file counts modulo 1024; the full week is the one nearest to the week of use, which
the reader is told.  Line ends of any system are read.  An unhealthy satellite is no fault: it is
kept with its health, and `lpv.sbas.constellation.unhealthy` names it.
"""

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from lpv.core.errors import DataError, Fault, in_range, shown
from lpv.facts import value
from lpv.sbas.constellation import WEEK_S, Orbit

WEEK_ROLLOVER = 1024
HEADER = re.compile(r"\*{4,} *Week +(\d+) +almanac for +PRN-(\d+) *\*{4,}")
LABELS = (
    "ID", "Health", "Eccentricity", "Time of Applicability(s)", "Orbital Inclination(rad)",
    "Rate of Right Ascen(r/s)", "SQRT(A)  (m 1/2)", "Right Ascen at Week(rad)",
    "Argument of Perigee(rad)", "Mean Anom(rad)", "Af0(s)", "Af1(s/s)", "week",
)
ALSO_NAMED = {"Right Ascen at TOA(rad)": "Right Ascen at Week(rad)", "SQRT(A) (m 1/2)": "SQRT(A)  (m 1/2)"}
START = {"Time of Applicability(s)": 27, "week": 29}  # column of the value, 28 elsewhere
WHOLE = ("ID", "Health", "week")
AGAIN = "Fetch the almanac again."
ANGLE = (-2.0 * math.pi, 2.0 * math.pi)


def _limits() -> dict[str, tuple[float, float]]:
    return {
        "ID": (1, 210),
        "Health": (0, 255),
        "Eccentricity": (0.0, value("almanac_eccentricity_highest")),
        "Time of Applicability(s)": (0.0, value("almanac_time_highest_s")),
        "Orbital Inclination(rad)": (0.0, math.pi / 2.0),
        "Rate of Right Ascen(r/s)": (-1e-7, 1e-7),
        "SQRT(A)  (m 1/2)": (value("almanac_root_axis_lowest"), value("almanac_root_axis_highest")),
        "Right Ascen at Week(rad)": ANGLE,
        "Argument of Perigee(rad)": ANGLE,
        "Mean Anom(rad)": ANGLE,
        "Af0(s)": (-0.01, 0.01),
        "Af1(s/s)": (-1e-7, 1e-7),
        "week": (0, WEEK_ROLLOVER - 1),
    }


@dataclass
class _Entry:
    """One satellite's part of the file while it is read; once one fault is noted it is damaged."""

    line: int
    week: int
    prn: int
    damaged: bool = False
    values: dict[str, float] = field(default_factory=dict)

    @property
    def key(self) -> str:
        return f"PRN-{self.prn:02d} (line {self.line})"


def full_week(week_modulo: int, near_week: int) -> int:
    """The full GPS week nearest to `near_week` (0 to 9999) whose last ten bits are `week_modulo` (0 to 1023)."""
    in_range("week modulo 1024", week_modulo, 0, WEEK_ROLLOVER - 1)
    in_range("week of use", near_week, 0, 9999)
    rolls = round((near_week - week_modulo) / WEEK_ROLLOVER)
    return week_modulo + WEEK_ROLLOVER * max(0, rolls)


def read_yuma(text: str, file: str, week_of_use: int) -> tuple[Orbit, ...]:
    """The satellites of a YUMA almanac in file order, named "PRN 01".

    week_of_use is the full GPS week (2086, not 38; 0 to 9999) for which the almanac is wanted; an almanac further
    away than the fact almanac_age_highest_weeks is refused.  DataError with every fault in the file.
    """
    in_range("week of use", week_of_use, 0, 9999)
    faults: list[Fault] = []
    entries = _entries(text, file, faults)
    if not entries and not faults:
        faults.append(Fault(file, "", "no satellite", "a YUMA almanac", AGAIN))
    for entry in entries:
        faults += _missing_faults(entry, file)
        faults += [] if entry.damaged else _header_faults(entry, file)
    faults += _age_faults(entries, file, week_of_use)
    faults += _double_faults(entries, file)
    if faults:
        raise DataError(faults)
    return tuple(_orbit(entry, week_of_use) for entry in entries)


def _entries(text: str, file: str, faults: list[Fault]) -> list[_Entry]:
    """The satellites with a readable header; what has none is one fault and is passed over."""
    entries: list[_Entry] = []
    headless = _Entry(0, -1, -1)
    entry = headless
    for number, line in enumerate(text.splitlines(), 1):
        if header := HEADER.fullmatch(line.strip()):
            entry = _Entry(number, int(header[1]), int(header[2]))
            entries.append(entry)
        elif line.startswith("*") or (line.strip() and entry is headless and not headless.damaged):
            allowed = "******** Week 38 almanac for PRN-01 ******** at the head of each satellite"
            faults.append(Fault(file, f"line {number}", shown(line.strip()), allowed, AGAIN))
            entry, headless.damaged = headless, True
        elif line.strip() and entry is not headless:
            _take_line(entry, line, f"line {number}", file, faults)
    return entries


def _take_line(entry: _Entry, line: str, key: str, file: str, faults: list[Fault]) -> None:
    label, _, text = line.rpartition(":")
    label = ALSO_NAMED.get(label.strip(), label.strip())
    if label in LABELS and label not in entry.values:
        entry.values[label] = _number(entry, label, text.strip(), f"{entry.key}, {key}", file, faults)
    elif not entry.damaged:
        entry.damaged = True
        actual = f"{label} twice" if label in LABELS else shown(line.strip())
        faults.append(Fault(file, f"{entry.key}, {key}", actual, "the 13 values of an almanac, once each", AGAIN))


def _number(entry: _Entry, label: str, text: str, key: str, file: str, faults: list[Fault]) -> float:
    low, high = _limits()[label]
    pattern = r"\d+" if label in WHOLE else r"[+-]?\d+\.\d+([Ee][+-]?\d+)?"
    if re.fullmatch(pattern, text, re.ASCII) and low <= float(text) <= high:
        return float(text)
    entry.damaged = True
    allowed = f"{'a whole number' if label in WHOLE else 'a number'} from {low:.10g} to {high:.10g}"
    faults.append(Fault(file, f"{key}, {label}", shown(text), allowed, AGAIN))
    return low


def _missing_faults(entry: _Entry, file: str) -> Iterator[Fault]:
    if missing := [label for label in LABELS if label not in entry.values]:
        entry.damaged = True
        yield Fault(file, entry.key, f"no {', '.join(missing)}", "all 13 values", f"The file is cut. {AGAIN}")


def _header_faults(entry: _Entry, file: str) -> Iterator[Fault]:
    for label, header in (("ID", entry.prn), ("week", entry.week)):
        if entry.values[label] != header:
            actual = f"{label} {entry.values[label]:.0f}"
            yield Fault(file, entry.key, actual, f"{header}, as in the header above", AGAIN)


def _age_faults(entries: Sequence[_Entry], file: str, week_of_use: int) -> Iterator[Fault]:
    """One fault for each week that is too far from the week of use."""
    age_weeks = value("almanac_age_highest_weeks")
    for week in sorted({int(entry.values["week"]) for entry in entries if not entry.damaged}):
        if abs(full_week(week, week_of_use) - week_of_use) > age_weeks:
            expected = f"week {week_of_use} ({week_of_use % WEEK_ROLLOVER} in the file)"
            allowed = f"within {age_weeks:.0f} weeks of {expected}"
            yield Fault(file, "week", f"week {week}", allowed, "Fetch the almanac of the day of use.")


def _double_faults(entries: Sequence[_Entry], file: str) -> Iterator[Fault]:
    numbers: set[int] = set()
    for entry in entries:
        if entry.prn in numbers:
            yield Fault(file, entry.key, "a satellite for the second time", "every satellite once", AGAIN)
        numbers.add(entry.prn)


def _orbit(entry: _Entry, week_of_use: int) -> Orbit:
    values = entry.values
    week_s = full_week(int(values["week"]), week_of_use) * WEEK_S
    return Orbit(
        name=f"PRN {entry.prn:02d}",
        health=int(values["Health"]),
        eccentricity=values["Eccentricity"],
        reference_gps_s=week_s + values["Time of Applicability(s)"],
        inclination_rad=values["Orbital Inclination(rad)"],
        node_rate_rad_s=values["Rate of Right Ascen(r/s)"],
        root_axis_root_m=values["SQRT(A)  (m 1/2)"],
        node_rad=values["Right Ascen at Week(rad)"],
        perigee_rad=values["Argument of Perigee(rad)"],
        mean_anomaly_rad=values["Mean Anom(rad)"],
        clock_s=values["Af0(s)"],
        clock_rate=values["Af1(s/s)"],
    )

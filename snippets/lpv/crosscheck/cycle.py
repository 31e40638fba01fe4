"""What changed from one data cycle to the next: two folders of approach files compared.

    lpv cycle OLD NEW [--json]

prints what is new, gone and changed, field by field in words, the most serious first (`lpv.crosscheck.changes` has
the grades).
Exit code: 0 no stop among the changes, 1 a stop, 2 files with faults.  Files are read pair by pair, so that a
folder may hold thousands.
"""

import argparse
import sys
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from lpv.approach import record as approach
from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.course import course_difference_deg
from lpv.core.errors import DataError, Fault
from lpv.core.findings import SEVERITY
from lpv.core.units import FT_PER_NM
from lpv.crosscheck.changes import Change, compare
from lpv.crosscheck.seen import Seen, crew_changes, places
from lpv.files.json_form import printed
from lpv.geodesy import earth

GONE, NEW, CHANGED = "gone", "new", "changed"
SAME_THRESHOLD_FT = 100.0  # nearer than any two thresholds are to each other
SAME_COURSE_DEG = 5.0
ONLY_DATES = {"identity.cycle", "database.cycle", "database.effective", "database.expires"}
GRADES = {GONE: "stop", NEW: "resolve"}
OLD_ONE = "the old one must not be flown"
WORDS = {
    GONE: "not in the new set: do not fly it until its chart is found",
    NEW: "not in the old set: brief it as an approach nobody has flown",
}


@dataclass(frozen=True)
class Entry:
    """One approach that differs between the sets.

    slug:    name of its file in the new set, of a gone one in the old set
    airport, airport_name, title: which approach it is
    state:   "gone", "new" or "changed"
    before:  name of its file in the old set where that was another, else ""
    changes: what changed, the most serious first; [] for gone and new
    seen:    what a crew sees differently, the most serious first; () likewise
    """

    slug: str
    airport: str
    airport_name: str
    title: str
    state: str
    before: str = ""
    changes: tuple[Change, ...] = ()
    seen: tuple[Seen, ...] = ()

    @property
    def grade(self) -> str:
        """The worst of its changes: "stop", "resolve" or "note"; gone is a stop, new is to resolve."""
        return GRADES.get(self.state) or (self.changes[0].grade if self.changes else "note")

    @property
    def reported(self) -> list[Change]:
        """Its changes without those of cycle and dates, which the sets have in common."""
        return [change for change in self.changes if change.place not in ONLY_DATES]

    @property
    def asks(self) -> list[str]:
        """What the crew is to know of it, in words, the most serious first: what it sees, and what else changed."""
        covered = places(self.seen)
        others = [change_words(change) for change in self.reported
                  if change.grade in ("stop", "resolve") and change.place not in covered]
        first = [WORDS[self.state]] if self.state in WORDS else [OLD_ONE] if self.grade == "stop" else []
        return [*first, *(line.words for line in self.seen), *others]

    @property
    def notes(self) -> int:
        """How many changes are only to be known."""
        return len([change for change in self.reported if change.grade == "note"])


@dataclass
class Comparison:
    """Two sets compared.

    old_cycles, new_cycles: the data cycles of each, in the order of their dates
    entries:   approaches that differ, the most serious first, then by airport and title
    unchanged: how many are the same but for cycle and dates
    remarks:   what is odd about the sets themselves, in words
    """

    old_cycles: list[str] = field(default_factory=list)
    new_cycles: list[str] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)
    unchanged: int = 0
    remarks: list[str] = field(default_factory=list)

    @property
    def has_stop(self) -> bool:
        """Whether any approach is gone or changed so that the old one must not be flown."""
        return any(entry.grade == "stop" for entry in self.entries)

    def graded(self, grade: str) -> list[Entry]:
        """The entries of one grade."""
        return [entry for entry in self.entries if entry.grade == grade]


def compare_folders(old: Path | str, new: Path | str, passed_over: Collection[str] = ()) -> Comparison:
    """Every approach of two folders; DataError with the faults of all files, or where a folder is none or empty.

    passed_over: names of files of the new folder, without their ending, that belong to no set
    """
    faults: list[Fault] = []
    before, after = _files(Path(old), faults), _files(Path(new), faults, passed_over)
    comparison = Comparison()
    cycles: tuple[set[str], set[str]] = set(), set()
    left: dict[tuple[str, str], list[Entry]] = {}
    for slug, path in before.items():
        was, now = _read(path, faults), _read(after[slug], faults) if slug in after else None
        if was is None or (slug in after and now is None):
            continue
        cycles[0].add(was.identity.cycle)
        if now is None:
            left.setdefault((was.identity.airport, was.identity.title), []).append(_entry(was, GONE))
        else:
            cycles[1].add(now.identity.cycle)
            _pair(was, now, comparison)
    for slug in sorted(after.keys() - before.keys()):
        if (now := _read(after[slug], faults)) is not None:
            cycles[1].add(now.identity.cycle)
            _new(now, left, before, comparison)
    if faults:
        raise DataError(faults)
    comparison.entries += [entry for entries in left.values() for entry in entries]
    comparison.old_cycles, comparison.new_cycles = (sorted(idents, key=airac.effective_ordinal) for idents in cycles)
    comparison.remarks += _remarks(comparison)
    comparison.entries.sort(key=lambda entry: (SEVERITY.index(entry.grade), entry.airport, entry.title, entry.slug))
    return comparison


def _files(folder: Path, faults: list[Fault], passed_over: Collection[str] = ()) -> dict[str, Path]:
    """Slug -> file, in order; a folder without any is a fault, since an empty set would make all gone or new."""
    paths = sorted(folder.glob("*.toml")) if folder.is_dir() else []
    files = {path.stem: path for path in paths if path.stem not in passed_over}
    if not files:
        faults.append(Fault(str(folder), "", "no approach file", "a folder of approach files", "Check the name."))
    return files


def _read(path: Path, faults: list[Fault]) -> Approach | None:
    try:
        return approach.read(path)
    except DataError as error:
        faults += [Fault(str(path), fault.key, fault.found, fault.allowed, fault.action, fault.line, fault.text)
                   for fault in error.faults]
        return None


def _entry(
    record: Approach, state: str, before: str = "", changes: tuple[Change, ...] = (), lines: tuple[Seen, ...] = (),
) -> Entry:
    who = record.identity
    return Entry(record.slug, who.airport, who.airport_name, who.title, state, before, changes, lines)


def _pair(old: Approach, new: Approach, comparison: Comparison) -> None:
    """A pair compared; one that differs in nothing but cycle and dates is unchanged."""
    changes = tuple(compare(old, new))
    if all(change.place in ONLY_DATES for change in changes) and old.slug == new.slug:
        comparison.unchanged += 1
    else:
        was = old.slug if old.slug != new.slug else ""
        comparison.entries.append(_entry(new, CHANGED, was, changes, crew_changes(old, new)))


def _new(
    other: Approach, left: dict[tuple[str, str], list[Entry]], before: dict[str, Path], comparison: Comparison,
) -> None:
    """A file that the old set lacks: a new approach, or one that the old set has under another file name or title."""
    same = left.get((other.identity.airport, other.identity.title), [])
    if not same:
        same = _renamed(other, left, before)
    if same:
        _pair(approach.read(before[same.pop().slug]), other, comparison)
    else:
        comparison.entries.append(_entry(other, NEW))


def _renamed(other: Approach, left: dict[tuple[str, str], list[Entry]], before: dict[str, Path]) -> list[Entry]:
    """Approaches of the old set to the same threshold on the same course: another title, or runway number, now."""
    for (airport, _), entries in left.items():
        if airport == other.identity.airport and entries and _same_segment(
                approach.read(before[entries[-1].slug]), other):
            return entries
    return []


def _same_segment(old: Approach, new: Approach) -> bool:
    first, two = old.segment, new.segment
    apart_nm = earth.distance_nm(
        first.ltp_latitude_deg, first.ltp_longitude_deg, two.ltp_latitude_deg, two.ltp_longitude_deg)
    turned_deg = course_difference_deg(old.true_course_deg, new.true_course_deg)
    return apart_nm * FT_PER_NM <= SAME_THRESHOLD_FT and abs(turned_deg) <= SAME_COURSE_DEG


def _remarks(comparison: Comparison) -> Iterator[str]:
    for name, cycles in (("old", comparison.old_cycles), ("new", comparison.new_cycles)):
        if len(cycles) > 1:
            yield f"The {name} set mixes cycles: {', '.join(cycles)}."
    first, last = airac.effective_ordinal(comparison.old_cycles[-1]), airac.effective_ordinal(comparison.new_cycles[0])
    if first > last:
        yield "The old set is of a later cycle than the new one: are the folders swapped?"
    elif comparison.old_cycles == comparison.new_cycles:
        yield "Both sets are of the same cycle."


def headline(comparison: Comparison) -> str:
    """One sentence: which cycles, how many approaches are gone, new, changed and unchanged."""
    states = [entry.state for entry in comparison.entries]
    return (
        f"Cycle {', '.join(comparison.old_cycles)} to {', '.join(comparison.new_cycles)}: {states.count(GONE)} gone, "
        f"{states.count(NEW)} new, {states.count(CHANGED)} changed, {comparison.unchanged} unchanged."
    )


def name(entry: Entry) -> str:
    """Which approach an entry is about: "ZZAK RNAV (GPS) RWY 09"."""
    return f"{entry.airport} {entry.title}"


def change_words(change: Change) -> str:
    """One change in words: "TCH: 50 ft, now 52 ft"; without the full stop at the end of a sentence that changed."""
    about = f"{change.about}, " if change.about else ""
    old, new = (text.rstrip(".") or "nothing" for text in (change.old, change.new))
    return f"{about}{change.what}: {old}, now {new}"


def as_text(comparison: Comparison) -> str:
    """The whole comparison as lines of text."""
    lines = [headline(comparison), *comparison.remarks]
    for entry in comparison.entries:
        moved = f" (file was {entry.before})" if entry.before else ""
        lines.append(f"\n{entry.grade}: {name(entry)}: {entry.state}{moved}")
        lines += [f"  {OLD_ONE}"] if entry.state == CHANGED and entry.grade == "stop" else []
        lines += [f"  crew    {line.words}" for line in entry.seen]
        lines += [f"  {change.grade:8}{change_words(change)}" for change in entry.reported]
        lines += [f"  {WORDS[entry.state]}"] if entry.state in WORDS else []
    return "\n".join(lines)


def as_json(comparison: Comparison) -> str:
    """The whole comparison as JSON; grades, places and texts as in `Entry` and `lpv.crosscheck.changes.Change`."""
    entries = [vars(entry) | {"grade": entry.grade, "changes": [vars(change) for change in entry.changes],
                              "seen": [vars(line) for line in entry.seen]} for entry in comparison.entries]
    return printed(vars(comparison) | {"entries": entries, "stop": comparison.has_stop})


def main(argv: list[str]) -> int:
    """Print what changed from one folder to another; the exit code says whether a stop is in it."""
    parser = argparse.ArgumentParser(
        "lpv cycle", description="Compare one data cycle with the next.",
        epilog="Exit code: 0 no stop among the changes; 1 a stop; 2 faulty files.")
    parser.add_argument("old", metavar="OLD", help="approach files of the previous cycle (folder)")
    parser.add_argument("new", metavar="NEW", help="approach files of the new cycle (folder)")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    options = parser.parse_args(argv)
    try:
        comparison = compare_folders(options.old, options.new)
    except DataError as error:
        print(error, file=sys.stderr)
        return 2
    print(as_json(comparison) if options.json else as_text(comparison))
    return 1 if comparison.has_stop else 0

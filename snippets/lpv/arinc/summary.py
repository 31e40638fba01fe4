"""What a run of the importer did, in words and as JSON."""

import re
from collections import Counter
from dataclasses import dataclass, field

from lpv.arinc.files import ASIDE, CYCLE_NEW
from lpv.arinc.scope import Coded
from lpv.core.errors import Fault
from lpv.files.json_form import printed

MAX_TEXTS = 20  # texts of columns that are not carried over, likewise
MAX_LISTED = 60  # approaches out of scope that the text names one by one; beyond, it counts them


@dataclass(frozen=True)
class Done:
    """One approach that has its file: what was done with it, and what of it was not understood."""

    airport: str
    name: str
    level: str
    slug: str
    what: str
    remarks: list[str]
    unread: list[str]
    gaps: list[str]


@dataclass(frozen=True)
class Refused:
    """One approach that has none, and every fault of its records."""

    airport: str
    name: str
    faults: list[Fault]


@dataclass
class Summary:
    """What a run did.

    done:         approaches that have their file, in the order of the records
    refused:      those that were asked for and could not be written
    out_of_scope: those that make no file, with the reason
    not_asked:    those that could make one and were not asked for
    faults:       what is wrong with single lines of the file, the first ones
    counts, kinds: what was read, in words and by kind of record
    left_over:    columns that are not read and not blank -> in how many records
    """

    file: str = ""
    cycle: str = ""
    done: list[Done] = field(default_factory=list)
    refused: list[Refused] = field(default_factory=list)
    out_of_scope: list[Coded] = field(default_factory=list)
    not_asked: list[Coded] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    counts: Counter[str] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    left_over: Counter[tuple[str, str]] = field(default_factory=Counter)
    announced: int = 0

    @property
    def partly(self) -> list[Done]:
        """Those of which something was not understood, or a leg may be missing."""
        return [done for done in self.done if done.unread or done.gaps]

    @property
    def gaps(self) -> list[str]:
        """Where record numbers jump within an approach that was written."""
        return [f"{done.airport} {done.name}: {place}" for done in self.done for place in done.gaps]

    @property
    def exit_code(self) -> int:
        """0 everything asked for is there; 1 something is not, or the file has faults; 2 there was nothing to write."""
        if not self.done:
            return 1 if self.out_of_scope and not self.refused else 2
        aside = any(done.what == ASIDE for done in self.done)
        return 1 if self.refused or self.faults or self.gaps or aside else 0


def reason(fault: Fault) -> str:
    """A fault without what tells one record from another, to be counted with those like it."""
    columns = re.search(r"columns? [\d-]+ \(([^)]*)\)", fault.key)
    return f"{columns[1]} impossible" if columns else f"lacks {fault.allowed}"


def unread_kind(words: str) -> str:
    """What was not understood, without where it stands."""
    text = re.sub(r"^(line \d+|[A-Z0-9-]+( [A-Z0-9]+)* \d{3}): ", "", words)
    text = re.sub(r"^position of \S+", "position of a fix", text)
    return re.sub(r" holds .*|: .*", "", text)


def reasons(summary: Summary) -> dict[str, Counter[str]]:
    """Why approaches were refused, understood in part, or out of scope, with counts."""
    return {
        "refused": Counter(reason(refused.faults[0]) for refused in summary.refused),
        "partly": Counter(kind for done in summary.partly
                          for kind in {*map(unread_kind, done.unread), *(["a leg may be missing"] * bool(done.gaps))}),
        "out of scope": Counter(re.sub(r"; authorizes .*", "", coded.reason) for coded in summary.out_of_scope),
    }


def report_text(summary: Summary) -> str:
    """The summary in words: one line for each thing, and nothing silent."""
    lines = [f"{done.slug}: {done.what}" for done in summary.done]
    lines += [f"{done.slug}: {remark}" for done in summary.done for remark in done.remarks]
    lines += [f"{refused.airport} {refused.name}: refused: {fault}"
              for refused in summary.refused for fault in refused.faults]
    if len(summary.out_of_scope) <= MAX_LISTED:
        lines += [f"{coded.airport} {coded.name}: out of scope: {coded.reason}" for coded in summary.out_of_scope]
    lines += [f"{coded.airport} {coded.name}: not asked for: {coded.level}"
              for coded in summary.not_asked[:MAX_LISTED]]
    lines += [f"not understood, kept as text: {done.airport} {words}" for done in summary.done for words in done.unread]
    lines += [f"may be missing: {place}" for place in summary.gaps]
    lines += [str(fault) for fault in summary.faults]
    if waiting := sum(done.what == CYCLE_NEW for done in summary.done):
        lines.append(f"{waiting} files with nothing new but the cycle: --advance writes it into them.")
    lines += _counted(summary)
    if summary.gaps:
        lines.append(f"{len(summary.gaps)} gaps in record numbers: do not use this file of records; get it again.")
    lines.append(f"{len(summary.done)} of {len(summary.done) + len(summary.refused)} approaches are there; "
                 f"{len(summary.partly)} of them in part, {len(summary.out_of_scope)} out of scope, "
                 f"{len(summary.not_asked)} not asked for.")
    return "\n".join(lines)


def _counted(summary: Summary) -> list[str]:
    lines = [f"{count} {kind}: {why}"
             for kind, counts in reasons(summary).items() for why, count in counts.most_common()]
    lines += [f"{count} {kind}" for kind, count in sorted(summary.counts.items())]
    lines += [f"{sum(texts.values())} records with more in {kind}, not carried over{_texts(texts)}"
              for kind, texts in sorted(_left(summary).items())]
    if summary.announced and summary.announced != summary.counts["records"]:
        lines.append(f"The header announces {summary.announced} records: this is a part of a file.")
    return lines


def _left(summary: Summary) -> dict[str, dict[str, int]]:
    """What was left over, by columns: text -> in how many records."""
    by_kind: dict[str, dict[str, int]] = {}
    for (kind, text), count in sorted(summary.left_over.items()):
        by_kind.setdefault(kind, {})[text] = count
    return by_kind


def _texts(texts: dict[str, int]) -> str:
    """What some columns hold, where that is not too much to name; the JSON report names all."""
    return f": {', '.join(texts)}" if len(texts) <= MAX_TEXTS else ""


def as_json(summary: Summary) -> str:
    """The same as JSON, with every approach named."""
    contents = {
        "file": summary.file, "cycle": summary.cycle, "exit_code": summary.exit_code,
        "totals": {"imported": len(summary.done), "partly": len(summary.partly), "refused": len(summary.refused),
                   "out of scope": len(summary.out_of_scope), "not asked for": len(summary.not_asked)},
        "reasons": reasons(summary), "done": [vars(done) for done in summary.done],
        "refused": [{"airport": refused.airport, "name": refused.name, "faults": [vars(f) for f in refused.faults]}
                    for refused in summary.refused],
        "out_of_scope": [vars(coded) for coded in summary.out_of_scope],
        "not_asked": [vars(coded) for coded in summary.not_asked],
        "faults": [vars(fault) for fault in summary.faults], "counts": summary.counts, "kinds": summary.kinds,
        "left_over": _left(summary), "announced": summary.announced,
    }
    return printed(contents)

"""The form of an approach file as its page asks for it: entries in as JSON, file and findings out as JSON.

`run` takes the entries as a list of [path, text], the text of what is carried along, the file's name, and the day for
which the cross-check is made.  It gives
    {"toml": the file, "file": its name, "name": what is wrong with that, "faults": [[path, words], ...],
     "sentence": what it comes to, "findings": [finding, ...]}
with the findings of `lpv crosscheck`, the most serious first; none while the file has faults.
`opened` takes the text of a file and gives {"entries": [[path, text], ...], "carried": text, "told": [words, ...]}, or
{"error": words}.  `started` gives the entries of a new one.
"""

import json
from typing import Any

from lpv.approach.record import Approach
from lpv.compose.entries import CARRIED, held, tables_of, texts_of
from lpv.core.errors import DataError, Fault
from lpv.core.findings import FINDING_FIELDS, by_severity, verdict
from lpv.crosscheck.check import crosscheck
from lpv.files.named_file import name_faults
from lpv.files.toml_reader import plain_tables, read_tables
from lpv.files.toml_writer import toml_text

NO_NAME = "new-approach"
NEW = (
    ("chart.course_reference", "magnetic"), ("chart.fix[1].role", "PFAF"), ("chart.fix[2].role", "MAP"),
    ("chart.minima[1].line", "LPV"), ("chart.minima[1].kind", "DA"), ("chart.minima[1].categories", "ABCD"),
)


def run(entries: str, carried: str, name: str, day: str) -> str:
    """The file that the entries make, its faults, and the findings of the cross-check (see above)."""
    texts: dict[str, str] = dict(json.loads(entries))
    head, kept = _apart(carried)
    tables = tables_of(Approach, texts, kept)
    stem = name.strip() or NO_NAME
    answer: dict[str, Any] = {
        "toml": head + toml_text(tables).lstrip("\n"), "file": f"{stem}.toml", "faults": [], "findings": [],
        "name": " ".join(_words(fault) for fault in name_faults(stem)),
    }
    try:
        findings = by_severity(crosscheck(read_tables(tables, stem, Approach), day))
        answer["sentence"] = verdict(findings)
        answer["findings"] = [{name: getattr(row, name) for name in FINDING_FIELDS} for row in findings]
    except DataError as error:
        answer["faults"] = [[fault.key, _words(fault)] for fault in error.faults]
        answer["sentence"] = f"Not checked yet: {len(error.faults)} to fill in or to correct."
    return json.dumps(answer, ensure_ascii=False)


def _words(fault: Fault) -> str:
    return f"Found {fault.found}; allowed: {fault.allowed}. {fault.action}"


def _apart(carried: str) -> tuple[str, dict[str, Any]]:
    """The comments at the head of what is carried along, and its tables."""
    head = head_of(carried)
    return head, plain_tables(carried) if carried[len(head):].strip() else {}


def head_of(text: str) -> str:
    """The comments with which a file begins, with the empty line behind them: whose it is, and the importer's mark."""
    head = ""
    for line in text.split("\n"):
        if not line.startswith("#") and not (head and not line.strip()):
            break
        head += line + "\n"
    return head if len(head) <= len(text) else text


def opened(text: str) -> str:
    """The entries of a file, what of it is carried along, and what the form has no place for (see above)."""
    plain = text.lstrip("\ufeff").replace("\r\n", "\n")
    try:
        tables = plain_tables(plain)
    except DataError as error:
        return json.dumps({"error": " ".join(f"{fault.key} found {fault.found}. {fault.action}".strip()
                                             for fault in error.faults)}, ensure_ascii=False)
    texts, others = texts_of(Approach, tables)
    head = head_of(plain)
    comments = len([line for line in plain[len(head):].split("\n") if line.strip().startswith("#")])
    remarks = [f"Not known here, and left out: {', '.join(others)}."] if others else []
    if comments:
        remarks.append(f"Comments below the head of the file are left out: {comments}.")
    kept = _carried(tables)
    if kept:
        remarks.append("Carried along as they are: coded legs and marks of the records, which nobody fills in by hand.")
    return json.dumps({"entries": texts, "carried": head + toml_text(kept).lstrip("\n"), "told": remarks},
                      ensure_ascii=False)


def _carried(tables: dict[str, Any]) -> dict[str, Any]:
    """The tables below CARRIED alone, which are one or two keys deep."""
    kept: dict[str, Any] = {}
    for path in CARRIED:
        value = held(tables, path)
        outer, _, inner = path.rpartition(".")
        if value is not None and outer:
            kept[outer] = {inner: value}
        elif value is not None:
            kept[path] = value
    return kept


def started() -> str:
    """The entries of a new file: those that every approach has."""
    return json.dumps({"entries": list(NEW), "carried": "", "told": []})

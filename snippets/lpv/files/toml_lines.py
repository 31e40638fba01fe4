"""On which line of a TOML file a key stands: for faults, which name the place as a path of keys."""

import re

_HEADING = re.compile(r"^\s*(\[\[?)\s*([A-Za-z0-9_.\- \"]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"^\s*([A-Za-z0-9_\-]+|\"[^\"]*\")\s*=")
LONGEST = 120


def lines_of(text: str) -> dict[str, int]:
    """Path of keys, such as "chart.fix[3].altitude_ft" -> number of its line, from 1; tables by their heading."""
    numbers: dict[str, int] = {}
    counts: dict[str, int] = {}
    place = ""
    for number, line in enumerate(text.splitlines(), 1):
        if heading := _HEADING.match(line):
            place = _place(heading[2].replace(" ", ""), counts, is_row=heading[1] == "[[")
            numbers.setdefault(place, number)
        elif key := _KEY.match(line):
            name = key[1].strip('"')
            numbers.setdefault(f"{place}.{name}" if place else name, number)
    return numbers


def _place(name: str, counts: dict[str, int], *, is_row: bool) -> str:
    """The heading as a path: rows of a list counted from 1, also where a table stands within one."""
    if is_row:
        counts[name] = counts.get(name, 0) + 1
    parts, path = name.split("."), []
    for depth, part in enumerate(parts, 1):
        count = counts.get(".".join(parts[:depth]))
        path.append(f"{part}[{count}]" if count else part)
    return ".".join(path)


def line_of(text: str, key: str, numbers: dict[str, int]) -> tuple[int, str]:
    """(number, text) of the line on which a key stands, or of the heading above it; (0, "") where neither does."""
    named = re.match(r"line (\d+)$", key)
    number = int(named[1]) if named else 0
    while key and not number:
        number = numbers.get(key, 0)
        key = key.rpartition(".")[0]
    lines = text.splitlines()
    if not 0 < number <= len(lines):
        return 0, ""
    line = "".join(sign if sign.isprintable() else "?" for sign in lines[number - 1].strip())
    return number, line if len(line) <= LONGEST else line[: LONGEST - 3] + "..."


def named_line(words: str) -> str:
    """ "line 7" of what the TOML reader says of a line that is no TOML, "" where it names none."""
    match = re.search(r"\(at (line \d+), column \d+\)", words)
    return match[1] if match else ""

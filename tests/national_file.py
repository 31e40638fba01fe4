"""A file of ARINC 424 records of the size and mix of a whole national cycle, made of the shapes of published ones.

    python tests/national_file.py FILE [--airports 1200] [--records 400000] [--cycle 2609]

Airports, fixes and positions are invented: the approaches of `coded_records` and `coded_current` moved over the map and
given other names.  Each airport has four approaches with a path point (LPV of the current shape, LPV of the older one,
LP), others without, and a share of all other kinds of records.  `Change` makes the file of the cycle after.
"""

import argparse
import itertools
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import coded_current as current
import coded_records as coded
from lpv.fas.path_point_columns import PRIMARY, remainder_of_columns

SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
LETTERS = SIGNS[:26]
CONTINUATION = "2"
RUNWAYS = ("01", "19", "10", "28")
REMAINDER = 116
CHANNEL = 57
FIRST_CHANNEL = 40000
FIRST_FIX = 2_000_000  # beyond those of the filler
FILLER = {  # kind of record -> how many of a whole file's records, and what stands in columns 5 to 13
    "EA": (62_000, "EAENRT   "), "ER": (48_000, "ER       "), "UC": (42_000, "UC       "), "UR": (30_000, "UR       "),
    "AS": (15_000, "AS       "), "D": (3_300, "D        "), "DB": (1_200, "DB       "),
}


@dataclass(frozen=True)
class Shape:
    """The records of one approach that others are made from.

    lines:   waypoints, legs, path point
    approach, runway: their names in them
    """

    lines: tuple[str, ...]
    approach: str
    runway: str


def _shape(lines: list[str], approach: str, runway: str) -> Shape:
    kept = [line for line in lines if line[12] == "C" or line[13:19].rstrip() == approach]
    used = {line[29:34].rstrip() for line in kept if line[12] == "F"}
    kept = [line for line in kept if line[12] != "C" or line[13:18].rstrip() in used]
    return Shape(tuple(kept), approach, runway)


CURRENT = _shape(current.KBTV, "R01", "RW01")
OLDER = _shape(coded.KHWD, "R28L", "RW28L")
LP = _shape(current.KBUR, "R08-Z", "RW08")
RNP = _shape(current.KBUR, "H08-Y", "RW08")
CIRCLING = _shape(current.KBUR, "RNV-A", "")
SHAPES = (CURRENT, CURRENT, OLDER, LP)
RUNWAY_RECORD = current.KBTV_RUNWAYS[0]


@dataclass(frozen=True)
class Change:
    """What is different in a later cycle at one airport, by its number."""

    channel: bool = False
    angle: bool = False
    threshold: bool = False
    altitude: bool = False
    path_id: bool = False
    renumbered: bool = False
    withdrawn: bool = False
    retitled: bool = False


def ident(number: int) -> str:
    """The identifier of an airport: ZZ and two signs."""
    return "ZZ" + SIGNS[number // 36 % 36] + SIGNS[number % 36]


def fix_name(number: int) -> str:
    """One of 26 to the fifth names of fixes."""
    signs = []
    for _ in range(5):
        number, rest = divmod(number, 26)
        signs.append(LETTERS[rest])
    return "".join(reversed(signs))


class Maker:
    """Makes the records of a file one after the other, numbered and dated."""

    def __init__(self, cycle: str, changes: dict[int, Change]) -> None:
        self.cycle, self.changes = cycle, changes
        self.enroute: dict[str, tuple[int, int]] = {}  # waypoints that the approaches begin at, and where they are

    def airport(self, number: int) -> Iterator[str]:
        """All records of one airport, sorted by kind as files are."""
        name, change = ident(number), self.changes.get(number, Change())
        made = [line for which in range(len(SHAPES)) for line in self._approach(number, which, change)]
        made += [line for shape in (RNP, CIRCLING) for line in self._moved(shape, number, 4, shape.approach, "")]
        made += [coded.at(coded.at(line, 14, f"I{RUNWAYS[0]}   "), 20, "I")
                 for line in self._moved(CURRENT, number, 5, "I01", "RW01") if line[12] == "F" and line[38] in "01"]
        own = [coded.at(coded.at(current.KBTV[0], 94, f"{'OPEN WATER ' + name:30}"), 14, "   ")]
        own += [self._runway(number, which, change) for which in range(len(SHAPES))]
        own += [coded.at(line, 14, "DEPA1 ") for line in self._moved(CURRENT, number, 6, "DEP", "") for line in [
            coded.at(line, 13, "D")] if line[13] != " "] * 3
        own += [coded.at(current.KBTV[-1], 14, f"{name:5}")]
        place = [coded.at(coded.at(line, 7, name), 2, "USA") for line in (*own, *made)]
        yield from sorted(place, key=lambda line: (line[12], line[13:29], line[38] if line[12] == "F" else line[26]))

    def _approach(self, number: int, which: int, change: Change) -> list[str]:
        runway, first = self._named(which, change), which == 0
        multiple = "-Z" if (SHAPES[which] is LP) != (change.retitled and first) else ""
        if change.withdrawn and first:
            return []
        lines = self._moved(SHAPES[which], number, which, f"R{runway}{multiple}", f"RW{runway}")
        return [self._point(line, number, which, change if first else Change()) if line[12] == "P" else
                self._leg(line, change if first else Change()) for line in lines]

    def _named(self, which: int, change: Change) -> str:
        runway = RUNWAYS[which]
        return f"{int(runway) + 1:02d}" if change.renumbered and which == 0 else runway

    def _leg(self, line: str, change: Change) -> str:
        if change.altitude and line[12] == "F" and line[42] == "F" and line[38] in "01":
            return coded.at(line, 85, f"{int(line[84:89]) + 100:05d}")
        return line

    def _point(self, line: str, number: int, which: int, change: Change) -> str:
        if line[26] == CONTINUATION:
            channel = FIRST_CHANNEL + number * len(SHAPES) + which + (30_000 if change.channel else 0)
            return coded.at(line, CHANNEL, f"{channel:05d}")
        line = coded.at(line, 33, f"W{line[14:16]}{'B' if change.path_id else 'A'}")
        if change.angle:
            line = coded.at(line, 67, f"{int(line[66:70]) + 10:04d}")
        if change.threshold:
            line = coded.at(line, 44, f"{(int(line[43:48]) + 500) % 60000:05d}")
        texts = {column.name: column.text(line) for column in PRIMARY}
        return coded.at(line, REMAINDER, remainder_of_columns(texts))

    def _runway(self, number: int, which: int, change: Change) -> str:
        shape, place = SHAPES[which], _place(number, which)
        line = next(record for record in (*current.KBTV_RUNWAYS, coded.runway(), *current.KBUR_RUNWAYS)
                    if record[13:18].rstrip() == shape.runway)
        line = coded.at(coded.at(line, 14, f"RW{self._named(which, change)} "), 11, "K6")
        return _shifted(line, 33, 42, place)

    def _moved(self, shape: Shape, number: int, which: int, approach: str, runway: str) -> list[str]:
        """The records of a shape at another airport, with other names of fixes."""
        names: dict[str, str] = {}
        fixes = itertools.count(FIRST_FIX + (number * 8 + which) * 20)
        place = _place(number, which)
        made = [_renamed(coded.at(line, 7, ident(number)), shape, approach, runway, names, fixes, place)
                for line in shape.lines]
        self.enroute |= {line[29:34]: place for line in made if line[12] == "F" and line[36:38] == "EA"}
        return made


def _place(number: int, which: int) -> tuple[int, int]:
    """How many degrees north and west an approach is moved."""
    return (number * 7 + which) % 12 - 6, (number * 5) % 30 - 10


def _renamed(
    line: str, shape: Shape, approach: str, runway: str, names: dict[str, str], fixes: "itertools.count[int]",
    place: tuple[int, int],
) -> str:
    kind = line[12]
    line = coded.at(line, 11, "K6")
    if kind == "C":
        line = coded.at(coded.at(line, 14, _other(line[13:18], names, fixes)), 20, "K6")
        return _shifted(line, 33, 42, place)
    line = coded.at(line, 14, f"{approach:6}")
    if kind == "P":
        line = coded.at(line, 20, f"{runway:5}")
        return line if line[26] == CONTINUATION else _shifted(_shifted(line, 38, 49, place), 71, 82, place)
    for column, of, section in ((30, 35, 37), (107, 113, 115)):
        name = line[column - 1 : column + 4]
        if column == 107 and line[38] == CONTINUATION:
            continue
        if name.startswith("RW"):
            line = coded.at(coded.at(line, column, f"{runway:5}"), of, "K6")
        elif name.strip() and line[section - 1 : section + 1] in ("PC", "EA"):
            line = coded.at(coded.at(line, column, _other(name, names, fixes)), of, "K6")
        elif name.strip() and line[section - 1 : section + 1] == "D ":
            line = coded.at(coded.at(line, column, "ZZV  "), of, "K6")
    return line


def _other(name: str, names: dict[str, str], fixes: "itertools.count[int]") -> str:
    if name not in names:
        names[name] = fix_name(next(fixes))
    return names[name]


def _shifted(line: str, latitude: int, longitude: int, place: tuple[int, int]) -> str:
    if not line[latitude - 1 : latitude].strip():
        return line
    north, west = int(line[latitude : latitude + 2]) + place[0], int(line[longitude : longitude + 3]) + place[1]
    return coded.at(coded.at(line, latitude + 1, f"{north:02d}"), longitude + 1, f"{west:03d}")


def _base(begins: str) -> str:
    """A record of another section, at a position, without its name."""
    base = coded.at(coded.at(coded.at(" " * 132, 1, "SUSA"), 5, begins), 20, "K6")
    return coded.at(coded.at(base, 22, "0"), 33, "N44230754W073080426")


def filler(kind: str, count: int) -> Iterator[str]:
    """Records of a kind that no approach needs, with positions where their kind has them."""
    begins = FILLER[kind][1]
    base = _base(begins)
    for number in range(count):
        name = "ZZV" if kind == "D" and number == 0 else fix_name(number)[: 5 if kind in ("EA", "ER") else 3]
        yield coded.at(base, 14, f"{name:5}")


def lines(airports: int, records: int, cycle: str, changes: dict[int, Change] | None = None) -> Iterator[str]:
    """The lines of the file, its header first; as many records as asked for, or what the airports alone need."""
    maker = Maker(cycle, changes or {})
    made = [line for number in range(airports) for line in maker.airport(number)]
    enroute = [_shifted(coded.at(_base("EAENRT   "), 14, name), 33, 42, place)
               for name, place in sorted(maker.enroute.items())]
    share = max(records - len(made) - len(enroute), 0) / sum(count for count, _ in FILLER.values())
    before = enroute + [line for kind in FILLER for line in filler(kind, int(FILLER[kind][0] * share) + (kind == "D"))]
    total = len(before) + len(made)
    header = coded.at(coded.at(coded.HEADER, 29, f"{total:07d}"), 36, cycle)
    yield header
    for number, line in enumerate((*before, *made)):
        yield coded.at(coded.at(line, 124, f"{number % 100_000:05d}"), 129, "1901")


def write(path: Path, airports: int, records: int, cycle: str, changes: dict[int, Change] | None = None) -> None:
    """The same as a file."""
    with open(path, "w", encoding="ascii", newline="\n") as file:
        file.writelines(f"{line}\n" for line in lines(airports, records, cycle, changes))


def main(argv: list[str]) -> int:
    """The command."""
    parser = argparse.ArgumentParser("python tests/national_file.py")
    parser.add_argument("file", type=Path)
    parser.add_argument("--airports", type=int, default=1200)
    parser.add_argument("--records", type=int, default=400_000)
    parser.add_argument("--cycle", default="2609")
    options = parser.parse_args(argv)
    write(options.file, options.airports, options.records, options.cycle)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

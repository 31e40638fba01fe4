"""A flight in a line of text, so that a page carries it and the phone plays it: written from records, read here.

Records follow each other, a semicolon between them; the cells of a record have a bar between them:

    s|time s|before the threshold NM|right of the course ft|altimeter ft|above the path ft|over the ground kt
    e|time s|what happened
    m|time s|what|words          what is annunciated from then on: "lateral", "captured"

Each kind stands in the order of time.  The altitude above the path is empty where it is not known.
"""

from lpv.core.errors import DomainError
from lpv.core.text import field_number
from lpv.forms.fields import Field

MOST = 60000  # characters
MISREAD = "This is no flight that the handbook wrote."


class Sample:
    """Where the aircraft is at a time."""

    def __init__(
        self, time_s: float, along_nm: float, across_ft: float, altitude_ft: float, above_ft: "float | None",
        ground_kt: float,
    ) -> None:
        self.time_s, self.along_nm, self.across_ft, self.altitude_ft = time_s, along_nm, across_ft, altitude_ft
        self.above_ft, self.ground_kt = above_ft, ground_kt


class Flight:
    """A flight to play.

    samples: at least two;  events: (time, what happened);  modes: (time, what, words)
    """

    def __init__(
        self, samples: "list[Sample]", events: "list[tuple[float, str]]", modes: "list[tuple[float, str, str]]",
    ) -> None:
        self.samples, self.events, self.modes = samples, events, modes
        self.end_s = samples[-1].time_s

    def at(self, time_s: float) -> Sample:
        """Where the aircraft is at a time, straight between two samples; the last one after the end."""
        for place in range(1, len(self.samples)):
            after = self.samples[place]
            if after.time_s >= time_s:
                return _between(self.samples[place - 1], after, time_s)
        return self.samples[-1]

    def announced(self, time_s: float) -> "list[tuple[str, str]]":
        """What is annunciated at a time, as (what, words), in the order in which each was first annunciated."""
        latest = []  # type: list[tuple[str, str]]
        for row in self.rows():
            words = [words for since_s, name, words in self.modes if name == row and since_s <= time_s]
            if words and words[-1]:
                latest.append((row, words[-1]))
        return latest

    def rows(self) -> "list[str]":
        """The things that are annunciated at any time: "source", "lateral"."""
        names = []  # type: list[str]
        for _, name, _ in self.modes:
            if name not in names:
                names.append(name)
        return names

    def stretches(self, what: str) -> "list[tuple[float, float, str]]":
        """From when to when each thing is annunciated in the same words."""
        turns = [(since_s, words) for since_s, name, words in self.modes if name == what]
        ends_s = [since_s for since_s, _ in turns] + [max(self.end_s, turns[-1][0])]
        return [(turns[place][0], ends_s[place + 1], turns[place][1]) for place in range(len(turns))]

    def jumps(self, time_s: float) -> "tuple[float | None, float | None]":
        """The whole second of the event before a time and of the one after it, None where there is none."""
        times_s = [float(int(at_s + 0.999)) for at_s, _ in self.events]
        before, after = [at_s for at_s in times_s if at_s < time_s], [at_s for at_s in times_s if at_s > time_s]
        return (max(before) if before else None), (min(after) if after else None)


def _between(before: Sample, after: Sample, time_s: float) -> Sample:
    span_s = after.time_s - before.time_s
    share = min(1.0, max(0.0, (time_s - before.time_s) / span_s)) if span_s > 0.0 else 1.0

    def part(first: float, other: float) -> float:
        return first + (other - first) * share

    above_ft = None
    if before.above_ft is not None and after.above_ft is not None:
        above_ft = part(before.above_ft, after.above_ft)
    return Sample(
        time_s, part(before.along_nm, after.along_nm), part(before.across_ft, after.across_ft),
        part(before.altitude_ft, after.altitude_ft), above_ft, part(before.ground_kt, after.ground_kt),
    )


def written(flight: Flight) -> str:
    """The text of a flight."""
    records = [
        ["s", field_number(sample.time_s, 0.1), field_number(sample.along_nm, 0.001), field_number(sample.across_ft),
         field_number(sample.altitude_ft), "" if sample.above_ft is None else field_number(sample.above_ft),
         field_number(sample.ground_kt)]
        for sample in flight.samples
    ]
    records += [["e", field_number(time_s, 0.1), _plain(words)] for time_s, words in flight.events]
    records += [["m", field_number(time_s, 0.1), _plain(what), _plain(words)] for time_s, what, words in flight.modes]
    return ";".join(["|".join(record) for record in records])


def _plain(words: str) -> str:
    """Words on one line, without what parts records and cells."""
    plain = words.replace(";", ",").replace("|", "/").replace("~", "-").replace("\n", " ")
    return " ".join([word for word in plain.split(" ") if word])  # narrow spaces stay


def read(text: str) -> Flight:
    """The flight in a text; DomainError for any other."""
    samples, events, modes = [], [], []
    try:
        for record in text.split(";"):
            kind, *cells = record.split("|")
            if kind == "s":
                time_s, along_nm, across_ft, altitude_ft, above, ground_kt = cells
                samples.append(Sample(
                    _number(time_s), _number(along_nm), _number(across_ft), _number(altitude_ft),
                    _number(above) if above else None, _number(ground_kt)))
            elif kind == "e":
                events.append((_number(cells[0]), cells[1]))
            else:
                modes.append((_number(cells[0]), cells[1], cells[2]))
    except (ValueError, IndexError):
        raise DomainError(MISREAD) from None
    if len(samples) < 2:
        raise DomainError(MISREAD)
    for rows in ([sample.time_s for sample in samples], [row[0] for row in events], [row[0] for row in modes]):
        if any(rows[place] > rows[place + 1] for place in range(len(rows) - 1)):
            raise DomainError(MISREAD)
    return Flight(samples, events, modes)


def _number(text: str) -> float:
    value = float(text)
    if not -1e6 < value < 1e6:
        raise ValueError(text)
    return value


class Replay(Field):
    """A field that holds a flight and that no dial moves: the page brings it."""

    kind = "hidden"
    of_page = True
    longest = MOST

    def read(self, text: str) -> str:
        read(text)
        return text

    def show(self, value: "float | str") -> str:
        return "the flight of this page"

"""A live figure: fields in; a drawing, its finding in words and its data out."""

from lpv.core.errors import DataError, DomainError
from lpv.core.text import capitalized, field_number
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.forms.fields import Field
from lpv.forms.form import NO_ANSWER, NoAnswer, read_field

EMPTY_HEIGHT = 700
WORDS_TO_A_ROW = 40  # letters


class Shown:
    """What a figure shows for one setting.

    sheet:   the drawing;  finding: what it shows, in one to three sentences
    headers, rows: its data as a table of texts, at most four columns
    brief:   the finding in a few words, for a screen that is read from far away; the finding itself if ""
    jumps:   of a figure that plays, the times of the event before and of the one after, None where there is none
    """

    def __init__(
        self, sheet: Sheet, finding: str, headers: "tuple[str, ...]", rows: "list[tuple[str, ...]]", brief: str = "",
        jumps: "tuple[float | None, ...]" = (),
    ) -> None:
        self.sheet, self.finding, self.headers, self.rows = sheet, finding, headers, rows
        self.brief, self.jumps = brief or finding, jumps


class Figure:
    """One live figure.

    name:     in addresses and as the element's id, "live-altimeter"
    title:    what it shows, for headings
    function: called with the fields by key, returns what is Shown
    inputs:   what can be set, in the order shown; fields with a group are folded away under its name
    facts:    keys of the facts that it rests on
    remarks:  sentences that always belong to it (whose rule it is, what is left out)
    plays:    key of the dial that runs by itself when the figure is played, "" where nothing does
    """

    def __init__(
        self, name: str, title: str, function: "object", inputs: "tuple[Field, ...]", facts: "tuple[str, ...]" = (),
        remarks: str = "", plays: str = "",
    ) -> None:
        self.name, self.title, self.function, self.inputs = name, title, function, inputs
        self.facts, self.remarks, self.plays = facts, remarks, plays


class Drawn:
    """A figure for the texts in its fields.

    values:  (key, what is set, with its unit) for each field
    refused: (key, words) for each text that cannot be used; its field's default counts instead
    svg, finding, brief, headers, rows: see Shown;  dropped: labels for which the drawing had no room
    jumps:   as texts of the dial that plays, "" where there is no event
    """

    def __init__(self) -> None:
        self.values = []  # type: list[tuple[str, str]]
        self.refused = []  # type: list[tuple[str, str]]
        self.svg, self.finding, self.brief = "", "", ""
        self.headers = ()  # type: tuple[str, ...]
        self.rows = []  # type: list[tuple[str, ...]]
        self.dropped = []  # type: list[str]
        self.jumps = []  # type: list[str]


def drawn(figure: Figure, texts: "dict[str, str]") -> Drawn:
    """The figure for the texts in its fields; a field without a usable text takes its default."""
    drawing = Drawn()
    values = {}
    for field in figure.inputs:
        try:
            values[field.key] = read_field(field, texts.get(field.key, field.default))
        except DomainError as error:
            drawing.refused.append((field.key, str(error)))
            values[field.key] = field.read(field.default)
    drawing.values = [(field.key, field.show(values[field.key])) for field in figure.inputs]
    shown = _shown(figure, values)
    drawing.finding, drawing.brief = capitalized(shown.finding), capitalized(shown.brief)
    drawing.headers, drawing.rows = shown.headers, shown.rows
    drawing.svg = shown.sheet.svg(drawing.finding)
    drawing.dropped = shown.sheet.dropped
    drawing.jumps = ["" if at is None else field_number(at) for at in shown.jumps]
    return drawing


def _shown(figure: Figure, values: "dict[str, float | str]") -> Shown:
    try:
        return figure.function(**values)  # type: ignore[operator, no-any-return]
    except NoAnswer as error:
        return _without_answer(str(error))
    except (DomainError, DataError):
        return _without_answer(NO_ANSWER)


def _without_answer(words: str) -> Shown:
    """What is shown where a setting has no answer: the reason, in place of a drawing."""
    sheet = Sheet(EMPTY_HEIGHT)
    rows = wrapped(capitalized(words), WORDS_TO_A_ROW)
    for place in range(len(rows)):
        sheet.word(WIDTH // 2, 200 + 160 * place, rows[place], "ink", "middle")
    return Shown(sheet, words, (), [])


def wrapped(text: str, most: int) -> "list[str]":
    """A text in rows of at most so many letters, where its words allow it."""
    rows = [""]
    for word in text.split(" "):
        if rows[-1] and len(rows[-1]) + len(word) + 1 > most:
            rows.append("")
        rows[-1] += (" " if rows[-1] else "") + word
    return rows

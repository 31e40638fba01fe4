"""A calculator: fields in, answers out, declared once and run by the build, the tests and the phone alike."""

from lpv.core.errors import DataError, DomainError
from lpv.core.text import capitalized, course_digits, number, quantity, with_sign
from lpv.forms.fields import Field, Number

NO_ANSWER = "These figures have no answer together: one of them is too large or too small beside the others."


class NoAnswer(DomainError):
    """Figures that are possible one by one and have no answer together, in words for the reader.

    The words hold no computed number: the two Pythons may print its last digit differently.
    """


class Limit:
    """What a result may be at most ("over") or at least ("under"), and the words for when it is exceeded."""

    def __init__(self, kind: str, limit: float, words: str) -> None:
        if kind not in ("over", "under"):
            raise ValueError(f"{kind} is neither over nor under")
        self.kind, self.limit, self.words = kind, limit, words

    def exceeded(self, value: float) -> bool:
        return value > self.limit if self.kind == "over" else value < self.limit


class Output:
    """One answer.

    key:    the name under which the function gives it
    step:   what it is rounded to
    sides:  words after a positive and after a negative number, ("from the right", "from the left")
    signed: whether a positive number is printed with its sign
    limits: see Limit
    absent: what is printed where the function gives None
    short:  label above a column of the table, the label itself if ""
    A text is printed as it is; a number of unit "course" in three digits.
    """

    def __init__(
        self, key: str, label: str, unit: str = "", step: float = 1, sides: "tuple[str, str] | None" = None,
        signed: bool = False, limits: "tuple[Limit, ...]" = (), absent: str = "none", short: str = "",
    ) -> None:
        self.key, self.label, self.unit, self.step = key, label, unit, step
        self.sides, self.signed, self.limits, self.absent = sides, signed, limits, absent
        self.short = short or label

    def show(self, value: "float | str | None") -> str:
        """The answer as it is printed."""
        if value is None:
            return self.absent
        if isinstance(value, str):
            return value
        if self.unit == "course":
            return course_digits(value) + "°"
        if self.sides:
            side = self.sides[0 if value > 0.0 else 1] if number(abs(value), self.step).strip("0.") else ""
            return (quantity(abs(value), self.unit, self.step) + " " + side).strip()
        text = quantity(value, self.unit, self.step)
        return with_sign(text) if self.signed and number(value, self.step).strip("0.") else text

    def words(self, value: "float | str | None") -> str:
        """The words of the limits that a number exceeds, "" if none."""
        if value is None or isinstance(value, str):
            return ""
        return " ".join([limit.words for limit in self.limits if limit.exceeded(value)])


class Steps:
    """A table of the reader's own case and its neighbours: one field varied by its step or by `step`.

    field:   key of the field;  outputs: keys of the answers shown
    before, after: how many steps to either side;  header: above its column, the field's label if ""
    """

    def __init__(
        self, field: str, outputs: "tuple[str, ...]", before: int = 3, after: int = 3, step: float = 0,
        header: str = "",
    ) -> None:
        self.field, self.outputs, self.header = field, outputs, header
        self.before, self.after, self.step = before, after, step


class Rows:
    """A table whose rows of text a function of the fields gives, under fixed headers."""

    def __init__(self, headers: "tuple[str, ...]", function: "object") -> None:
        self.headers, self.function = headers, function


class Calculator:
    """One calculator.

    name:     in addresses, "descent-rate"
    title:    what it finds, for headings;  question: what it answers, one sentence
    function: called with the fields by key, returns the answers by key: number, text or None, or one of these
              in a pair with words of its own
    inputs, outputs: its fields and answers in the order shown
    sentence: the case in words, with {keys} of fields and answers; it captions the table and is read aloud
    facts:    keys of the facts that it rests on
    table:    Steps or Rows, None if there is nothing to tabulate
    remarks:  sentences that always belong to the answer (whose rule it is, what is left out)
    """

    def __init__(
        self, name: str, title: str, question: str, function: "object", inputs: "tuple[Field, ...]",
        outputs: "tuple[Output, ...]", sentence: str, facts: "tuple[str, ...]" = (),
        table: "Steps | Rows | None" = None, remarks: str = "",
    ) -> None:
        self.name, self.title, self.question = name, title, question
        self.function = function
        self.inputs, self.outputs = inputs, outputs
        self.sentence, self.facts, self.table, self.remarks = sentence, facts, table, remarks

    def field(self, key: str) -> Field:
        """The field with this key; KeyError if there is none."""
        return {field.key: field for field in self.inputs}[key]

    def output(self, key: str) -> Output:
        """The answer with this key; KeyError if there is none."""
        return {output.key: output for output in self.outputs}[key]

    def headers(self) -> "list[str]":
        """Headers of the table, none without one."""
        if isinstance(self.table, Rows):
            return list(self.table.headers)
        if self.table is None:
            return []
        first = self.table.header or self.field(self.table.field).label
        return [first] + [self.output(key).short for key in self.table.outputs]


class Answer:
    """What comes of the texts in the fields.

    errors:   (key, words) for each field that cannot be used
    problem:  why there is no answer though every field can be used, "" if there is one
    outputs:  (key, text, words of exceeded limits) in the order shown, empty if there is no answer
    sentence: the case in words
    rows:     the table's, each a list of cells;  own: the number of the row that is the reader's own, -1 if none
    """

    def __init__(self) -> None:
        self.errors = []  # type: list[tuple[str, str]]
        self.problem = ""
        self.outputs = []  # type: list[tuple[str, str, str]]
        self.sentence = ""
        self.rows = []  # type: list[list[str]]
        self.own = -1


def answer(calculator: Calculator, texts: "dict[str, str]") -> Answer:
    """The answer to the texts in the fields; a field without a text has an error."""
    reply = Answer()
    values = {}
    for field in calculator.inputs:
        try:
            values[field.key] = read_field(field, texts.get(field.key, ""))
        except DomainError as error:
            reply.errors.append((field.key, str(error)))
    if not reply.errors:
        try:
            _compute(calculator, values, reply)
        except NoAnswer as error:
            reply.problem = capitalized(str(error))
        except (DomainError, DataError):
            reply.problem = NO_ANSWER
    return reply


def read_field(field: Field, text: str, unit: str = "") -> "float | str":
    """What is entered in a field, in the unit that is set beside it ("" for none); DomainError in words."""
    if len(text) > field.longest:
        raise DomainError(f"Found {len(text)} characters; allowed: {field.longest}.")
    return field.read_in(unit, text)


def _compute(calculator: Calculator, values: "dict[str, float | str]", reply: Answer) -> None:
    results = calculator.function(**values)  # type: ignore[operator]
    shown = {field.key: field.show(values[field.key]) for field in calculator.inputs}
    lines = []
    for output in calculator.outputs:
        result, own_words = _apart(results[output.key])
        shown[output.key] = output.show(result)
        lines.append((output.key, shown[output.key], own_words or output.words(result)))
    reply.rows = _rows(calculator, values)
    if isinstance(calculator.table, Steps):
        reply.own = [row[0] for row in reply.rows].index(shown[calculator.table.field])
    reply.sentence = capitalized(calculator.sentence.format(**shown))
    reply.outputs = lines


def _rows(calculator: Calculator, values: "dict[str, float | str]") -> "list[list[str]]":
    table = calculator.table
    if table is None:
        return []
    if isinstance(table, Rows):
        return [list(row) for row in table.function(**values)]  # type: ignore[operator]
    field = calculator.field(table.field)
    assert isinstance(field, Number)
    step = table.step or field.step
    rows = []
    for count in range(-table.before, table.after + 1):
        varied = float(values[field.key]) + count * step
        if field.low <= varied <= field.high:
            rows.append(_row(calculator, table, field, dict(values, **{field.key: varied})))
    return rows


def _row(calculator: Calculator, table: Steps, field: Number, values: "dict[str, float | str]") -> "list[str]":
    shown = field.show(values[field.key])
    try:
        results = calculator.function(**values)  # type: ignore[operator]
    except (DomainError, DataError):
        return [shown] + ["not possible"] * len(table.outputs)
    return [shown] + [calculator.output(key).show(_apart(results[key])[0]) for key in table.outputs]


def _apart(result: "float | str | tuple[float | str | None, str] | None") -> "tuple[float | str | None, str]":
    return result if isinstance(result, tuple) else (result, "")

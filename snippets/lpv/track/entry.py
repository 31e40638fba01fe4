"""The entries beside a recorded flight's file: what the command line takes as options, as fields of a form."""

from lpv.air.atmosphere import hpa_from_inches
from lpv.core.errors import DomainError
from lpv.forms.fields import Choice, Field
from lpv.forms.form import MOST_CHARACTERS
from lpv.setup.data import texts_of
from lpv.setup.form_fields import Altimeter, Figure
from lpv.setup.records import UNITS
from lpv.track.records import IN_WORDS, JOINED, REFERENCES, Conditions

AS_NAMED = "as the column's name says (CSV)"
FIELDS = (
    Choice("altitude", "Altitudes count", tuple([("", AS_NAMED)] + [(key, IN_WORDS[key]) for key in REFERENCES]), ""),
    Choice("joined", "Joined", ((JOINED[0], "by the procedure"), (JOINED[1], "on vectors")), JOINED[0]),
    Figure("temperature_c", "Temperature", "deg C", -60, 50, 1),
    Figure("minimum_ft", "Minimum used", "ft", -1500, 20000),
    Figure("number", "Which approach", "", 1, 99),
    Choice("altimeter_unit", "Altimeter in", ((UNITS[1], UNITS[1]), (UNITS[0], UNITS[0])), UNITS[1]),
    Altimeter("setting", "Altimeter setting"),
)  # type: tuple[Field, ...]
# What stands under an entry that may stay empty.
HINTS = {
    "temperature_c": "at the airport, else standard", "minimum_ft": "else the chart's", "number": "else the last",
    "setting": "for pressure altitudes",
}


class Entered:
    """The entries, read: `altitude`, `given`, and `errors` as (key, words) of those that cannot be used."""

    def __init__(self, lines: str) -> None:
        texts = texts_of(lines)
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
            _float(found["minimum_ft"]), None if number is None else int(number))

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

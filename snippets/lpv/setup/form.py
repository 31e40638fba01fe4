"""The set-up check as the page asks for it: figures and entries in as lines of text, findings out as lines.

In:  "key TAB text" lines: the approach's figures ("" if none is chosen), the type's ("" for any type), and the
     entries, "aircraft" among them.
Out: "error TAB key TAB words" for each entry that cannot be used, and "sentence TAB words"; or
     "sentence TAB words", "about TAB words", and for each finding
     "finding TAB grade TAB what TAB about TAB chart TAB computed TAB why TAB action TAB key", the most serious first.
"""

from lpv.core.errors import DomainError
from lpv.core.findings import Finding, by_severity, verdict
from lpv.core.text import quantity
from lpv.forms.fields import Field
from lpv.forms.form import MOST_CHARACTERS
from lpv.setup.checks import check
from lpv.setup.data import charted_of, flown_of, texts_of
from lpv.setup.form_fields import ARMING, COMMON, FIELDS, LEFT, OPTIONAL, RIGHT, Altimeter
from lpv.setup.records import UNITS, Setup, Side
from lpv.setup.wanted import Charted, Flown, wanted

APPROACH, AIRCRAFT = "approach", "aircraft"
TO_CHOOSE, TO_FILL_IN = "Choose one of these.", "Fill this in."


class Entries:
    """The entries, read: `values` by key, None for one left empty that may be, and `errors` as (key, words)."""

    def __init__(self, texts: "dict[str, str]") -> None:
        self.values = {}  # type: dict[str, object]
        self.errors = []  # type: list[tuple[str, str]]
        self.empty = 0
        if not texts.get(AIRCRAFT, "").strip():
            self.refuse(AIRCRAFT, TO_CHOOSE)
        unit = texts.get("altimeter_unit", "")
        for field in FIELDS:
            self._take(field, texts.get(field.key, ""), unit)

    def _take(self, field: Field, text: str, unit: str) -> None:
        if not text.strip():
            self.values[field.key] = None
            if field.key not in OPTIONAL:
                self.refuse(field.key, TO_CHOOSE if field.kind in ("choice", "title") else TO_FILL_IN)
            return
        try:
            if len(text) > MOST_CHARACTERS:
                raise DomainError(f"Found {len(text)} characters; allowed: {MOST_CHARACTERS}.")
            self.values[field.key] = read(field, text, unit)
        except DomainError as error:
            self.refuse(field.key, str(error), False)

    def refuse(self, key: str, words: str, empty: bool = True) -> None:
        """Note that an entry cannot be used, and why."""
        self.errors.append((key, words))
        self.empty += 1 if empty else 0


def read(field: Field, text: str, unit: str) -> "float | str":
    """What an entry says; DomainError in words.  An altimeter setting is read in `unit`, if that is one."""
    if isinstance(field, Altimeter) and unit in UNITS:
        return field.read_in(unit, text)
    return field.read(text)


def entered(lines: str, charted: "Charted | None") -> Entries:
    """The entries of "key TAB text" lines, with what is wrong about several of them together."""
    found = Entries(texts_of(lines))
    values = found.values
    if charted is None:
        found.refuse(APPROACH, "Choose an approach.")
    elif charted.cold_c is not None and "temperature_c" in values and values["temperature_c"] is None:
        cold = quantity(charted.cold_c, "deg C")
        found.refuse("temperature_c", f"Fill this in: this chart asks for corrections at {cold} and below.")
    together = [field.key for field in ARMING[1:] if field.key in values]
    missing = [key for key in together if values[key] is None]
    if 0 < len(missing) < len(together):
        for key in missing:
            found.refuse(key, "Fill in all three, or none of them.")
    return found


def side_of(name: str, values: "dict[str, object]") -> Side:
    """What one side has set, from the values of its entries."""
    mine = {field.key.split("_", 1)[1]: values[field.key] for field in (LEFT if name == "left" else RIGHT)}
    tuned = [mine.pop("tuned"), mine.pop("tuned_2")]
    mine["channel"] = int(mine["channel"])  # type: ignore[call-overload]
    return Side(name, tuned_mhz=[mhz for mhz in tuned if mhz is not None], **mine)  # type: ignore[misc,arg-type]


def setup_of(values: "dict[str, object]") -> Setup:
    """The set-up that the values of all entries describe; a distance to the left of the course is negative."""
    common = {field.key: values[field.key] for field in COMMON}
    across_nm = values["across_nm"]
    if across_nm is not None and values["across_side"] == "left":
        across_nm = 0.0 - across_nm  # type: ignore[operator]
    return Setup(
        left=side_of("left", values), right=side_of("right", values), armed=values["armed"] == "yes",
        across_nm=across_nm, track_deg=values["track_deg"], **common,  # type: ignore[arg-type]
    )


def run(approach: str, aircraft: str, entries: str) -> str:
    """The findings about the entries, as lines (see above)."""
    try:
        charted = charted_of(approach) if approach else None
        flown = flown_of(aircraft) if aircraft else None
    except DomainError as error:
        return lines_of([["error", APPROACH, str(error)], ["sentence", "The figures of this approach cannot be read."]])
    found = entered(entries, charted)
    if found.errors or charted is None:
        return lines_of([["error", key, words] for key, words in found.errors] + [["sentence", missing(found)]])
    try:
        rows = check(setup_of(found.values), wanted(charted, flown), flown.rules if flown else None)
    except DomainError:
        return lines_of([["sentence", "These entries have no answer together: one of them lies outside the tables."]])
    answer = [["sentence", verdict(rows)], ["about", about(charted, flown)]]
    answer.extend(findings(rows))
    return lines_of(answer)


def missing(found: Entries) -> str:
    """How many entries are still to be filled in, and how many cannot be used."""
    wrong = len(found.errors) - found.empty
    parts = [f"{found.empty} to fill in" if found.empty else "", f"{wrong} to correct" if wrong else ""]
    return "Not checked yet: " + ", ".join([part for part in parts if part]) + "."


def about(charted: Charted, flown: "Flown | None") -> str:
    """What the entries were compared with, in words."""
    by = f"{flown.name}, category {flown.category}" if flown else "any type: the highest minimum of each line counts"
    return f"{charted.airport} {charted.title}, chart of cycle {charted.cycle}; {by}."


def findings(rows: "list[Finding]") -> "list[list[str]]":
    """Each finding as the parts of a line, the most serious first."""
    return [
        ["finding", row.grade, row.what, row.about, row.chart, row.computed, row.why, row.action, row.key]
        for row in by_severity(rows)
    ]


def lines_of(rows: "list[list[str]]") -> str:
    """Lines of parts, with nothing in a part that would end it."""
    return "\n".join(["\t".join([" ".join(" ".join(part.split("\n")).split("\t")) for part in row]) for row in rows])

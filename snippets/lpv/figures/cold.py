"""The charted altitudes of a whole procedure, and the same with what cold adds to them."""

from lpv.core.errors import DomainError
from lpv.core.record import Record
from lpv.core.text import number, quantity, signed
from lpv.decide.cold import AIM, ColdAltitude, all_segments
from lpv.decide.lines import LINES
from lpv.drawing.panel import BOTTOM, Panel
from lpv.drawing.sheet import EDGE, WIDTH, Sheet
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import spread
from lpv.forms.fields import Field, Number, shown_text
from lpv.forms.form import NoAnswer

ROW = 270
WRITTEN, MARKED = 0.48, 0.78  # where in a row its words and its marks stand
MAX_ALTITUDES = 9
MIN_SPAN_FT = 500.0
FIXES = ("IAF", "IF", "PFAF", "step-down")
LOWEST_FT, HIGHEST_FT = -1500.0, 20000.0
EXAMPLE = "IF|ORBIT|3000;PFAF|GULLY|2000;LPV|DA|250;LNAV|MDA|480;missed||3000"


class Charted(Field):
    """The altitudes of a chart in one text, "role|name|ft" each: fixes by role, minima by line, the missed approach.

    They are set by choosing an approach, and go along in a link.
    """

    kind = "hidden"
    hint = "altitudes as role|name|ft"

    def read(self, text: str) -> str:
        entries(text)
        return text

    def show(self, value: "float | str") -> str:
        return ", ".join([f"{name or role} {quantity(feet, 'ft')}" for role, name, feet in entries(str(value))])


def entries(text: str) -> "list[tuple[str, str, float]]":
    """(role or line, name or kind, ft) of each altitude; DomainError for a text that holds no such altitudes."""
    altitudes = []
    for entry in text.split(";"):
        parts = entry.split("|")
        if len(parts) != 3 or parts[0] not in FIXES + LINES + ("missed",) or not _is_name(parts[1], parts[0]):
            raise DomainError(f"Found {shown_text(entry)}; allowed: {Charted.hint}.")
        if not _is_decimal(parts[2]) or not LOWEST_FT <= float(parts[2]) <= HIGHEST_FT:
            hint = f"feet, {number(LOWEST_FT)} to {number(HIGHEST_FT)}"
            raise DomainError(f"Found {shown_text(entry)}; allowed: {hint}.")
        altitudes.append((parts[0], parts[1], float(parts[2])))
    roles = [role for role, _, _ in altitudes]
    if roles.count("PFAF") != 1 or not [role for role in roles if role in LINES] or len(altitudes) > MAX_ALTITUDES:
        raise DomainError(f"Found {shown_text(text)}; allowed: one FAF, a minimum, {MAX_ALTITUDES} in all.")
    return altitudes


def _is_decimal(text: str) -> bool:
    """Whether a text is a number of up to five digits, perhaps with a hyphen before and decimals behind a point."""
    whole, point, decimals = (text[1:] if text[:1] == "-" else text).partition(".")
    return is_digits(whole) and len(whole) <= 5 and (not point or is_digits(decimals))


def is_digits(text: str) -> bool:
    """Whether a text is of the digits 0 to 9 alone, at least one of them."""
    return bool(text) and not text.strip("0123456789")


def _is_name(name: str, role: str) -> bool:
    if role in LINES:
        return name in ("DA", "MDA")
    return len(name) <= 6 and not name.strip("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789")


def approach_of(text: str, airport_ft: float) -> Record:
    """The parts of an approach that decide about cold, from its altitudes."""
    altitudes = entries(text)
    fixes = [
        {"role": role, "name": name or role, "altitude_ft": feet, "altitude_rule": "at or above"}
        for role, name, feet in altitudes if role in FIXES
    ]
    minima = [
        {"line": role, "kind": name, "altitude_ft": feet, "categories": "ABCD"}
        for role, name, feet in altitudes if role in LINES
    ]
    missed = [{"altitude_ft": feet} for role, _, feet in altitudes if role == "missed"]
    return Record({"chart": {
        "airport_elevation_ft": airport_ft, "fixes": fixes, "minima": minima, "missed": missed[0] if missed else None,
    }})


def _cold(temperature_c: float, airport_ft: float, charted: str) -> Shown:
    approach = approach_of(charted, airport_ft)
    if min([feet for _, _, feet in entries(charted)]) < airport_ft:
        raise NoAnswer("An altitude of the chart lies below the airport: look at its elevation.")
    rows = all_segments(approach, temperature_c)  # type: ignore[arg-type]
    minimum = _lowest_minimum(rows)
    most_ft = max([row.addition_ft or 0.0 for row in rows])
    finding = (
        f"At {quantity(temperature_c, 'deg C')} the {minimum.name} of {quantity(minimum.charted_ft, 'ft')} becomes "
        f"{quantity(minimum.corrected_ft, 'ft')}, the largest addition is {quantity(most_ft, 'ft')} ({AIM}, all "
        "segments). "
        "The chart or the operator says from which temperature to correct."
    )
    if most_ft == 0.0:
        finding = f"At {quantity(temperature_c, 'deg C')} the table adds nothing ({AIM})."
    brief = f"{minimum.name} {quantity(minimum.corrected_ft, 'ft')} at {quantity(temperature_c, 'deg C')}"
    return Shown(_drawn(rows), finding, ("altitude", "charted", "added", "to use"), [_row(row) for row in rows], brief)


def _lowest_minimum(rows: "list[ColdAltitude]") -> ColdAltitude:
    minima = [row for row in rows if row.name.split(" ")[0] in LINES]
    lowest_ft = min([row.charted_ft for row in minima])
    return {row.charted_ft: row for row in reversed(minima)}[lowest_ft]


def _row(row: ColdAltitude) -> "tuple[str, ...]":
    added = signed(row.addition_ft or 0.0, "ft")
    return row.name, quantity(row.charted_ft, "ft"), added, quantity(row.corrected_ft, "ft")


def _drawn(rows: "list[ColdAltitude]") -> Sheet:
    """One row for each altitude in the order flown: in words, and as charted and corrected on one scale."""
    bottom = ROW * len(rows) + EDGE
    sheet = Sheet(bottom + BOTTOM)
    span = spread([row.charted_ft for row in rows] + [row.corrected_ft for row in rows], MIN_SPAN_FT, 0.06)
    panel = Panel(sheet, (4 * EDGE, EDGE, WIDTH - 4 * EDGE, bottom), span, (float(len(rows)), 0.0))
    panel.x_axis("altitude, ft: charted (post), to use (circle)")
    for place in range(len(rows)):
        row, y = rows[place], place + MARKED
        role = "answer" if row.addition_ft else "ink"
        panel.line([(row.charted_ft, y), (row.corrected_ft, y)], "second")
        panel.mark(row.charted_ft, y, "post", "ink")
        if row.addition_ft:
            panel.mark(row.corrected_ft, y, "circle", "answer")
        added = f" + {number(row.addition_ft)} = {number(row.corrected_ft)}" if row.addition_ft else ""
        line = panel.down(place + WRITTEN)
        sheet.word(2 * EDGE, line, row.name, "ink")
        sheet.word(WIDTH - 2 * EDGE, line, number(row.charted_ft) + added, role, "end", bool(row.addition_ft))
    return sheet


FIGURES = (
    Figure(
        "live-cold", "cold altitudes of the whole procedure", _cold,
        inputs=(
            Number("temperature_c", "Temperature at the airport", "deg C", -50, 15, 1, -20, "day.temperature_c"),
            Number("airport_ft", "Airport elevation", "ft", -500, 10000, 10, 0, "approach.airport_elevation_ft"),
            Charted("charted", "Altitudes of the chart", EXAMPLE, "approach.altitudes"),
        ),
        facts=("cold_table_step_ft", "cold_segment_step_ft", "cold_without_rule_c"),
        remarks="The FAA's table and rounding. The SBAS glidepath itself is not corrected.",
    ),
)

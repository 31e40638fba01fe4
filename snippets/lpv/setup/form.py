"""The set-up check as the page asks for it: records and entries in as JSON, findings out as JSON.

In:  the approach and the type in their JSON forms ("" if none is chosen, "" for any type), an object with the text
     of each entry by key, "aircraft" among them, and the beginning of the hash that the page has of the approach's
     figures; None where no page is asking.
Out: {"errors": {key: words}, "sentence": words, "about": words, "held": [first day, day after the last, words],
     "findings": [finding, ...]}; held is of the approach's data, [] where there are none.  Each finding is an object
     with the fields of `Finding`, a split between the sides first, then the most serious.  What has not been entered
     is "not compared".  Without an approach the two sides are compared with each other, and with nothing else.
"""

import json

from lpv.core import airac
from lpv.core.errors import DomainError
from lpv.core.findings import FINDING_FIELDS, Finding, by_severity, verdict
from lpv.core.record import record
from lpv.forms.fields import Field
from lpv.forms.form import read_field
from lpv.forms.listed import OTHER_EDITION, is_listed
from lpv.setup.checks import alike, check, read_on_both
from lpv.setup.expected import expected_for
from lpv.setup.form_fields import COMMON, FIELDS, LEFT, RIGHT
from lpv.setup.records import Setup, Side

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.aircraft.record import Aircraft
    from lpv.approach.record import Approach

APPROACH = "approach"
# Which of final and missed approach are corrected for cold -> the segments; the others do not bear on a set-up.
SEGMENTS_OF = {
    "": (), "final and missed": (), "final": ("final",), "missed": ("missed",), "neither": ("initial", "intermediate"),
}  # type: dict[str, tuple[str, ...]]
CHOOSE_APPROACH = "Choose an approach."
UNREADABLE = "The figures of this approach cannot be read. Load the page again."
NOT_CHECKED = "Not checked yet: choose an approach."
SIDES_APART = "The sides differ. Settle that first; nothing was compared with a chart yet: choose an approach."
SIDES_ALIKE = "No split in what was entered on both sides; compared with no chart yet: choose an approach."


class Entries:
    """The entries, read: `values` by key, None for one left empty, and `errors`, words by key."""

    def __init__(self, texts: "dict[str, str]") -> None:
        self.values = {}  # type: dict[str, object]
        self.errors = {}  # type: dict[str, str]
        unit = texts.get("altimeter_unit", "")
        for field in FIELDS:
            text = texts.get(field.key, "")
            self.values[field.key] = None
            if text.strip():
                self._take(field, text, unit)

    def _take(self, field: Field, text: str, unit: str) -> None:
        try:
            self.values[field.key] = read_field(field, text, unit)
        except DomainError as error:
            self.errors[field.key] = str(error)


def side_of(name: str, values: "dict[str, object]") -> Side:
    """What one side has set, from the values of its entries."""
    fields = {field.key.split("_", 1)[1]: values[field.key] for field in (LEFT if name == "left" else RIGHT)}
    tuned = [mhz for mhz in (fields.pop("tuned"), fields.pop("tuned_2")) if mhz is not None]
    if fields["channel"] is not None:
        fields["channel"] = int(fields["channel"])  # type: ignore[call-overload]
    return Side(name, tuned_mhz=tuned or None, **fields)  # type: ignore[arg-type]


def setup_of(values: "dict[str, object]") -> Setup:
    """The set-up that the values of all entries describe; a distance to the left of the course is negative.

    A distance without its side says nothing about where the aircraft is.
    """
    common = {field.key: values[field.key] for field in COMMON}
    if common["day"] is not None:
        common["day"] = int(common["day"])  # type: ignore[call-overload]
    across_nm, side = values["across_nm"], values["across_side"]
    if across_nm is not None:
        across_nm = None if side is None else 0.0 - across_nm if side == "left" else across_nm  # type: ignore[operator]
    zone = values["zone_not_clear"]
    armed = None if values["armed"] is None else values["armed"] == "yes"
    return Setup(
        left=side_of("left", values), right=side_of("right", values), armed=armed,
        across_nm=across_nm, track_deg=values["track_deg"], speed_kt=values["speed_kt"],  # type: ignore[arg-type]
        remote_addition_ft=values["remote_addition_ft"],  # type: ignore[arg-type]
        zone_not_clear=None if zone is None else zone == "yes",
        cold_segments=SEGMENTS_OF[str(values["cold_segments"] or "")], **common,  # type: ignore[arg-type]
    )


def run(approach: str, aircraft: str, entries: str, digits: "str | None" = None) -> str:
    """The findings about the entries, as JSON (see above)."""
    read_entries = Entries(json.loads(entries))
    errors = dict(read_entries.errors)
    if not approach:
        errors[APPROACH] = CHOOSE_APPROACH
        return _sides_only(errors, setup_of(read_entries.values))
    try:
        charted: Approach = record(approach)  # type: ignore[assignment]
        flown: Aircraft | None = record(aircraft) if aircraft else None  # type: ignore[assignment]
        setup = setup_of(read_entries.values)
        rows = check(setup, expected_for(setup, charted, flown))
        if digits is not None and not is_listed(approach, digits):
            errors[APPROACH] = OTHER_EDITION
            rows.insert(0, of_another_edition(charted))
        compared_with = about(charted, flown)
    except (AttributeError, ValueError):
        errors[APPROACH] = UNREADABLE
        return _answer(errors, UNREADABLE)
    except DomainError:
        return _answer(errors, "These entries together have no answer: one of them is outside the tables.")
    return _answer(errors, verdict(rows), compared_with, rows, validity(charted))


def _sides_only(errors: "dict[str, str]", setup: Setup) -> str:
    """What can be said before an approach is chosen: where the two sides differ, as far as both were entered."""
    if not read_on_both(setup):
        return _answer(errors, NOT_CHECKED)
    rows = [row for row in alike(setup) if row.grade != "ok"]
    apart = [row for row in rows if row.grade == "resolve"]
    return _answer(errors, SIDES_APART if apart else SIDES_ALIKE, "", rows)


def _answer(
    errors: "dict[str, str]", sentence: str, compared_with: str = "", rows: "list[Finding] | None" = None,
    days: "list[str] | None" = None,
) -> str:
    ordered = by_severity(rows or [])
    split = [row for row in ordered if row.key == "set-sides" and row.grade == "resolve"]
    findings = split + [row for row in ordered if row not in split]
    if rows and errors:
        sentence += f" {len(errors)} to correct among the entries."
    return json.dumps({
        "errors": errors, "sentence": sentence, "about": compared_with, "held": days or [],
        "findings": [{name: getattr(row, name) for name in FINDING_FIELDS} for row in findings],
    })


def of_another_edition(approach: "Approach") -> Finding:
    """That everything was compared with figures that this page does not mean."""
    return Finding(
        "set-edition", "resolve", "the figures of the approach, kept or sent from another edition of the handbook",
        chart=f"cycle {approach.identity.cycle}",
        why="The page and the figures are not of one edition; a minimum or a course may have changed between them.",
        action="Load the page again with a network, and check again.",
    )


def validity(approach: "Approach") -> "list[str]":
    """The first day of the approach's data, the day on which the next ones take over, and both in words."""
    cycle = airac.cycle(approach.identity.cycle)
    words = f"Data of cycle {cycle.ident}, in force {cycle.held}."
    return [airac.iso(cycle.effective), airac.iso(cycle.expiry), words]


def about(approach: "Approach", aircraft: "Aircraft | None") -> str:
    """What the entries were compared with, in words."""
    identity = approach.identity
    aircraft_words = (f"{aircraft.type.name}, category {aircraft.type.category}" if aircraft else
                      "any type: the highest minimum of each line counts")
    return f"{identity.airport} {identity.title}, chart of cycle {identity.cycle}; {aircraft_words}."

"""Parts of the forms that an approach and a type are chosen in: rows, entries, the two choices."""

from lpv.aircraft import record as aircraft
from lpv.core.text import UNIT_SIGNS
from lpv.files.json_form import as_text, to_json
from lpv.forms.fields import Choice, Field, Number
from lpv_site.department import files as department_files
from lpv_site.department.data import DOCS
from lpv_site.text.text import escape, verbatim

ANY = "-"  # no file of a type has this name
DAY = "day."  # begins the source of a field that holds for one day


class Parts:
    """The parts of one form.  box: the id of its element, which the ids in it begin with."""

    def __init__(self, box: str) -> None:
        self.box = box

    def row(self, key: str, label: str, entry: str, wide: bool = False, hint: str = "") -> str:
        """An entry with its label, and room for what is wrong about it."""
        identity = f"{self.box}-{key}"
        tip = f'<span class="hb-hint" id="{identity}-hint">{escape(hint)}</span>' if hint else ""
        return (
            f'<div class="hb-field{" hb-wide" if wide else ""}"><label for="{identity}">{label}</label>'
            f'<span class="hb-entry">{entry}</span>{tip}<span class="hb-error" id="{identity}-error"></span></div>'
        )

    def about(self, key: str, hint: str = "") -> str:
        """The attributes of an entry; hint: id of what describes it."""
        identity = f"{self.box}-{key}"
        described = f"{hint} {identity}-error".strip()
        return f'id="{identity}" name="{key}" aria-describedby="{described}"'

    def entry(self, field: Field, hint: str | None = "") -> str:
        """The element to type or to choose in; hint: id of its hint, "" for its own if it has one, None for none."""
        own_hint = f"{self.box}-{field.key}-hint" if field.hint else ""
        about = self.about(field.key, own_hint if hint == "" else hint or "")
        if field.kind == "title":
            return f'<select {about} class="hb-title"><option value="">choose</option></select>'
        if isinstance(field, Choice):
            options = "".join(
                f'<option value="{verbatim(value)}">{escape(label)}</option>' for value, label in field.options)
            return f"<select {about}>{options}</select>"
        if isinstance(field, Number):
            return _number(field, about)
        if field.kind == "day":
            return f'<input {about} type="date">'
        keys = 'inputmode="numeric"' if field.key == "cycle" else 'autocapitalize="characters"'
        return f'<input {about} {keys} spellcheck="false">'

    def approach(self) -> str:
        """The approaches of the site, which docs/assets/choose.js brings, and an entry to narrow them."""
        chosen = f'<select {self.about("approach")}><option value="">choose</option></select>'
        return (
            f'<div class="hb-field hb-wide" hidden><label for="{self.box}-narrow">Find the approach</label>'
            f'<input id="{self.box}-narrow" type="search" class="hb-narrow" '
            f'aria-describedby="{self.box}-narrow-hint">'
            f'<span class="hb-hint" id="{self.box}-narrow-hint">airport or runway</span></div>'
            + self.row("approach", "Approach", chosen, True)
        )

    def aircraft(self, first: str, last: str = "") -> str:
        """The types of the site's own data files; first, last: options before and after them, as HTML."""
        paths = department_files.own_first((DOCS / "aircraft").glob("*.toml"))
        types = [(path.stem, aircraft.read(path)) for path in paths]
        options = "".join(
            f'<option value="{slug}" data-figures="{verbatim(as_text(to_json(record)))}">'
            f"{escape(record.type.name)}</option>" for slug, record in types
        )
        return self.row(
            "aircraft", "Aircraft", f'<select {self.about("aircraft")}>{first}{options}{last}</select>', True)


def of_day(field: Field) -> str:
    """What marks a field of today: typed into one form, the others of this device begin with it."""
    return f' data-day="{field.source.removeprefix(DAY)}"' if field.source.startswith(DAY) else ""


def _number(field: Number, about: str) -> str:
    unit = escape(UNIT_SIGNS.get(field.unit, field.unit))
    sign = (
        f'<button type="button" class="hb-sign" aria-label="Change the sign: {escape(field.label)}">±</button>'
        if field.key == "temperature_c" else ""
    )
    return f'<input {about} inputmode="decimal"{of_day(field)}>{sign}<span class="hb-unit">{unit}</span>'

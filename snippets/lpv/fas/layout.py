"""What stands in a FAS data block: every field in order, with its width, range and step.

Source: ICAO Annex 10 Vol I, Attachment D, Table D-1.  Runs in the browser too.
"""

from lpv.core.errors import Fault, in_range, shown
from lpv.core.units import ARCSEC_PER_DEG
from lpv.fas.remainder import NAME

ARCSEC_PER_STEP = 0.0005
STEPS_PER_DEG = round(ARCSEC_PER_DEG / ARCSEC_PER_STEP)
STEP_TOLERANCE = 0.005  # of a step: degrees written with nine decimals still name one step
CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
DIGITS = "0123456789"
ROUTE_LETTERS = tuple([letter.strip() for letter in " " + CAPITALS])


class Row:
    """One field of the block.

    kind:       "whole" (int), "scaled" (float), "signed" (float, two's complement), "letter" or "text"
    bits, bit:  its width, and how many bits of the block stand before it
    first_byte, last_byte: the bytes that it touches, counted from 0
    low, high:  published range in `unit`; a scaled field counts its steps from `low`
    per_unit:   steps in one unit; `step` says the same in words
    letters:    what a letter field may hold, in the order of its codes
    """

    def __init__(
        self, name: str, what: str, kind: str, bits: int, low: float = 0, high: float = 0, unit: str = "",
        step: str = "", per_unit: float = 1, letters: "tuple[str, ...]" = (),
    ) -> None:
        self.name, self.what, self.kind, self.bits = name, what, kind, bits
        self.low, self.high, self.unit, self.step, self.per_unit = low, high, unit, step, per_unit
        self.letters = letters
        self.origin = round(low * per_unit) if kind == "scaled" else 0
        self.bit = self.first_byte = self.last_byte = 0

    def placed(self, bit: int) -> "Row":
        """The row itself, once it knows how many bits stand before it."""
        self.bit = bit
        self.first_byte, self.last_byte = bit // 8, (bit + self.bits - 1) // 8
        return self

    def allowed(self) -> str:
        """What the field may hold, in words."""
        if self.kind == "text":
            return "1 to 4 capital letters or digits"
        if self.kind == "letter":
            return ", ".join([letter or "nothing" for letter in self.letters])
        unit = " " + self.unit if self.unit else ""
        return f"{self.low} to {self.high}{unit}" + (f" in steps of {self.step}" if self.step else "")


def _angle(name: str, what: str, bits: int, most_deg: float) -> Row:
    step = f"{ARCSEC_PER_STEP} arc second"
    return Row(name, what, "signed", bits, -most_deg, most_deg, "deg", step, STEPS_PER_DEG)


LAYOUT = (
    Row("operation_type", "operation type", "whole", 4, 0, 15),
    Row("sbas_provider", "SBAS provider", "whole", 4, 0, 15),
    Row("airport", "airport identifier", "text", 32),
    Row("runway_number", "runway number", "whole", 6, 0, 36),
    Row("runway_letter", "runway letter", "letter", 2, letters=("", "R", "C", "L")),
    Row("performance_designator", "approach performance designator", "whole", 3, 0, 7),
    Row("route_indicator", "route indicator", "letter", 5, letters=ROUTE_LETTERS),
    Row("reference_path_data_selector", "reference path data selector", "whole", 8, 0, 48),
    Row("reference_path_id", "reference path identifier", "text", 32),
    _angle("ltp_latitude_deg", "LTP latitude", 32, 90.0),
    _angle("ltp_longitude_deg", "LTP longitude", 32, 180.0),
    Row("ltp_height_m", "LTP height above the ellipsoid", "scaled", 16, -512.0, 6041.5, "m", "0.1 m", 10),
    _angle("delta_fpap_latitude_deg", "FPAP latitude minus LTP latitude", 24, 1.0),
    _angle("delta_fpap_longitude_deg", "FPAP longitude minus LTP longitude", 24, 1.0),
    Row("tch", "threshold crossing height", "scaled", 15, 0.0, 3276.7, "ft", "0.1 ft", 10),
    Row("tch_unit", "unit of the threshold crossing height", "letter", 1, letters=("ft", "m")),
    Row("gpa_deg", "glidepath angle", "scaled", 16, 0.0, 90.0, "deg", "0.01 deg", 100),
    Row("course_width_m", "course half-width at the threshold", "scaled", 8, 80.0, 143.75, "m", "0.25 m", 4),
    Row("length_offset_m", "length offset", "scaled", 8, 0.0, 2032.0, "m", "8 m", 0.125),
    Row("hal_m", "horizontal alert limit", "scaled", 8, 0.0, 50.8, "m", "0.2 m", 5),
    Row("val_m", "vertical alert limit", "scaled", 8, 0.0, 50.8, "m", "0.2 m", 5),
)
TCH_IN_M = Row("tch", "threshold crossing height", "scaled", 15, 0.0, 1638.35, "m", "0.05 m", 20)
NAMES = tuple([row.name for row in LAYOUT])

_bit = 0
for _row in LAYOUT:
    _bit += _row.placed(_bit).bits
TCH_IN_M.placed(LAYOUT[NAMES.index("tch")].bit)
LAYOUT_TCH_IN_M = tuple([TCH_IN_M if row.name == "tch" else row for row in LAYOUT])


def rows(tch_unit: object) -> "tuple[Row, ...]":
    """The layout, with the range and step that TCH has in this unit ("m", else ft)."""
    return LAYOUT_TCH_IN_M if tch_unit == "m" else LAYOUT


def nearest(name: str, value: float, tch_unit: str = "ft") -> float:
    """The step of a numeric field nearest to `value`, in its unit.

    Raises DomainError outside the field's range, KeyError for a name that is no numeric field's.
    """
    for row in rows(tch_unit):
        if row.name == name and row.step:
            in_range(name, value, row.low, row.high, row.unit)
            return round(value * row.per_unit) / row.per_unit
    raise KeyError(name)


def on_steps(values: "dict[str, object]") -> "dict[str, float]":
    """The numeric fields of a segment without faults, each moved onto the step that it names."""
    coded = {}
    for row in rows(values["tch_unit"]):
        number = values[row.name]
        if row.step and isinstance(number, (int, float)):
            coded[row.name] = round(number * row.per_unit) / row.per_unit
    return coded


def field_faults(values: "dict[str, object]") -> "list[Fault]":
    """Every fault of a segment's fields: missing, unknown, wrong type, out of range, between two steps.

    An FPAP beyond a pole counts as a fault of its latitude difference.  Each fault's key is the field's
    name.  Source: ICAO Annex 10 Vol I, Attachment D, Table D-1.
    """
    known = ", ".join(NAMES)
    faults = [Fault(NAME, name, "an unknown field", known, "Remove it.") for name in values if name not in NAMES]
    for row in rows(values.get("tch_unit")):
        if row.name not in values:
            faults.append(Fault(NAME, row.name, "nothing", row.allowed(), "Add it."))
        elif row.name != "tch" or values.get("tch_unit") in ("ft", "m"):
            faults += _row_faults(row, values[row.name])
    return faults or _pole_faults(values["ltp_latitude_deg"], values["delta_fpap_latitude_deg"])


def _row_faults(row: Row, value: object) -> "list[Fault]":
    if not _may_hold(row, value):
        return [Fault(NAME, row.name, shown(value), row.allowed(), "Correct it.")]
    if isinstance(value, (int, float)) and row.step:
        steps = value * row.per_unit
        if abs(steps - round(steps)) > STEP_TOLERANCE:
            action = f"The nearest step is {round(steps) / row.per_unit}."
            return [Fault(NAME, row.name, shown(value), row.allowed(), action)]
    return []


def _may_hold(row: Row, value: object) -> bool:
    if isinstance(value, str):
        if row.kind == "letter":
            return value in row.letters
        return row.kind == "text" and 1 <= len(value) <= 4 and all(c in CAPITALS + DIGITS for c in value)
    if row.kind in ("text", "letter") or isinstance(value, bool) or not isinstance(value, (int, float)):
        return False
    return row.low <= value <= row.high and (row.kind != "whole" or isinstance(value, int))


def _pole_faults(latitude_deg: object, delta_deg: object) -> "list[Fault]":
    if isinstance(latitude_deg, (int, float)) and isinstance(delta_deg, (int, float)):
        fpap_deg = latitude_deg + delta_deg
        if abs(fpap_deg) > 90.0:
            effect = f"{delta_deg}, which puts the FPAP at latitude {fpap_deg}"
            return [Fault(NAME, "delta_fpap_latitude_deg", effect, "an FPAP between the poles", "Correct it.")]
    return []

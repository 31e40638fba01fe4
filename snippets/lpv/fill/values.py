"""Values that are filled from a chart, as one cell of a table: text to value and back.

A number stands as it is; "none" says that somebody looked and the chart prints none.

    notes     one after the other, separated by " | "
    lights    kind, then the length in ft: "MALSR 2400"
    missed    altitude in ft, a colon, the words: "4000: Climb to 4000 direct ..."
    minima    lines separated by ";": line, categories, ft, then "hat 250" and one of "vis 0.75 SM", "vis 1200 m",
              "rvr 2400 ft", "rvr 550 m" where printed: "LPV ABCD 264 hat 250 vis 0.75 SM; LNAV CD 480 rvr 5000 ft"
"""

import re
from typing import Any

from lpv.approach.record import Approach
from lpv.approach.schema import KINDS, TO_BE_FILLED
from lpv.core.errors import DomainError, shown
from lpv.core.text import trimmed

NONE = "none"
NUMBERS = ("tdze_ft", "vnav_lowest_c", "vnav_highest_c", "cold_temperature_airport_c",
           "missed.climb_gradient_ft_per_nm", "variation_year")
WHOLE = ("variation_year",)
VISIBILITY = {("vis", "SM"): "visibility_sm", ("vis", "m"): "visibility_m", ("rvr", "ft"): "rvr_ft",
              ("rvr", "m"): "rvr_m"}
EXAMPLES = {
    "minima": "LPV ABCD 264 hat 250 vis 0.75 SM; LNAV CD 480 rvr 5000 ft", "notes": "Procedure NA at night. | Use QNH.",
    "lights": "MALSR 2400", "missed": "4000: Climb to 4000 direct SANDY and hold.",
    **dict.fromkeys(NUMBERS, "a number"),
}
_NUMBER = r"-?\d+(?:\.\d+)?"
_MINIMA = re.compile(
    rf"({'|'.join(map(re.escape, KINDS))}) +([A-E]+) +({_NUMBER})(?: +hat +({_NUMBER}))?"
    rf"(?: +(vis|rvr) +({_NUMBER}) +(SM|m|ft))?")


def value_of(key: str, text: str) -> Any:
    """The value of a cell, as the tables of a file hold it; None where the chart prints none.

    DomainError for a text that is none; KeyError for a key that is none of TO_BE_FILLED.
    """
    TO_BE_FILLED[key]
    text = text.strip()
    if text.casefold() == NONE:
        return None
    if key in NUMBERS:
        return _number(key, text)
    if key == "notes":
        return [note.strip() for note in text.split("|") if note.strip()]
    if key == "lights":
        return _lights(text)
    return _missed(text) if key == "missed" else [_minimum(part.strip()) for part in text.split(";") if part.strip()]


def _refused(key: str, text: str) -> DomainError:
    return DomainError(f"{key}: found {shown(text)}; allowed: {EXAMPLES[key]}, or none.")


def _number(key: str, text: str) -> float:
    if not re.fullmatch(_NUMBER, text.replace(",", "."), re.ASCII):
        raise _refused(key, text)
    value = float(text.replace(",", "."))
    return int(value) if value == int(value) else value


def _lights(text: str) -> dict[str, Any]:
    match = re.fullmatch(rf"(.+?) +({_NUMBER})(?: *ft)?", text, re.ASCII)
    if not match:
        raise _refused("lights", text)
    return {"name": match[1], "length_ft": _number("lights", match[2])}


def _missed(text: str) -> dict[str, Any]:
    match = re.fullmatch(rf"({_NUMBER})(?: *ft)?: *(.+)", text)
    if not match:
        raise _refused("missed", text)
    return {"text": match[2], "altitude_ft": _number("missed", match[1])}


def _minimum(text: str) -> dict[str, Any]:
    match = _MINIMA.fullmatch(text)
    if not match or (match[5] and (match[5], match[7]) not in VISIBILITY):
        raise _refused("minima", text)
    row: dict[str, Any] = {"line": match[1], "kind": KINDS[match[1]], "categories": match[2],
                           "altitude_ft": _number("minima", match[3])}
    row |= {"hat_ft": _number("minima", match[4])} if match[4] else {}
    return row | ({VISIBILITY[match[5], match[7]]: _number("minima", match[6])} if match[5] else {})


def text_of(approach: Approach, key: str) -> str:
    """The value that a file holds as one cell; NONE where nothing stands there."""
    holder: Any = approach.chart
    for name in key.split("."):
        holder = getattr(holder, name, None)
    if holder is None or holder == ():
        return NONE
    if key == "notes":
        return " | ".join(holder)
    if key == "lights":
        return f"{holder.name} {trimmed(holder.length_ft)}"
    if key == "missed":
        return f"{trimmed(holder.altitude_ft)}: {holder.instruction}"
    return "; ".join(map(_minimum_text, holder)) if key == "minima" else f"{trimmed(holder)}"


def _minimum_text(row: Any) -> str:
    parts = [row.line, row.categories, f"{trimmed(row.altitude_ft)}"]
    parts += [] if row.hat_ft is None else [f"hat {trimmed(row.hat_ft)}"]
    for (name, unit), field in VISIBILITY.items():
        if getattr(row, field) is not None:
            parts.append(f"{name} {trimmed(getattr(row, field))} {unit}")
    return " ".join(parts)

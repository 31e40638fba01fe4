"""Every approach that is coded at an airport, leg by leg in words: also those of which no approach file is made.

    lpv import FILE --airport XXXX --list [--approach H08-Y] [--json]
"""

from typing import Any

from lpv.arinc import leg_rows
from lpv.arinc import levels as arinc_levels
from lpv.arinc.columns import variation_deg
from lpv.arinc.consistency import measured_true
from lpv.arinc.flown import Flown, Reckoning, flown
from lpv.arinc.layouts import AIRPORT
from lpv.arinc.leg_words import rnp_words, words
from lpv.arinc.legs import legs_of
from lpv.arinc.odd_codes import out_of_place
from lpv.arinc.procedure import procedure
from lpv.arinc.reader import Source
from lpv.arinc.records import Lookup
from lpv.arinc.scope import Coded, approaches
from lpv.core.errors import DataError
from lpv.files.json_form import printed


def listed(source: Source, name: str = "") -> list[tuple[Coded, list[Flown], str]]:
    """(approach, its legs, in words why they cannot be told) of each approach, or of the one of a name."""
    return [(coded, *_legs(Lookup(airport, source), coded)) for airport in source.airports()
            for coded in approaches(airport, source.name) if name in ("", coded.name)]


def _legs(lookup: Lookup, coded: Coded) -> tuple[list[Flown], str]:
    if lookup.airport.is_heliport:
        return [], "legs of approaches to heliports are not listed"
    try:
        airport = lookup.needed("PA", lookup.airport.ident, AIRPORT, "variation")
        reckoning = Reckoning(measured_true(airport), variation_deg(airport["variation"]))
        primaries, _ = arinc_levels.split(lookup.named("PF", coded.name), lookup.source.name)
        return flown(legs_of(primaries, lookup.source.name), lookup.place, reckoning), ""
    except DataError as error:
        return [], str(error)


def as_text(entries: list[tuple[Coded, list[Flown], str]]) -> str:
    """All of it in words, one leg a line."""
    lines = []
    for coded, legs, why in entries:
        lines.append(f"{coded.airport} {coded.name}: {coded.reason or coded.level}")
        lines += [f"  {why}"] if why else []
        for leg in legs:
            place = " ".join(filter(None, (leg.leg.transition, leg.leg.sequence)))
            more = "".join(f"; {text}" for text in (rnp_words(leg.leg), leg.missing) if text)
            lines.append(f"  {place} {leg.leg.terminator}: {words(leg)}{more}")
        lines += [f"  not understood: {text}" for text in _not_understood(coded, legs)]
    return "\n".join(lines)


def as_json(entries: list[tuple[Coded, list[Flown], str]]) -> str:
    """The same as JSON, the legs as rows of an approach file."""
    rows: list[dict[str, Any]] = [
        {**vars(coded), "legs": [leg_rows.row(leg) for leg in legs], "not_told": why,
         "not_understood": _not_understood(coded, legs)} for coded, legs, why in entries]
    return printed(rows)


def _not_understood(coded: Coded, legs: list[Flown]) -> list[str]:
    remarks = [text for leg in legs for text in leg_rows.not_understood(leg)]
    return remarks + out_of_place(legs, procedure(coded.name).kind)

"""The figures that a set-up is compared with, as texts: "key TAB text" lines that the browser hands on unread.

Written by the build from data files, read where there are none.  A number is written with as many decimals as it
has, so that both Pythons read the very number that the file holds.
"""

from lpv.core.errors import DomainError, shown
from lpv.forms.fields import read_decimal
from lpv.modes.rules import RULES, usual_rules
from lpv.setup.wanted import Charted, Flown

MOST_DECIMALS = 9
MINIMUM, RULE = "minimum ", "rule "


def exact_text(value: float) -> str:
    """A number with as many decimals as it has, at most nine; DomainError for one that has more or is not finite."""
    if abs(value) < 1e6:
        for places in range(MOST_DECIMALS + 1):
            digits = round(abs(value) * 10**places)
            if digits / float(10**places) == abs(value):
                text = str(digits // 10**places) + ("." + str(10**places + digits % 10**places)[1:] if places else "")
                return "-" + text if value < 0.0 else text
    raise DomainError(f"a figure of a data file: found {value}; allowed: at most {MOST_DECIMALS} decimals, below 1e6.")


def charted_texts(charted: Charted) -> "list[tuple[str, str]]":
    """What the chart prints, as (key, text); what it does not print is left out."""
    rows = [
        ("airport", charted.airport), ("title", charted.title), ("channel", str(charted.channel)),
        ("path_id", charted.path_id), ("cycle", charted.cycle), ("best_level", charted.best_level),
    ]
    for number, (line, kind, categories, altitude_ft) in enumerate(charted.minima, 1):
        rows.append((MINIMUM + str(number), " ".join([line, kind, categories, exact_text(altitude_ft)])))
    figures = (
        ("course_deg", charted.course_deg), ("missed_altitude_ft", charted.missed_altitude_ft),
        ("airport_elevation_ft", charted.airport_elevation_ft), ("floor_from_ft", charted.floor_from_ft),
        ("cold_c", charted.cold_c),
    )
    return rows + [(key, exact_text(value)) for key, value in figures if value is not None]


def flown_texts(flown: Flown) -> "list[tuple[str, str]]":
    """What a set-up depends on in a type, as (key, text); of the rules those that are not the usual ones.

    What a type announces is left out: no finding depends on it.
    """
    rows = [
        ("name", flown.name), ("category", flown.category),
        ("lowest_da_above_tdze_ft", exact_text(flown.lowest_da_above_tdze_ft)),
        ("above_mda_ft", exact_text(flown.above_mda_ft)),
    ]
    usual = usual_rules()
    chosen = [(key, getattr(flown.rules, key), getattr(usual, key)) for key in sorted(RULES)]
    return rows + [(RULE + key, mine) for key, mine, same in chosen if mine != same]


def charted_of(lines: str) -> Charted:
    """What the chart prints, from its lines; DomainError if they are no such lines."""
    texts = texts_of(lines)
    keys = [line.split("\t")[0] for line in lines.split("\n")]
    minima = [_minimum(texts[key]) for key in keys if key.startswith(MINIMUM)]
    return Charted(
        _text(texts, "airport"), _text(texts, "title"), int(_figure(texts, "channel")), _text(texts, "path_id"),
        _figure(texts, "course_deg"), _text(texts, "cycle"), _text(texts, "best_level"), minima,
        _optional(texts, "missed_altitude_ft"), _figure(texts, "airport_elevation_ft"),
        _figure(texts, "floor_from_ft"), _optional(texts, "cold_c"),
    )


def flown_of(lines: str) -> Flown:
    """A type, from its lines; DomainError if they are no such lines."""
    texts = texts_of(lines)
    chosen = {key: texts[RULE + key] for key in RULES if RULE + key in texts}
    return Flown(
        _text(texts, "name"), _text(texts, "category"), _figure(texts, "lowest_da_above_tdze_ft"),
        _figure(texts, "above_mda_ft"), usual_rules(**chosen),
    )


def texts_of(lines: str) -> "dict[str, str]":
    """The texts of "key TAB text" lines by their keys; the last one counts."""
    found = {}
    for line in lines.split("\n"):
        key, _, text = line.partition("\t")
        found[key] = text
    return found


def _text(texts: "dict[str, str]", key: str) -> str:
    if not texts.get(key, ""):
        raise DomainError(f"{key}: found nothing; allowed: a text. Load the page again.")
    return texts[key]


def _figure(texts: "dict[str, str]", key: str) -> float:
    return read_decimal(_text(texts, key), MOST_DECIMALS, key)


def _optional(texts: "dict[str, str]", key: str) -> "float | None":
    return _figure(texts, key) if key in texts else None


def _minimum(text: str) -> "tuple[str, str, str, float]":
    parts = text.split(" ")
    if len(parts) != 4:
        raise DomainError(f"minimum: found {shown(text)}; allowed: line, kind, categories and altitude.")
    return parts[0], parts[1], parts[2], read_decimal(parts[3], MOST_DECIMALS, "altitude")

"""The facts registry: every figure that is not computed, with its source.

A fact is a row in one of the subject modules beside this file:

    key: (value, unit, what it is, source key, place in the source, status, remark)

The key ends in the unit as names in this project do (`hal_lpv_m`).  Statuses
are listed in STATUSES; pages print them in words.  `published` is only what
stands in print; what follows from it is `derived`, and its place then begins
with "from" and says what from.  Plain Python without any import but siblings,
since the calculators in the browser read the same rows.
"""

from lpv.facts import (
    consequence,
    constellation,
    crosscheck,
    drill,
    geometry,
    integrity,
    modes,
    motion,
    operations,
    own,
    planning,
    recording,
    scaling,
    segment,
    standards,
    temperature,
    visual,
)

STATUSES = (
    "published",
    "published, quoted",
    "derived",
    "common practice",
    "from memory",
    "invented",
)


# Figures that code takes as whole tables: one of them alone cannot be another.
IN_TABLES = ("rvr_", "easa_rvr_", "plane_", "slot_")


class Fact:
    """One figure with its unit, meaning, source, place, status and remark.

    ours: the handbook's own fact, where a department has put its own figure in the place of it; else None
    """

    def __init__(
        self, key: str, row: "tuple[float | str, str, str, str, str, str, str]", ours: "Fact | None" = None,
    ) -> None:
        self.key = key
        self.ours = ours
        self.value, self.unit, self.what, self.source, self.place, self.status, self.remark = row


SUBJECTS = {
    "segment": segment.FACTS,
    "geometry": geometry.FACTS,
    "scaling": scaling.FACTS,
    "temperature": temperature.FACTS,
    "motion": motion.FACTS,
    "visual": visual.FACTS,
    "operations": operations.FACTS,
    "integrity": integrity.FACTS,
    "modes": modes.FACTS,
    "constellation": constellation.FACTS,
    "planning": planning.FACTS,
    "consequence": consequence.FACTS,
    "crosscheck": crosscheck.FACTS,
    "drill": drill.FACTS,
    "standards": standards.FACTS,
    "recording": recording.FACTS,
}

FACTS = {}
for _subject, _rows in SUBJECTS.items():
    for _key, _row in _rows.items():
        if _key in FACTS:
            raise ValueError(f"fact {_key} stands twice, the second time in {_subject}")
        FACTS[_key] = Fact(_key, _row)


def override(rows: "dict[str, tuple[float | str, str, str, str, str, str, str]]") -> None:
    """Put a department's own figures in the place of ours, before anything has read them.

    KeyError for a key that we do not have.
    """
    for key, row in rows.items():
        FACTS[key] = Fact(key, row, FACTS[key])


override(own.FACTS)


def fact(key: str) -> Fact:
    """The fact with this key; KeyError with the key if there is none."""
    return FACTS[key]


def remembered(*keys: str) -> str:
    """ ", from memory" if one of these facts was read in no document, else "": to print beside what rests on them.

    KeyError if there is no fact of a key.
    """
    return ", from memory" if any(FACTS[key].status == "from memory" for key in keys) else ""


def value(key: str) -> float:
    """The number of a fact, in the unit that its key ends in; KeyError if unknown."""
    return float(FACTS[key].value)


def value_of(key: str) -> float:
    """As `value`, of a key that code puts together, which no type check can know."""
    return value(key)

"""What the coded name of an approach says: R28LZ, H08-Y, RNV-A, R110.

Source: ARINC Specification 424-18, field 5.10; published records show R28L, R08-Z, H08-Y and RNV-A, the name with a
course in place of a runway is from memory.
"""

import re
from dataclasses import dataclass

from lpv.arinc import codes

_RUNWAY = re.compile(r"([A-Z])((?:0[1-9]|[12]\d|3[0-6])[LRC]?)(?:-?([A-Z0-9]))?-?", re.ASCII)
_COURSE = re.compile(r"([A-Z])([0-2]\d{2}|3[0-5]\d|360)(?:-?([A-Z]))?", re.ASCII)
_CIRCLING = re.compile(r"([A-Z]{3})-?([A-Z])", re.ASCII)
CIRCLING_KINDS = {"RNV": "R", "GPS": "P", "VOR": "V", "VDM": "D", "NDB": "N", "NDM": "Q", "LOC": "L", "LBC": "B",
                  "TAC": "T", "LDA": "X"}
RNAV, RNP, GPS = "R", "H", "P"
TITLES = {RNP: "RNAV (RNP)", GPS: "GPS"}  # by FAA rules; that of GPS is from memory
FILES = {RNP: "rnp", GPS: "gps"}


@dataclass(frozen=True)
class Procedure:
    """The name of an approach taken apart; "" for what it does not have.

    kind:     the letter of its kind, a key of `lpv.arinc.codes.KINDS`
    runway:   "28L"
    multiple: the letter that tells approaches to one runway apart
    circling: the letter of an approach that leads to no runway
    course:   the final course of an approach for helicopters that leads to no runway
    """

    kind: str
    runway: str = ""
    multiple: str = ""
    circling: str = ""
    course: str = ""

    @property
    def kind_words(self) -> str:
        """Its kind in words."""
        return codes.KINDS.get(self.kind, f"kind {self.kind}")


def procedure(name: str) -> Procedure:
    """A coded name taken apart; one that follows no rule known here keeps its first letter alone."""
    if match := _COURSE.fullmatch(name):
        return Procedure(match[1], course=match[2], multiple=match[3] or "")
    if match := _RUNWAY.fullmatch(name):
        return Procedure(match[1], runway=match[2], multiple=match[3] or "")
    if (match := _CIRCLING.fullmatch(name)) and match[1] in CIRCLING_KINDS:
        return Procedure(CIRCLING_KINDS[match[1]], circling=match[2])
    return Procedure(name[:1])


def title(procedure: Procedure, runway: str, rule: str) -> str:
    """The title as charts by these rules print it: "RNAV (GPS) Z RWY 28L", "RNP Y RWY 08 (AR)"."""
    if rule != "FAA":
        return " ".join(filter(None, ("RNP", procedure.multiple or procedure.circling, f"RWY {runway}"))) + (
            " (AR)" if procedure.kind == RNP else "")
    kind = TITLES.get(procedure.kind, "RNAV (GPS)")
    if procedure.circling:
        return f"{kind}-{procedure.circling}"
    if procedure.course:
        return " ".join(filter(None, ("COPTER", kind, procedure.multiple, procedure.course)))
    return " ".join(filter(None, (kind, procedure.multiple, f"RWY {runway}")))


def slug(airport: str, procedure: Procedure, runway: str, rule: str) -> str:
    """The name of its file: "khwd-rnav-28l-z"."""
    kind = "rnp" if rule != "FAA" else FILES.get(procedure.kind, "rnav")
    last = [procedure.circling] if procedure.circling else [procedure.course or runway, procedure.multiple]
    return "-".join(part for part in (airport, kind, *last) if part).lower()

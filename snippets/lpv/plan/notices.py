"""Published notices about GPS and SBAS: what kind it is, what it means, what to plan.

Only the forms that the Aeronautical Information Manual (FAA) prints are known; every other text is
"unknown" and stays to be read by a person.  A cut notice is unknown too: what was cut may change it.
"""

import re
from dataclasses import dataclass

from lpv.core.errors import in_range

SOURCE = "aim-2026"
UNKNOWN = "unknown"


@dataclass(frozen=True)
class Kind:
    """A kind of notice: its permanent name, what it means, what to plan, and where that is published.

    told says whether air traffic control tells it to pilots: in words, since it differs by kind.  place says which
    of this the paragraph holds, where it does not hold all.
    """

    name: str
    means: str
    plan: str
    told: str
    place: str
    status: str


@dataclass(frozen=True)
class Notice:
    """A notice that was read: the text on one line, its kind, the minima and the radius that it names."""

    text: str
    kind: Kind
    minima: tuple[str, ...] = ()
    radius_nm: float | None = None


MAY_NOT_BE = Kind(
    "sbas-may-not-be-available",
    "A prediction: vertical guidance, sometimes lateral too, may be missing at times.",
    "Plan as if the named minima were not there. They may be flown if the avionics show the level available.",
    "Air traffic control does not volunteer it for a single site: read it before the flight.",
    "1-1-18.c.5(a), (c): what may be missing, what may be flown if shown, what the controller says; "
    "to plan without the minima is this handbook's caution",
    "published",
)
NOT_AVAILABLE = Kind(
    "sbas-not-available",
    "The SBAS service is lost over an area: no LPV, LP or SBAS LNAV/VNAV.",
    "Plan on GPS alone: check RAIM, use LNAV or LNAV/VNAV with approved barometric path, or ground aids.",
    "Air traffic control tells pilots who ask for an RNAV (GPS) approach, unless it is on the ATIS.",
    "1-1-18.c.5(b): the loss, what the controller says; c.8: GPS alone with RAIM; "
    "which lines to plan on is this handbook's caution",
    "published",
)
INTERFERENCE = Kind(
    "gps-interference-test",
    "A test may take away GPS, SBAS and all that lives on them inside the radius.",
    "Plan an approach with ground aids at the destination or the alternate, and a missed approach too.",
    "Air traffic control tells pilots cleared for a GPS approach and asks for their intentions; after reports of "
    "anomalies it may clear another approach.",
    "1-1-18.c.6: the form, what the controller does; the plan is this handbook's caution",
    "published",
)
CHART_WITHOUT_NOTICES = Kind(
    "chart-without-site-notices",
    "The chart is marked: for this site no SBAS notices are issued, and daily vertical outages may come.",
    "Plan on LNAV or circling, at the destination and at the alternate; an area-wide loss is still announced.",
    "Air traffic control gives no advisories for this site.",
    "1-1-18.c.7",
    "published",
)
NOT_KNOWN = Kind(
    UNKNOWN,
    "Not one of the published forms, or cut: nothing is concluded from it.",
    "Read the whole notice. Until it is clear, plan as if the service that it names were not there.",
    "",
    "",
    "common practice",
)
KINDS = (MAY_NOT_BE, NOT_AVAILABLE, INTERFERENCE, CHART_WITHOUT_NOTICES, NOT_KNOWN)

_HEAD = r"(?:!?FDC )?(?:!?FDC )?(?:\d+/\d+ )?(?:[A-Z]{3} )?NAV "
_LINES = r"(?:LPV|LP|LNAV/VNAV|VNAV|LNAV)"
_AVAILABLE = r"(?:AVBL|AVAILABLE)"
_REST = r"(?:[ .,]+(?P<rest>.*))?"
_MAY_NOT = re.compile(
    rf"{_HEAD}WAAS (?P<minima>{_LINES}(?:/{_LINES})*) MINIMA MAY NOT BE {_AVAILABLE}{_REST}"
)
_NOT = re.compile(rf"{_HEAD}WAAS (?:IS )?NOT {_AVAILABLE}{_REST}")
_TEST = re.compile(
    rf"!?GPS \d+/\d+ (?:[A-Z]{{3}} )?NAV GPS \((?P<systems>[A-Z, -]+)\) MAY NOT BE {_AVAILABLE} "
    rf"WITHIN AN? (?P<radius>\d+) ?NM RADIUS{_REST}"
)
_TAKEN_BACK = re.compile(r"\b(?:CANCEL\w*|CNL|NOTAMC|TERMINATED|RESTORED|RTS)\b")


def read_notice(text: str) -> Notice:
    """The notice in one of the published forms, or of the kind "unknown".

    Upper and lower case, line ends and repeated spaces make no difference. A notice that cancels
    another is unknown. Texts of more than 5000 characters raise DomainError.
    """
    in_range("length of a notice", len(text), 0, 5000, "characters")
    line = " ".join(text.split()).upper()
    if _TAKEN_BACK.search(line):
        return Notice(line, NOT_KNOWN)
    if found := _MAY_NOT.fullmatch(line):
        return Notice(line, MAY_NOT_BE, minima=_named(found["minima"]))
    if _NOT.fullmatch(line):
        return Notice(line, NOT_AVAILABLE)
    if (found := _TEST.fullmatch(line)) and 0 < int(found["radius"]) <= 9999:
        return Notice(line, INTERFERENCE, radius_nm=float(found["radius"]))
    return Notice(line, NOT_KNOWN)


def _named(minima: str) -> tuple[str, ...]:
    """The minima named: "VNAV/LPV/LP" is LNAV/VNAV, LPV and LP."""
    parts = minima.replace("LNAV/VNAV", "VNAV").split("/")
    return tuple("LNAV/VNAV" if part == "VNAV" else part for part in parts)


def kind_name(text: str) -> str:
    """The name of the kind of a notice."""
    return read_notice(text).kind.name

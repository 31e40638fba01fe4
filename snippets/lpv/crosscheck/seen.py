"""What a crew sees differently of an approach that changed from one cycle to the next, in the lines of a bulletin."""

from collections.abc import Callable
from dataclasses import dataclass

from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.core.text import course, quantity
from lpv.decide.final_path import altimeter_at_pfaf_ft, descent_angle_deg, standard_temperature_c
from lpv.decide.lines import best_row
from lpv.motion.kinematics import descent_rate_fpm

SPEED_KT = 140
NONE = "none"


@dataclass(frozen=True)
class Seen:
    """One thing that a crew sees differently.

    key:      what it is, one of KEYS
    words:    the line: "course: 092°, now 093°"
    """

    key: str
    words: str


def _runway(approach: Approach) -> tuple[str, str]:
    return "runway", approach.identity.runway


def _title(approach: Approach) -> tuple[str, str]:
    return "title", approach.identity.title


def _altimeter(approach: Approach) -> tuple[str, str]:
    reads_ft = altimeter_at_pfaf_ft(approach, standard_temperature_c(approach))
    return "altimeter on the glidepath at the FAF, standard day", (
        f"{quantity(reads_ft, 'ft')} at {approach.pfaf.name}")


def _rate(approach: Approach) -> tuple[str, str]:
    return f"rate of descent at {quantity(SPEED_KT, 'kt')}", quantity(
        descent_rate_fpm(SPEED_KT, descent_angle_deg(approach)), "ft/min")


def _course(approach: Approach) -> tuple[str, str]:
    return "course", f"{course(approach.chart.course_deg)} {approach.chart.course_reference}"


def _minimum(approach: Approach) -> tuple[str, str]:
    row = best_row(approach)
    return "minimum", NONE if row is None else f"{row.line} {row.kind} {quantity(row.altitude_ft, 'ft')}"


def _channel(approach: Approach) -> tuple[str, str]:
    return "channel", str(approach.identity.channel)


def _path_id(approach: Approach) -> tuple[str, str]:
    return "path identifier", approach.identity.path_id


def _crossing(approach: Approach) -> tuple[str, str]:
    tch_ft = approach.chart.tch_ft
    return "threshold crossing height", NONE if tch_ft is None else quantity(tch_ft, "ft")


def _missed(approach: Approach) -> tuple[str, str]:
    missed = approach.chart.missed
    return "missed approach altitude", NONE if missed is None else quantity(missed.altitude_ft, "ft")


# In the order in which a bulletin tells them: which approach it is, then what misleads farthest.  With each the places
# in the files of which it tells (`lpv.crosscheck.changes`).
KEYS: dict[str, tuple[Callable[[Approach], tuple[str, str]], tuple[str, ...]]] = {
    "runway": (_runway, ("identity.runway", "segment.runway_number", "segment.runway_letter")),
    "title": (_title, ("identity.title",)),
    "altimeter": (_altimeter, ("chart.threshold_elevation_ft",)),
    "rate": (_rate, ("chart.glidepath_deg", "segment.gpa_deg")),
    "course": (_course, ("chart.course_deg", "chart.course_reference", "database.course_deg")),
    "minimum": (_minimum, ("chart.minima.altitude_ft",)),
    "channel": (_channel, ("identity.channel", "database.channel")),
    "path identifier": (_path_id, ("identity.path_id", "database.path_id", "segment.reference_path_id")),
    "crossing": (_crossing, ("chart.tch_ft", "segment.tch")),
    "missed": (_missed, ("chart.missed.altitude_ft",)),
}


def crew_changes(old: Approach, new: Approach) -> tuple[Seen, ...]:
    """What a crew sees differently, in the order of KEYS; () where nothing of it changed."""
    lines = []
    for key, (tell, _) in KEYS.items():
        (label, before), (_, now) = _told(tell, old, key), _told(tell, new, key)
        if before != now:
            lines.append(Seen(key, f"{label}: {before}, now {now}"))
    return tuple(lines)


def places(lines: tuple[Seen, ...]) -> set[str]:
    """The places in the files of which these lines tell already."""
    return {place for line in lines for place in KEYS[line.key][1]}


def _told(tell: Callable[[Approach], tuple[str, str]], approach: Approach, key: str) -> tuple[str, str]:
    """What it is and its value in words; "none" where the approach has no such thing, as an LP one no glidepath."""
    try:
        return tell(approach)
    except DomainError:
        return key, NONE

"""What a notice does to the lines of minima of one airport at one time.

Where it cannot be shown that a notice is about another place, time, area or procedure, it counts.
"""

import re
from dataclasses import dataclass
from datetime import datetime

from lpv.core.text import feet, nautical_miles
from lpv.geodesy.earth import distance_nm
from lpv.notices import kinds, words
from lpv.notices.kinds import State, worst_state
from lpv.notices.reading import Effect, Notice, Procedure, procedure_of

MARGIN_NM = 10.0
MARGIN_FT = 1000.0


@dataclass(frozen=True)
class Place:
    """An airport of the plan, as far as it is known: what a notice is compared with.

    runway, title: of the approach; None where only the airport is known
    position, highest_ft: latitude and longitude of the threshold in degrees, highest altitude of the approach
    names:         further words that mean this approach: fixes, reference path identifier, channel
    category:      approach category, "" if unknown
    others:        the other airports of the plan
    """

    airport: str
    runway: str | None = None
    title: str | None = None
    position: tuple[float, float] | None = None
    highest_ft: float | None = None
    names: tuple[str, ...] = ()
    category: str = ""
    others: tuple[str, ...] = ()


@dataclass(frozen=True)
class Reading:
    """What a notice does at one airport.

    states:       line -> state, of those that it touches
    outside:      why it does not count here, "" where it does
    in_doubt:     whether it was not understood to its end;  unread: the words that were not
    without_sbas: lines that it takes from a receiver without SBAS
    altitudes:    new minima that it gives: (line, ft)
    settled:      whether a person's reading of it stands in the file
    """

    notice: Notice
    states: dict[str, State]
    outside: str = ""
    in_doubt: bool = False
    without_sbas: frozenset[str] = frozenset()
    altitudes: tuple[tuple[str, float], ...] = ()
    unread: tuple[str, ...] = ()
    settled: bool = False

    @property
    def worst(self) -> State:
        """The gravest state that it brings to any line."""
        return worst_state(self.states.values())


def effect_at(notice: Notice, place: Place, first: datetime, last: datetime) -> Reading:
    """What a notice does to the lines of one airport from `first` to `last`, both included.

    Where it does nothing although it was about satellites, `outside` says why: another place, time, area or procedure.
    """
    for outside in (_elsewhere(notice, place), _at_another_time(notice, first, last), _out_of_area(notice, place),
                    _another_procedure(notice, place)):
        if outside:
            return Reading(notice, {}, outside)
    states: dict[str, State] = {}
    altitudes = []
    for effect in notice.effects:
        state = _at_place(effect, notice, place)
        for line in effect.lines:
            if not effect.without_sbas:
                states[line] = worst_state([states.get(line, "unaffected"), state])
            if effect.altitude_ft is not None:
                altitudes.append((line, effect.altitude_ft))
    in_doubt = notice.in_doubt((place.airport, *place.others))
    in_doubt = in_doubt or (not notice.relevant and _names_approach(notice, place))
    if in_doubt:
        for line in words.SATELLITE_LINES:
            states[line] = worst_state([states.get(line, "unaffected"), "doubted"])
    bare = frozenset(line for effect in notice.effects if effect.without_sbas for line in effect.lines)
    states = {line: state for line, state in states.items() if state != "unaffected"}
    unread = notice.unknown_words((place.airport, *place.others))
    return Reading(notice, states, "", in_doubt, bare, tuple(altitudes), unread)


def _elsewhere(notice: Notice, place: Place) -> str:
    """Whether its head names other airports, or an area-wide text another airport of the plan and not this one."""
    notam = notice.notam
    unsure = not notam.sure_place and not any(notam.names(other) for other in place.others) and any(
        effect.system and effect.kind is not kinds.AIRPORT_CLOSED for effect in notice.effects)
    if not notam.area_wide and not unsure and not notam.names(place.airport):
        return f"for {', '.join(notam.places)}"
    named = [other for other in place.others if re.search(rf"\b(?:AT|FOR|IN) {other}\b", notam.body)]
    if named and place.airport not in notam.body and not notam.names(place.airport):
        return f"for {', '.join(named)}"
    return ""


def _at_another_time(notice: Notice, first: datetime, last: datetime) -> str:
    return "" if notice.notam.in_force(first, last) else "it does not hold at this time"


def _out_of_area(notice: Notice, place: Place) -> str:
    """Whether the airport lies outside the circle, or the approach below the altitudes; unknown counts as inside."""
    area, highest_ft = notice.notam.area, place.highest_ft
    if notice.runways or notice.procedures or notice.notam.names(place.airport):
        return ""
    if area.lower_ft is not None and highest_ft is not None and area.lower_ft > highest_ft + MARGIN_FT:
        return f"it holds from {feet(area.lower_ft)} up, above this approach"
    if area.centre is None or place.position is None:
        return ""
    radius_nm = area.radius_at_nm(highest_ft if highest_ft is not None else float("inf"))
    away = distance_nm(*area.centre, *place.position)
    if radius_nm is None or away <= radius_nm + MARGIN_NM:
        return ""
    return f"{nautical_miles(away, 1)} from its center, outside its {nautical_miles(radius_nm, 1)}"


def _another_procedure(notice: Notice, place: Place) -> str:
    """Whether all procedures that it names are others than this one; systems and closed airports concern every one."""
    if notice.every_procedure or place.runway is None or not notice.runways:
        return ""
    circling = notice.effects and all(effect.lines == {"circling"} for effect in notice.effects)
    if any(effect.system for effect in notice.effects) or (circling and not notice.procedures):
        return ""
    if place.runway.zfill(2) not in notice.runways:
        return f"for runway {', '.join(notice.runways)}"
    planned = procedure_of(place.title or "", place.runway)
    named = [procedure for procedure in notice.procedures if procedure.runway == planned.runway]
    if named and not any(_same(procedure, planned) for procedure in named):
        return "it is about another procedure to this runway"
    return ""


def _same(named: Procedure, planned: Procedure) -> bool:
    return "LNAV" in named.lines and (not named.letter or not planned.letter or named.letter == planned.letter)


def _at_place(effect: Effect, notice: Notice, place: Place) -> State:
    """The state at this airport: of another category it is only noted; of an unknown runway it is at most a doubt."""
    if effect.categories and place.category and place.category not in effect.categories:
        return "noted"
    if not effect.system and place.runway is None and notice.runways and not notice.every_procedure:
        return "doubted" if effect.state in ("gone", "changed") else effect.state
    return effect.state


def _names_approach(notice: Notice, place: Place) -> bool:
    """Whether the text holds a word that means this approach: a fix, its reference path identifier, its channel."""
    tokens = set(re.findall(r"[A-Z0-9]+", notice.notam.body))
    return any(name in tokens for name in place.names)

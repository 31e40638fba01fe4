"""From coded legs to the fixes of an approach file, and to words for what such a list cannot show.

Straight legs between fixes whose positions are known become fixes with course and distance.  Holds, courses
to an altitude, arcs, feeder routes, path terminators that this project does not read, and fixes whose position is
not in the file are kept as text; nothing is left out.
"""

from collections.abc import Callable, Iterator
from typing import Any

from lpv.arinc.columns import course_deg, distance_nm
from lpv.arinc.legs import HOLDS, INITIAL, STRAIGHT, TO_A_FIX, Leg, place, stated, words
from lpv.core.dms import latitude_text, longitude_text
from lpv.core.errors import DataError, Fault

Table = dict[str, Any]
PositionOf = Callable[[Leg], tuple[float, float] | None]
FINAL, TRANSITION = "R", "A"
MISSED_LONGEST = 400


class Charted:
    """The fixes of an approach as tables of its file, in the order flown, and what they cannot show in words.

    fixes: from the initial fixes to the threshold, then those of the missed approach
    kept:  legs and restrictions in words, each with its place in the records
    route: the legs of the final route, those of the missed approach included
    final: the leg to the missed approach point
    missed: the legs after it
    """

    def __init__(self, legs: list[Leg], position_of: PositionOf, file: str) -> None:
        self.fixes: list[Table] = []
        self.kept: list[str] = []
        self.position_of = position_of
        self._last = ""  # the fix of the list at which the leg before ended, "" if it ended elsewhere
        self.route = route = [leg for leg in legs if leg.route == FINAL]
        point = _only(route, "M", "missed approach point", file)
        self.final = route[point]
        self._final_fix = _only(route[:point], "F", "final approach fix", file)
        self.missed = route[point + 1 :]
        self._names = {leg.fix for leg in route}
        self._entry: Table = {}  # the leg to the first fix of the final route, where one transition alone leads to it
        self._transitions([leg for leg in legs if leg.route == TRANSITION], route[0])
        self._route(route[: point + 1], file)
        for leg in self.missed:
            self._missed(leg)
        self.kept += [_kept(leg) for leg in legs if leg.route not in (FINAL, TRANSITION)]

    def _transitions(self, legs: list[Leg], first: Leg) -> None:
        names = dict.fromkeys(leg.transition for leg in legs)
        for name in names:
            self._transition([leg for leg in legs if leg.transition == name], first if len(names) == 1 else None)

    def _transition(self, legs: list[Leg], first: Leg | None) -> None:
        """A transition from its initial fix on; what comes before that, and feeder routes, as text."""
        self._last, begun = "", False
        for leg in legs:
            begins = begun or leg.use in INITIAL
            if begins and leg.fix not in self._names and self._placed(leg, "step-down" if begun else "IAF"):
                begun = True
            elif first is not None and self._enters(leg, first):
                self._entry = self._leg(leg)
            else:
                self._keep(leg)

    def _enters(self, leg: Leg, first: Leg) -> bool:
        """Whether a straight leg leads from a fix of the list to the first of the final route, and says no more."""
        same = leg.fix == first.fix and stated(leg) == stated(first) and not leg.speed
        return same and leg.terminator in STRAIGHT and self._last != "" and "leg_course_deg" in self._leg(leg)

    def _keep(self, leg: Leg) -> None:
        """Keeps a leg as text; unless it is a hold at the fix before, the next leg begins at no fix of the list."""
        self.kept.append(_kept(leg) + (f"; {where}" if (where := self._position_words(leg)) else ""))
        if leg.terminator not in HOLDS or leg.fix != self._last:
            self._last = ""

    def _route(self, route: list[Leg], file: str) -> None:
        self._last = ""
        for number, leg in enumerate(route):
            role = ("MAP" if leg is route[-1] else "PFAF" if number == self._final_fix
                    else "IF" if number == 0 or leg.use in ("I", "B") else "step-down")
            if self._placed(leg, role):
                self.fixes[-1] |= self._entry if number == 0 else {}
                continue
            if number >= self._final_fix and leg.terminator not in HOLDS:
                found = f"{words(leg)}; {self._position_words(leg) or 'no straight leg to a fix'}"
                raise DataError([Fault(file, f"line {leg.number}", found, "a final segment of straight legs to fixes",
                                       "Write this approach by hand.")])
            self._keep(leg)

    def _placed(self, leg: Leg, role: str) -> bool:
        """Whether the leg's fix now stands in the list, with what the leg says of it."""
        position = self.position_of(leg) if leg.terminator in TO_A_FIX else None
        if position is None or any(row["name"] == leg.fix for row in self.fixes):
            return False
        altitudes, more = stated(leg, on_path=role == "MAP" and (leg.angle != "" or leg.fix_section == "PG"))
        row = {"name": leg.fix, "role": role, "latitude": latitude_text(position[0], 2),
               "longitude": longitude_text(position[1], 2)} | altitudes
        straight = leg.terminator in STRAIGHT and self._last != ""
        if straight:
            row |= self._leg(leg)
        if leg.terminator in ("RF", "DF") or (leg.terminator in STRAIGHT and "leg_course_deg" not in row):
            self.kept.append(_kept(leg))
        elif more or leg.speed:
            self.kept.append(f"{place(leg)}: {', '.join(filter(None, (leg.fix, more, _speed(leg))))}")
        self.fixes.append(row)
        self._last = leg.fix
        return True

    def _leg(self, leg: Leg) -> Table:
        """Course and length of a straight leg from the fix before; {} for a course of the other reference."""
        course, final = course_deg(leg.course), course_deg(self.final.course)
        if course is None or final is None or course[1] != final[1]:
            return {}
        found: Table = {} if self.fixes[-1]["name"] == self._last else {"leg_from": self._last}
        found["leg_course_deg"] = course[0]
        if (distance := distance_nm(leg.distance)) is not None:
            found["leg_distance_nm"] = distance
        return found

    def _missed(self, leg: Leg) -> None:
        """Fixes of the missed approach; its legs are told in `missed_words`."""
        row = next((row for row in self.fixes if row["name"] == leg.fix), None)
        if row is not None:
            if leg.terminator in HOLDS and row["role"] == "missed":
                row["role"] = "missed hold"
            return
        position = self.position_of(leg)
        if position is not None and (leg.terminator in TO_A_FIX or leg.terminator in HOLDS):
            role = "missed hold" if leg.terminator in HOLDS else "missed"
            self.fixes.append({"name": leg.fix, "role": role, "latitude": latitude_text(position[0], 2),
                               "longitude": longitude_text(position[1], 2)} | stated(leg)[0])
        elif leg.fix and position is None:
            text = f"missed approach: {self._position_words(leg)}"
            self.kept += [text] if text not in self.kept else []

    def _position_words(self, leg: Leg) -> str:
        missing = leg.fix and self.position_of(leg) is None
        return f"position of {leg.fix} is not in the file" if missing else ""


def missed_table(legs: list[Leg]) -> tuple[Table, list[str]]:
    """The missed approach as a table of the file ({} if no altitude is coded), and what it cannot hold in words."""
    text = "As coded: " + "; ".join(map(words, legs)) + "."
    altitudes = [keys["altitude_ft"] for leg in legs if "altitude_ft" in (keys := stated(leg)[0])]
    if not legs or not altitudes or len(text) > MISSED_LONGEST:
        return {}, [_kept(leg) for leg in legs]
    return {"text": text, "altitude_ft": altitudes[-1]}, []


def not_read(legs: list[Leg]) -> Iterator[str]:
    """The path terminators that this project does not read, each with its place."""
    return (f"{place(leg)} {leg.terminator}" for leg in legs if not leg.is_understood)


def _only(legs: list[Leg], use: str, what: str, file: str) -> int:
    found = [number for number, leg in enumerate(legs) if leg.use == use]
    if len(found) != 1:
        where = f"line {legs[0].number}" if legs else ""
        raise DataError([Fault(file, where, f"{len(found)} fixes coded as {what}", "one", "Write it by hand.")])
    return found[0]


def _kept(leg: Leg) -> str:
    return f"{place(leg)}: {words(leg)}"


def _speed(leg: Leg) -> str:
    return f"speed limit {int(leg.speed)} kt" if leg.speed else ""

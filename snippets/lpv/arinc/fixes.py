"""From coded legs to the fixes of an approach file, in the order flown.

A fix stands in the list once, with the role that it has on the way in; what else it is for stands in `also`.  Course
and length of the leg that leads to it are those of the record, or computed and said to be; where several legs lead to
it, only the rows of legs (`lpv.arinc.leg_rows`) tell them apart.
"""

from typing import Any

from lpv.arinc import codes
from lpv.arinc.flown import Flown
from lpv.arinc.leg_words import words
from lpv.arinc.legs import FINAL, MISSED, TRANSITION, stated
from lpv.core.errors import DataError, Fault
from lpv.core.text import latitude, longitude

Table = dict[str, Any]
MISSED_LONGEST = 400


class Charted:
    """The fixes of an approach as tables of its file.

    fixes:  from the initial fixes to the missed approach point, then those of the missed approach
    route:  the legs of the final route to the missed approach point, included
    final:  the leg to the missed approach point
    missed: the legs after it
    """

    def __init__(self, legs: list[Flown], is_true: bool, file: str) -> None:
        self.is_true = is_true
        self.fixes: list[Table] = []
        self._also: dict[str, list[str]] = {}  # fix of the final route -> what else it is for
        self.missed = [leg for leg in legs if leg.part == MISSED]
        self.route = [leg for leg in legs if leg.part == FINAL]
        _only(self.route, "MAP", "missed approach point", file)
        self._final_fix = _only(self.route[:-1], "PFAF", "final approach fix", file)
        self.final = self.route[-1]
        self._straight_in(file)
        self._transitions([leg for leg in legs if leg.part == TRANSITION])
        self._list_route()
        for leg in self.missed:
            self._missed(leg)

    def _straight_in(self, file: str) -> None:
        """DataError where a leg of the final segment is not a straight one to a known fix."""
        for leg in self.route[self._final_fix :]:
            is_first = leg is self.route[self._final_fix]
            if leg.leg.terminator in codes.HOLDS:
                continue
            straight = leg.leg.terminator in codes.STRAIGHT or (is_first and leg.leg.terminator in codes.TO_A_FIX)
            if leg.place is None or not straight:
                leg_and_reason = f"{words(leg)}; {leg.missing or 'no straight leg to a fix'}"
                raise DataError([Fault(file, f"line {leg.leg.number}", leg_and_reason,
                                       "a final segment of straight legs to fixes", "Write this approach by hand.")])

    def _transitions(self, legs: list[Flown]) -> None:
        """The fixes of the transitions from their initial fixes on; of feeder routes the legs alone tell."""
        route = {leg.leg.fix for leg in self.route}
        begun: set[str] = set()
        for leg in legs:
            name = leg.leg.transition
            if leg.leg.role == "IAF":
                begun.add(name)
                if leg.leg.fix not in route:
                    self._put(leg, "IAF")
                else:
                    self._also.setdefault(leg.leg.fix, []).append("IAF")
            elif name in begun and leg.leg.fix not in route:
                self._put(leg, "step-down")
        self._arrivals = [leg for leg in legs if leg.leg.fix == self.route[0].leg.fix]

    def _list_route(self) -> None:
        for number, leg in enumerate(self.route):
            role = ("MAP" if leg is self.final else "PFAF" if number == self._final_fix
                    else "IF" if number == 0 or leg.leg.role == "IF" else "step-down")
            if not self._put(leg, role):
                continue
            self.fixes[-1] |= self._entry() if number == 0 else {}
            others = [*self._also.get(leg.leg.fix, []), *([leg.leg.role] if leg.leg.role == "IAF" else [])]
            if also := [other for other in dict.fromkeys(others) if other != role]:
                self.fixes[-1]["also"] = also

    def _entry(self) -> Table:
        """The leg to the first fix of the final route, where one straight leg alone leads to it."""
        arrivals = [leg for leg in self._arrivals if leg.leg.terminator not in codes.HOLDS]
        if len(arrivals) != 1 or not any(row["name"] == arrivals[0].start for row in self.fixes[:-1]):
            return {}
        return self._leg(arrivals[0], before=self.fixes[-2]["name"])

    def _put(self, leg: Flown, role: str) -> bool:
        """Whether the leg's fix now stands in the list; one that stands there already, or is unknown, is not put."""
        if leg.place is None or not leg.ends_at_fix or self._row(leg.leg.fix) is not None:
            return False
        before = self.fixes[-1]["name"] if self.fixes else ""
        row = {"name": leg.leg.fix, "role": role, "latitude": latitude(leg.place.latitude_deg, 0.01),
               "longitude": longitude(leg.place.longitude_deg, 0.01)} | altitudes(leg, on_path=role == "MAP")
        known = leg.start and self._row(leg.start) is not None
        self.fixes.append(row | (self._leg(leg, before) if known else {}))
        return True

    def _row(self, name: str) -> Table | None:
        return next((row for row in self.fixes if row["name"] == name), None)

    def _leg(self, leg: Flown, before: str) -> Table:
        """Course and length of a straight leg; {} for any other, and for a course of the other reference."""
        if leg.leg.terminator not in codes.STRAIGHT or leg.course is None:
            return {}
        if leg.course_is_true != self.is_true and not leg.course.is_computed:
            return {}
        table: Table = {} if before == leg.start else {"leg_from": leg.start}
        table["leg_course_deg"] = leg.course.value
        if leg.length is not None:
            table["leg_distance_nm"] = leg.length.value
        parts = (("course", leg.course), ("distance", leg.length))
        computed = [name for name, part in parts if part and part.is_computed]
        return table | ({"leg_computed": computed} if computed else {})

    def _missed(self, leg: Flown) -> None:
        """A missed approach fix; one that stands in the list for something else is that too."""
        if not leg.leg.fix or leg.place is None:
            return
        role = "missed hold" if leg.leg.terminator in codes.HOLDS else "missed"
        row = self._row(leg.leg.fix)
        if row is None and (leg.ends_at_fix or leg.leg.terminator in codes.FROM_A_FIX):
            self.fixes.append({"name": leg.leg.fix, "role": role, "latitude": latitude(leg.place.latitude_deg, 0.01),
                               "longitude": longitude(leg.place.longitude_deg, 0.01)} | altitudes(leg))
        elif row is not None and row["role"] == "missed" == role:
            return
        elif row is not None and row["role"] == "missed":
            row["role"] = role
        elif row is not None and row["role"] not in ("missed hold", "MAP"):
            others = [other for other in row.get("also", []) if not other.startswith("missed")]
            row["also"] = [*others, "missed hold" if "missed hold" in row.get("also", []) else role]


def altitudes(leg: Flown, *, on_path: bool = False) -> Table:
    """The altitudes of a leg as keys of a fix; a plain one at the missed approach point is one on the path."""
    altitude = stated(leg.leg)
    if altitude.is_level or altitude.altitude_ft is None:
        return {}
    has_path = leg.leg.angle_deg is not None or leg.leg.fix_section == "PG"
    if on_path and altitude.rule == codes.AT and altitude.path_ft is None and has_path:
        return {"path_altitude_ft": altitude.altitude_ft}
    rule = codes.ABOVE if altitude.rule == codes.BETWEEN else altitude.rule
    table: Table = {"altitude_ft": altitude.altitude_ft, "altitude_rule": rule}
    return table | ({} if altitude.path_ft is None else {"path_altitude_ft": altitude.path_ft})


def missed_table(legs: list[Flown]) -> Table:
    """The missed approach as a table of the file; {} if no altitude is coded, or it is too long to tell."""
    text = "As coded: " + "; ".join(map(words, legs)) + "."
    altitudes_ft = [keys["altitude_ft"] for leg in legs if "altitude_ft" in (keys := altitudes(leg))]
    if not legs or not altitudes_ft or len(text) > MISSED_LONGEST:
        return {}
    return {"text": text, "altitude_ft": altitudes_ft[-1]}


def _only(legs: list[Flown], role: str, role_words: str, file: str) -> int:
    numbers = [number for number, leg in enumerate(legs) if leg.leg.role == role]
    if len(numbers) != 1:
        where = f"line {legs[0].leg.number}" if legs else ""
        raise DataError([Fault(file, where, f"{len(numbers)} fixes coded as {role_words}", "one", "Write it by hand.")])
    return numbers[0]

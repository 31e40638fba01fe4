"""What the records of one approach say of each other: told where they differ, never decided."""

from lpv.arinc import codes, leg_rows
from lpv.arinc.columns import course_deg
from lpv.arinc.flown import Flown
from lpv.arinc.legs import Leg, place
from lpv.arinc.levels import ANNOUNCES, Levels
from lpv.arinc.lines import TAILORED, Record
from lpv.arinc.records import Lookup
from lpv.core.text import number, quantity
from lpv.fas.path_point_columns import height_m
from lpv.fas.path_point_reader import PathPoint
from lpv.geodesy import earth

TRUE = "T"
FAR_NM = 100.0  # a fix that lies farther away is worth a look
_LEG = slice(6, 38)
_AREA, _REGION, _QUALIFIERS = slice(1, 4), slice(10, 12), slice(118, 120)
DESCRIBED = {1: "column 40 (kind of the fix)", 3: "column 42 (waypoint description)"}


def measured_true(airport: dict[str, str]) -> bool:
    """Whether courses of an airport are measured from true north, by its record."""
    return airport["variation"][:1] == TRUE or airport["reference"] == TRUE


def courses_are_true(airport: dict[str, str], legs: list[Leg]) -> bool:
    """Whether courses of an approach are: where its final leg is coded so, else by the airport's record."""
    final = _final_course(legs)
    return final[1] if final else measured_true(airport)


def _final_course(legs: list[Leg]) -> tuple[float, bool] | None:
    coded = (course_deg(leg.course) for leg in legs if leg.role == "MAP")
    return next((course for course in coded if course), None)


def north_remarks(airport: dict[str, str], legs: list[Leg]) -> list[str]:
    """A final course that is coded from another north than the airport's record says, or a record that says none."""
    final, is_true = _final_course(legs), measured_true(airport)
    remarks = [f"The final course is coded {'true' if coded[1] else 'magnetic'}, the airport's record says "
               f"{'true' if is_true else 'magnetic'}." for coded in (final,) if coded and coded[1] != is_true]
    if not airport["reference"] and not is_true:
        remarks.append("Courses are taken as magnetic: the airport's record does not say from which north.")
    return remarks


def airport_remarks(lookup: Lookup) -> list[str]:
    """Areas and regions that differ among the records of an airport."""
    standard = [record.text for kind in lookup.airport.records.values() for record in kind
                if record.text[:1] != TAILORED]
    return [f"The airport's records name {len(names)} {plural}: {', '.join(sorted(names))}."
            for plural, columns in (("areas", _AREA), ("regions", _REGION))
            if len(names := {text[columns].strip() or "blank" for text in standard}) > 1]


def level_remarks(levels: Levels, continuations: list[Record], legs: list[Flown]) -> list[str]:
    """Levels that the records refuse, and qualifiers of a continuation that no leg has."""
    remarks = [f"Not authorized by the records: {', '.join(levels.refused)}."] if levels.refused else []
    continued = {record.text[_LEG] for record in continuations}
    remarks += [f"{place(leg.leg)} has a continuation that its own record does not announce."
                for leg in legs if leg.leg.line[_LEG] in continued and leg.leg.continuation != ANNOUNCES]
    known = {leg.leg.line[_QUALIFIERS] for leg in legs}
    coded = dict.fromkeys(record.text[_QUALIFIERS] for record in continuations)
    others = [text for text in coded if text not in known]
    return remarks + [
        f"A continuation has the route qualifiers {text.strip() or 'blank'}, no leg has." for text in others]


def height_remarks(runway: dict[str, str], point: PathPoint) -> list[str]:
    """A threshold whose height above the ellipsoid is another in the runway's record than in the segment."""
    if not runway["ellipsoid_height"]:
        return []
    coded_m, segment_m = height_m(runway["ellipsoid_height"]), point.segment.ltp_height_m
    if coded_m == segment_m:
        return []
    return [f"Height of the threshold above the ellipsoid: {number(coded_m, 0.1)} m by the runway record, "
            f"{number(segment_m, 0.1)} m by the path point."]


def far_remarks(point: PathPoint, legs: list[Flown]) -> list[str]:
    """Fixes that lie far from the threshold, each once."""
    segment = point.segment
    remarks: dict[str, str] = {}
    for leg in legs:
        if leg.place is None or leg.leg.fix in remarks:
            continue
        far_nm = earth.distance_nm(
            segment.ltp_latitude_deg, segment.ltp_longitude_deg, leg.place.latitude_deg, leg.place.longitude_deg)
        remarks[leg.leg.fix] = ""
        if far_nm > FAR_NM:
            far = quantity(far_nm, "NM")
            remarks[leg.leg.fix] = f"{leg.leg.fix} lies {far} from the threshold: compare its position."
    return [words for words in remarks.values() if words]


def leave_legs(lookup: Lookup, legs: list[Flown]) -> None:
    """Notes the letters of waypoint descriptions that no row of legs holds."""
    for leg in legs:
        for at, column in DESCRIBED.items():
            letter = leg.leg.described(at)
            is_held = at == 3 and (letter == codes.FIRST_MISSED or leg_rows.role(leg.leg) == "step-down")
            if letter != " " and not is_held:
                lookup.left_over[f"leg, {column}", letter] += 1

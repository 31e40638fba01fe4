"""What the controllers' handbook of the FAA allows when a flight is vectored to the final course.

United States (FAA Order JO 7110.65, 5-9-1), for aircraft other than helicopters.
It binds the controller; for a pilot it tells what to expect and what is worth a
question.  Other countries have their own limits.
"""

from lpv.core.errors import in_range
from lpv.facts import value


class Limit:
    """One limit: what it is about, allowed and actual value, and whether it is met.

    kind: "at most" or "at least", how `actual` must stand to `allowed`
    """

    def __init__(self, what: str, kind: str, allowed: float, actual: float, unit: str) -> None:
        self.what = what
        self.kind = kind
        self.allowed = allowed
        self.actual = actual
        self.unit = unit
        self.met = actual <= allowed if kind == "at most" else actual >= allowed


def approach_gate_nm(faf_distance_nm: float) -> float:
    """Distance of the approach gate from the threshold, NM: 1 outside the FAF, never under 5.

    faf_distance_nm: from the threshold, 0.1 to 50; DomainError outside.
    Source: Pilot/Controller Glossary, from memory.
    """
    in_range("distance of the FAF", faf_distance_nm, 0.1, 50.0, "NM")
    return max(value("approach_gate_lowest_nm"), faf_distance_nm + value("approach_gate_outside_faf_nm"))


def nearest_vector_nm(faf_distance_nm: float) -> float:
    """The nearest to the threshold, NM, that a vector meets the course: so far outside the approach gate.

    faf_distance_nm: as `approach_gate_nm`.  Source: FAA Order JO 7110.65 5-9-1.
    """
    return approach_gate_nm(faf_distance_nm) + value("vector_outside_gate_nm")


def highest_angle_deg(outside_gate_nm: float) -> float:
    """Greatest intercept angle, degrees: 20 less than 2 miles from the approach gate, 30 from there out.

    outside_gate_nm: from the gate to where the course is met, negative inside it, -60 to 200;
    DomainError outside.  Source: FAA Order JO 7110.65 TBL 5-9-1.
    """
    in_range("distance outside the gate", outside_gate_nm, -60.0, 200.0, "NM")
    near = outside_gate_nm < value("vector_outside_gate_nm")
    return value("vector_angle_near_gate_deg" if near else "vector_angle_deg")


def vector_limits(
    distance_nm: float, angle_deg: float, faf_distance_nm: float,
    altitude_ft: float, glidepath_altitude_ft: float, lowest_altitude_ft: float,
) -> "list[Limit]":
    """The four limits of a vector to a course with a glidepath, each as allowed, actual and met.

    distance_nm, angle_deg: where and at what angle the course is met, see `lpv.intercept.course.Meeting`
        (-10 to 200 NM, 0 to 180 degrees)
    faf_distance_nm: 0.1 to 50
    altitude_ft: there;  glidepath_altitude_ft: of the glidepath there;
    lowest_altitude_ft: published lowest glidepath intercept altitude (all -2000 to 60 000)
    Raises DomainError outside.  Source: FAA Order JO 7110.65 5-9-1 and TBL 5-9-1.
    """
    in_range("distance before the threshold", distance_nm, -10.0, 200.0, "NM")
    in_range("intercept angle", angle_deg, 0.0, 180.0, "deg")
    for name, altitude in (
        ("altitude", altitude_ft), ("glidepath altitude", glidepath_altitude_ft),
        ("lowest intercept altitude", lowest_altitude_ft),
    ):
        in_range(name, altitude, -2000.0, 60_000.0, "ft")
    outside_nm = distance_nm - approach_gate_nm(faf_distance_nm)
    least_nm = value("vector_outside_gate_nm")
    return [
        Limit("distance outside the approach gate", "at least", least_nm, outside_nm, "NM"),
        Limit("intercept angle", "at most", highest_angle_deg(outside_nm), angle_deg, "deg"),
        Limit("altitude against the glidepath", "at most", glidepath_altitude_ft, altitude_ft, "ft"),
        Limit("altitude against the lowest intercept", "at least", lowest_altitude_ft, altitude_ft, "ft"),
    ]

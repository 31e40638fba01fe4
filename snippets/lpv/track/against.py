"""What a recorded flight is compared with, in figures: an approach, and the type that flew it.

The figures come from data files (`lpv.track.held`), or as texts where there are no files (`lpv.track.data`).
"""

from lpv.decide.decision import charted_da_ft, da_to_use_ft
from lpv.decide.stabilised import Gate

LPV = "LPV"


class Final:
    """A final approach segment.

    ltp_latitude_deg, ltp_longitude_deg, ltp_height_m: the threshold point, its height above the ellipsoid
    course_deg: true, there;  gpa_deg, tch_ft: the path
    width_ft:   half of the course width at the threshold;  garp_ft: from there to the GARP
    """

    def __init__(
        self, ltp_latitude_deg: float, ltp_longitude_deg: float, ltp_height_m: float, course_deg: float,
        gpa_deg: float, tch_ft: float, width_ft: float, garp_ft: float,
    ) -> None:
        self.ltp_latitude_deg, self.ltp_longitude_deg, self.ltp_height_m = (
            ltp_latitude_deg, ltp_longitude_deg, ltp_height_m)
        self.course_deg, self.gpa_deg, self.tch_ft = course_deg, gpa_deg, tch_ft
        self.width_ft, self.garp_ft = width_ft, garp_ft


class Fix:
    """A fix of the final approach: its name, altitude on the chart (None without one), distance before the LTP."""

    def __init__(self, name: str, altitude_ft: "float | None", along_nm: float) -> None:
        self.name, self.altitude_ft, self.along_nm = name, altitude_ft, along_nm


class Against:
    """One approach.

    slug:    the name of its file;  airport, title, level, rule: as in the chart's margin, whose rule it is made by
    airport_ft, threshold_ft: elevations;  floor_from_ft: what the operator's lowest DA counts from
    cold_c:  at and below which the chart asks for corrections, None if nowhere
    fixes:   from the PFAF to the one before the MAP, in the order flown
    minima:  (categories, DA in ft) of each LPV line
    """

    def __init__(
        self, slug: str, airport: str, title: str, level: str, rule: str, airport_ft: float, threshold_ft: float,
        floor_from_ft: float, cold_c: "float | None", final: Final, fixes: "list[Fix]",
        minima: "list[tuple[str, float]]",
    ) -> None:
        self.slug, self.airport, self.title, self.level, self.rule = slug, airport, title, level, rule
        self.airport_ft, self.threshold_ft, self.floor_from_ft = airport_ft, threshold_ft, floor_from_ft
        self.cold_c, self.final, self.fixes, self.minima = cold_c, final, fixes, minima

    @property
    def pfaf(self) -> Fix:
        """The precise final approach fix."""
        return self.fixes[0]

    def is_cold(self, temperature_c: float) -> bool:
        """Whether the chart asks for corrections: it names a temperature, and this one is at or under it."""
        return self.cold_c is not None and temperature_c <= self.cold_c


class By:
    """The type that flew, and its operator.

    slug: the name of its file;  category: one letter;  gates: the operator's own
    lowest_da_ft: what the operator allows at least, above TDZE
    """

    def __init__(self, slug: str, name: str, category: str, lowest_da_ft: float, gates: "list[Gate]") -> None:
        self.slug, self.name, self.category, self.lowest_da_ft, self.gates = slug, name, category, lowest_da_ft, gates


def charted_ft(approach: Against, aircraft: "By | None") -> "float | None":
    """The DA of the chart's LPV line for the type's category, without a type of the first one; None without one.

    DomainError if the chart has no LPV minimum for the type.
    """
    return charted_da_ft(approach.slug, approach.minima, aircraft.category if aircraft else None)


def da_ft(approach: Against, aircraft: "By | None", altitude_ft: float) -> float:
    """A DA, not under what the type's operator allows."""
    if aircraft is None:
        return altitude_ft
    return da_to_use_ft(altitude_ft, approach.floor_from_ft, aircraft.lowest_da_ft)


def minimum_ft(approach: Against, aircraft: "By | None") -> "float | None":
    """The DA to use, as `charted_ft` and not under the operator's own; None without a line."""
    altitude_ft = charted_ft(approach, aircraft)
    return None if altitude_ft is None else da_ft(approach, aircraft, altitude_ft)

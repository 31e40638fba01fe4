"""What an approach asks of a set-up, from the figures of its chart and of the type that flies it.

The figures come from data files (`lpv.setup.file`), or as texts where there are no files (`lpv.setup.data`).
"""

from lpv.decide.category import CATEGORIES
from lpv.modes.rules import Rules
from lpv.setup.records import Line, Wanted


class Charted:
    """What the chart prints, as far as a set-up is compared with it.

    airport, title, channel, path_id, course_deg, cycle: as printed
    best_level:   level of service that the approach is made for
    minima:       (line, kind, categories, altitude in ft) of each line, circling included
    missed_altitude_ft: altitude of the missed approach, None if none is printed
    airport_elevation_ft: what heights for cold corrections count from
    floor_from_ft: what the operator's lowest DA counts from: TDZE, else the threshold's elevation
    cold_c:       at and below which altitudes are corrected for cold, None if nowhere
    """

    def __init__(
        self, airport: str, title: str, channel: int, path_id: str, course_deg: float, cycle: str, best_level: str,
        minima: "list[tuple[str, str, str, float]]", missed_altitude_ft: "float | None", airport_elevation_ft: float,
        floor_from_ft: float, cold_c: "float | None" = None,
    ) -> None:
        self.airport, self.title, self.channel, self.path_id = airport, title, channel, path_id
        self.course_deg, self.cycle, self.best_level, self.minima = course_deg, cycle, best_level, minima
        self.missed_altitude_ft, self.airport_elevation_ft = missed_altitude_ft, airport_elevation_ft
        self.floor_from_ft, self.cold_c = floor_from_ft, cold_c


class Flown:
    """What a set-up depends on in a type and its operator.

    name: of the type;  category: one letter;  rules: of its modes
    lowest_da_above_tdze_ft: the operator's floor for a DA;  above_mda_ft: what the operator adds to an MDA
    """

    def __init__(
        self, name: str, category: str, lowest_da_above_tdze_ft: float, above_mda_ft: float, rules: Rules,
    ) -> None:
        self.name, self.category, self.rules = name, category, rules
        self.lowest_da_above_tdze_ft, self.above_mda_ft = lowest_da_above_tdze_ft, above_mda_ft


def lines_of(charted: Charted, categories: str) -> "list[Line]":
    """The lines of minima for any of these categories, straight in, each with its highest altitude."""
    found = []  # type: list[Line]
    for name, kind, letters, altitude_ft in charted.minima:
        if name == "circling" or not any(letter in letters for letter in categories):
            continue
        same = [line for line in found if line.name == name]
        if not same:
            found.append(Line(name, kind, altitude_ft))
        elif altitude_ft > same[0].altitude_ft:
            same[0].altitude_ft = altitude_ft
    return found


def wanted(charted: Charted, flown: "Flown | None" = None) -> Wanted:
    """What an approach asks of a set-up, for a type's category and its operator's floor if a type is given.

    Without a type, the highest minimum of each line counts, and there is no floor.
    """
    return Wanted(
        charted.title, charted.channel, charted.path_id, charted.course_deg, charted.cycle, charted.best_level,
        lines_of(charted, flown.category if flown else CATEGORIES), charted.missed_altitude_ft,
        charted.airport_elevation_ft, charted.cold_c,
        charted.floor_from_ft + flown.lowest_da_above_tdze_ft if flown else None, flown.above_mda_ft if flown else 0.0,
    )

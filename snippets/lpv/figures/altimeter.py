"""The altimeter and the glidepath by distance, for the temperature and the elevation of the day."""

import math

from lpv.air.altimetry import true_height_ft
from lpv.core.text import number, quantity, signed
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import APPROACH, angle, beside, crossing_height, spread, steps
from lpv.forms.fields import Number
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft
from lpv.path.temperature import indicated_on_path_ft

PARTS = 6  # in which a path is drawn: it is all but straight
HEIGHT = 3050
UPPER, LOWER = (LEFT, TOP, WIDTH - RIGHT, 1650), (LEFT, 2020, WIDTH - RIGHT, HEIGHT - BOTTOM)
MIN_SPAN_FT = 50.0
ROOM = 0.15
TEMPERATURES_C = (-30, -15, 0, 15, 30)
READ_FT = 10  # an altimeter is read to


class Day:
    """The path of an approach in the air of a day."""

    def __init__(
        self, temperature_c: float, airport_ft: float, threshold_ft: float, tch_ft: float, gpa_deg: float,
    ) -> None:
        self.temperature_c, self.airport_ft = temperature_c, airport_ft
        self.threshold_ft, self.tch_ft, self.gpa_deg = threshold_ft, tch_ft, gpa_deg

    def path_ft(self, distance_nm: float) -> float:
        """Where the glidepath is, whatever the temperature."""
        return straight_path_height_ft(distance_nm, self.threshold_ft, self.tch_ft, self.gpa_deg)

    def altimeter_ft(self, distance_nm: float) -> float:
        """What the altimeter reads there."""
        return indicated_on_path_ft(
            distance_nm, self.threshold_ft, self.tch_ft, self.gpa_deg, self.temperature_c, self.airport_ft)

    def barometric_ft(self, distance_nm: float) -> float:
        """Where a barometric path truly lies that is not compensated for temperature."""
        charted_ft = barometric_path_height_ft(distance_nm, self.threshold_ft, self.tch_ft, self.gpa_deg)
        return self.airport_ft + true_height_ft(charted_ft - self.airport_ft, self.temperature_c, self.airport_ft)


def _altimeter(
    temperature_c: float, distance_nm: float, charted_ft: float, aerodrome_elevation_ft: float,
    threshold_above_ft: float, tch_ft: float, gpa_deg: float,
) -> Shown:
    def day_at(other_c: float) -> Day:
        return Day(other_c, aerodrome_elevation_ft, aerodrome_elevation_ft + threshold_above_ft, tch_ft, gpa_deg)

    day = day_at(temperature_c)
    path_ft, reading_ft = day.path_ft(distance_nm), day.altimeter_ft(distance_nm)
    below_ft = path_ft - day.barometric_ft(distance_nm)
    against = beside(reading_ft - charted_ft, "ft", ("more than", "less than"), "as", READ_FT)
    lies = beside(-below_ft, "ft", ("above it", "below it"), "on it")
    finding = (
        f"At {quantity(temperature_c, 'deg C')}, {quantity(distance_nm, 'NM', 0.1)} out on the glidepath, the "
        f"altimeter reads {quantity(reading_ft, 'ft', READ_FT)}, {against} the charted {quantity(charted_ft, 'ft')}. "
        f"The glidepath is at {quantity(path_ft, 'ft')} on any day; a barometric path without compensation lies {lies}."
    )
    brief = f"{quantity(reading_ft, 'ft', READ_FT)} on the glidepath {quantity(distance_nm, 'NM', 0.1)} out"
    rows = [_row(day_at(float(other_c)), distance_nm, charted_ft) for other_c in TEMPERATURES_C]
    return Shown(_drawn(day, distance_nm, charted_ft), finding, HEADERS, rows, brief)


HEADERS = ("aerodrome", "altimeter", "to charted", "barometric path")


def _row(day: Day, distance_nm: float, charted_ft: float) -> "tuple[str, ...]":
    reading_ft = day.altimeter_ft(distance_nm)
    apart_ft = day.barometric_ft(distance_nm) - day.path_ft(distance_nm)
    return (
        quantity(day.temperature_c, "deg C"), quantity(reading_ft, "ft", READ_FT),
        signed(reading_ft - charted_ft, "ft", READ_FT), signed(apart_ft, "ft"),
    )


def _drawn(day: Day, distance_nm: float, charted_ft: float) -> Sheet:
    sheet = Sheet(HEIGHT)
    far_nm = float(max(2, math.ceil(distance_nm + 1.0)))
    places = steps(0.0, far_nm, PARTS)
    glidepath = [(nm, day.path_ft(nm)) for nm in places]
    readings = [(nm, day.altimeter_ft(nm)) for nm in places]
    reading_ft = day.altimeter_ft(distance_nm)
    _profile(sheet, glidepath, readings, (distance_nm, day.path_ft(distance_nm), reading_ft), charted_ft)
    over = [(nm, reading - path) for (nm, reading), (_, path) in zip(readings, glidepath)]  # noqa: B905
    barometric = [(nm, day.barometric_ft(nm) - path) for nm, path in glidepath]
    _differences(sheet, over, barometric, distance_nm, reading_ft - day.path_ft(distance_nm))
    return sheet


def _profile(
    sheet: Sheet, glidepath: "list[tuple[float, float]]", readings: "list[tuple[float, float]]",
    here: "tuple[float, float, float]", charted_ft: float,
) -> None:
    """Altitudes by distance; here: distance, where the glidepath is, what the altimeter reads on it."""
    distance_nm, path_ft, reading_ft = here
    heights = [ft for _, ft in glidepath] + [ft for _, ft in readings] + [charted_ft]
    low, high = spread(heights, MIN_SPAN_FT, ROOM)
    panel = Panel(sheet, UPPER, (glidepath[-1][0], 0.0), (low, high))
    panel.x_axis("")
    panel.y_axis("altitude, ft")
    panel.line(readings, "second", "dash")
    panel.line(glidepath, "first")
    panel.mark(distance_nm, path_ft, "circle", "first")
    panel.mark(distance_nm, charted_ft, "bar", "ink")
    panel.mark(distance_nm, reading_ft, "circle", "answer")
    panel.label(f"reads {number(reading_ft, READ_FT)}", distance_nm, reading_ft, "answer", ("ne", "nw", "n"), True)
    panel.label(f"charted {number(charted_ft)}", distance_nm, charted_ft, "ink", ("sw", "nw", "se"))
    near = len(glidepath) // 3
    panel.label("glidepath", glidepath[near][0], glidepath[near][1], "first", ("sw", "nw"))
    panel.label("altimeter on it", readings[near][0], readings[near][1], "second", ("ne", "se"))


def _differences(
    sheet: Sheet, over: "list[tuple[float, float]]", barometric: "list[tuple[float, float]]", distance_nm: float,
    here_ft: float,
) -> None:
    """What lies above and below the glidepath, by distance."""
    low, high = spread([ft for _, ft in over + barometric] + [0.0], MIN_SPAN_FT, ROOM)
    panel = Panel(sheet, LOWER, (over[-1][0], 0.0), (low, high))
    panel.x_axis("to the threshold, NM")
    panel.y_axis("above the glidepath, ft")
    panel.rule_y(0.0, "first")
    panel.line(over, "second", "dash")
    panel.line(barometric, "third", "dot")
    panel.mark(distance_nm, here_ft, "circle", "answer")
    panel.label(signed(here_ft, ""), distance_nm, here_ft, "answer", ("ne", "n", "se"), True)
    near = len(over) // 2
    panel.label("altimeter", over[near][0], over[near][1], "second", ("ne", "se"))
    panel.label("barometric path", barometric[near][0], barometric[near][1], "third", ("se", "ne"))


FIGURES = (
    Figure(
        "live-altimeter", "altimeter on the glidepath", _altimeter,
        inputs=(
            Number("temperature_c", "Temperature at the airport", "deg C", -50, 50, 1, 0, "day.temperature_c"),
            Number("distance_nm", "Distance to the threshold", "NM", 0.5, 20, 0.1, 5.0, "approach.pfaf_distance_nm"),
            Number("aerodrome_elevation_ft", "Aerodrome elevation", "ft", -500, 10000, 10, 0,
                   "approach.airport_elevation_ft"),
            Number("charted_ft", "Altitude charted at the fix", "ft", -500, 18000, 10, 2000,
                   "approach.pfaf_altitude_ft", APPROACH),
            Number("threshold_above_ft", "Threshold above the airport elevation", "ft", -300, 200, 1, 0,
                   "approach.threshold_above_airport_ft", APPROACH),
            crossing_height(),
            angle(APPROACH),
        ),
        remarks="The altimeter is set right and its source is at the airport; the air deviates from standard by "
        "the same amount at every height.",
    ),
)

"""Meeting the final course seen from above: the turn begun in time, and the same turn begun late."""

import math

from lpv.core.text import course, quantity
from lpv.core.units import FT_PER_NM, degrees_180, degrees_360
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.facts import value
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import AIRCRAFT, APPROACH, beside
from lpv.forms.fields import Choice, Course, Number
from lpv.intercept.course import TurnOn, overshoot_late_nm, turn_onto_course
from lpv.intercept.turn_track import turn_track
from lpv.motion.kinematics import wind_triangle
from lpv.path.deviation import two_dots, vectors_full_scale_ft

HEIGHT = 2600
BOX = (LEFT, TOP, WIDTH - RIGHT, HEIGHT - BOTTOM)
RATIO = (BOX[3] - BOX[1]) / (BOX[2] - BOX[0])  # of miles up to miles across: drawn to scale
BEFORE_NM, AFTER_NM = 1.5, 1.5  # of straight flight shown before and after the turn
MIN_ACROSS_NM = 4.0
EVERY = 20  # of the points of a turn, one is drawn
ANGLES_DEG = (20.0, 30.0, 45.0, 60.0, 90.0)
ARROW_NM = 0.12  # length of the arrow of the wind, of what is shown across
SIDES = {"left": -1.0, "right": 1.0}


class Case:
    """An intercept: from which side, at which angle, how flown, in which wind (true or magnetic alike)."""

    def __init__(
        self, side: str, course_deg: float, airspeed_kt: float, bank_deg: float, roll_deg_per_s: float,
        wind_from_deg: float, wind_kt: float,
    ) -> None:
        self.side, self.course_deg, self.airspeed_kt = SIDES[side], course_deg, airspeed_kt
        self.bank_deg, self.roll_deg_per_s = bank_deg, roll_deg_per_s
        self.wind_from_deg, self.wind_kt = wind_from_deg, wind_kt

    def track_deg(self, angle_deg: float) -> float:
        """The track that closes with the course at an angle."""
        return degrees_360(self.course_deg - self.side * angle_deg)

    def turn(self, angle_deg: float) -> TurnOn:
        """The turn from that track onto the course."""
        return turn_onto_course(
            self.track_deg(angle_deg), self.course_deg, self.airspeed_kt, self.bank_deg, self.roll_deg_per_s,
            self.wind_from_deg, self.wind_kt,
        )

    def curve(self, angle_deg: float, turn: TurnOn) -> "list[tuple[float, float]]":
        """The turn as points, NM along and right of the course, the first one 0, 0."""
        points = turn_track(
            turn, self.track_deg(angle_deg), self.course_deg, self.airspeed_kt, self.roll_deg_per_s,
            self.wind_from_deg, self.wind_kt,
        )
        return [points[place] for place in range(0, len(points), EVERY)]

    def ground_speed_kt(self, angle_deg: float) -> float:
        """On the track before the turn."""
        track_deg = self.track_deg(angle_deg)
        return wind_triangle(track_deg, self.airspeed_kt, self.wind_from_deg, self.wind_kt).ground_speed_kt


def _intercept(
    side: str, angle_deg: float, airspeed_kt: float, wind_from_deg: float, wind_kt: float, late_s: float,
    meets_nm: float, course_deg: float, pfaf_nm: float, half_width_ft: float, garp_ft: float, bank_deg: float,
    roll_deg_per_s: float,
) -> Shown:
    case = Case(side, course_deg, airspeed_kt, bank_deg, roll_deg_per_s, wind_from_deg, wind_kt)
    turn, speed_kt = case.turn(angle_deg), case.ground_speed_kt(angle_deg)
    past_nm = overshoot_late_nm(angle_deg, speed_kt, late_s)
    settles_nm = meets_nm + turn.lead_nm * _cos(angle_deg) - turn.along_nm
    dots = two_dots(past_nm * FT_PER_NM, vectors_full_scale_ft(max(0.0, settles_nm), half_width_ft, garp_ft))
    outside = beside(settles_nm - pfaf_nm, "NM", ("outside the FAF", "inside the FAF"), "at the FAF", 0.1)
    finding = (
        f"At {quantity(angle_deg, 'deg')} and {quantity(speed_kt, 'kt')} over the ground the turn begins "
        f"{quantity(turn.cross_track_nm, 'NM', 0.01)} from the course, takes {quantity(turn.time_s, 's')} and settles "
        f"{quantity(settles_nm, 'NM', 0.1)} from the threshold, {outside}."
    )
    brief = f"Turn at {quantity(turn.cross_track_nm, 'NM', 0.01)} from the course"
    if late_s > 0.0:
        past = f"{quantity(past_nm, 'NM', 0.01)} past the course, {quantity(dots, 'dots', 0.1)} of two"
        scale = "" if dots <= value("two_dot_scale_dots") else ", off the scale"
        finding += f" Begun {quantity(late_s, 's')} late it ends {past}{scale}."
        brief += f"; {quantity(late_s, 's')} late: {quantity(past_nm, 'NM', 0.01)} past it"
    rows = [_row(case, other_deg, late_s) for other_deg in ANGLES_DEG]
    sheet = _drawn(case, angle_deg, turn, speed_kt * late_s / 3600.0, (meets_nm, pfaf_nm))
    return Shown(sheet, finding, ("angle", "turn begins", "takes", "late, ends past"), rows, brief)


def _row(case: Case, angle_deg: float, late_s: float) -> "tuple[str, ...]":
    turn = case.turn(angle_deg)
    past_nm = overshoot_late_nm(angle_deg, case.ground_speed_kt(angle_deg), late_s)
    return (
        quantity(angle_deg, "deg"), quantity(turn.cross_track_nm, "NM", 0.01), quantity(turn.time_s, "s"),
        quantity(past_nm, "NM", 0.01),
    )


def _drawn(
    case: Case, angle_deg: float, turn: TurnOn, late_nm: float, places_nm: "tuple[float, float]",
) -> Sheet:
    """Seen from above: to the threshold along the paper, right of the course down it."""
    meets_nm, pfaf_nm = places_nm
    start = meets_nm + turn.lead_nm * _cos(angle_deg), case.side * turn.cross_track_nm
    along, across = _cos(angle_deg), -case.side * _sin(angle_deg)  # of a mile flown before the turn
    curve = case.curve(angle_deg, turn)
    intime = _way(start, (along, across), curve)
    late = _way((start[0] - late_nm * along, start[1] + late_nm * across), (along, across), curve)
    sheet = Sheet(HEIGHT)
    panel = _panel(sheet, intime + late)
    panel.axes("to the threshold, NM", "left of the course, NM")
    panel.rule_y(0.0, "ink")
    panel.rule_x(pfaf_nm, "muted", "dash")
    if late_nm > 0.0:
        panel.line(_up(late), "second", "dash")
    panel.line(_up(intime), "first")
    panel.mark(start[0], -start[1], "circle", "answer")
    before = f"turn: {quantity(turn.cross_track_nm, 'NM', 0.01)}"
    panel.label(before, start[0], -start[1], "answer", ("ne", "se", "e"), True)
    if late_nm > 0.0:
        ends = late[-1]
        panel.label("late", ends[0], -ends[1], "second", ("w", "sw", "nw"))
    panel.label("in time", intime[-1][0], -intime[-1][1], "first", ("nw", "sw"))
    if panel.x[1] < pfaf_nm < panel.x[0]:
        panel.label("FAF", pfaf_nm, panel.y[0], "muted", ("ne", "nw"))
    _wind(panel, case)
    return sheet


def _way(
    start: "tuple[float, float]", going: "tuple[float, float]", curve: "list[tuple[float, float]]",
) -> "list[tuple[float, float]]":
    """The track flown: straight, the turn, straight along the course; NM before the threshold, and right of it."""
    turned = [(start[0] - along, start[1] + right) for along, right in curve]
    before = start[0] + BEFORE_NM * going[0], start[1] - BEFORE_NM * going[1]
    turned.append((turned[-1][0] - AFTER_NM, turned[-1][1]))
    turned.insert(0, before)
    return turned


def _panel(sheet: Sheet, points: "list[tuple[float, float]]") -> Panel:
    """A panel that shows all points and the course, to scale."""
    nearest, farthest = min([x for x, _ in points]), max([x for x, _ in points])
    lowest, highest = min([-y for _, y in points] + [0.0]), max([-y for _, y in points] + [0.0])
    across = max(MIN_ACROSS_NM, 1.06 * (farthest - nearest), 1.25 * (highest - lowest) / RATIO)
    middle_x, middle_y = (nearest + farthest) / 2.0, (lowest + highest) / 2.0
    return Panel(
        sheet, BOX, (middle_x + across / 2.0, middle_x - across / 2.0),
        (middle_y - RATIO * across / 2.0, middle_y + RATIO * across / 2.0),
    )


def _up(points: "list[tuple[float, float]]") -> "list[tuple[float, float]]":
    """Left of the course is up: the course runs to the right over the paper."""
    return [(x, -y) for x, y in points]


def _wind(panel: Panel, case: Case) -> None:
    """An arrow that flies with the wind, in a corner, and its speed."""
    if case.wind_kt <= 0.0:
        return
    across = panel.x[0] - panel.x[1]
    angle_deg = degrees_180(case.wind_from_deg + 180.0 - case.course_deg)  # where it blows, from the course
    x, y = panel.x[1] + 0.12 * across, panel.y[1] - 0.16 * RATIO * across if case.side > 0.0 else (
        panel.y[0] + 0.16 * RATIO * across)
    dx, dy = ARROW_NM * across * _cos(angle_deg) / 2.0, ARROW_NM * across * _sin(angle_deg) / 2.0
    tip = x - dx, y - dy
    panel.line([(x + dx, y + dy), tip], "ink")
    for turned_deg in (150.0, -150.0):
        barb = 0.03 * across * _cos(angle_deg + turned_deg), 0.03 * across * _sin(angle_deg + turned_deg)
        panel.line([tip, (tip[0] - barb[0], tip[1] - barb[1])], "ink")
    text = f"{course(case.wind_from_deg)} {quantity(case.wind_kt, 'kt')}"
    panel.label(text, x, y + (dy if abs(dy) > abs(dx) else 0.0), "ink", ("s", "n", "w"))


def _cos(angle_deg: float) -> float:
    return math.cos(math.radians(angle_deg))


def _sin(angle_deg: float) -> float:
    return math.sin(math.radians(angle_deg))


FIGURES = (
    Figure(
        "live-intercept", "turn onto the final course", _intercept,
        inputs=(
            Number("angle_deg", "Intercept angle", "deg", 5, 90, 5, 30),
            Choice("side", "From", (("left", "the left of the course"), ("right", "the right of the course")), "right"),
            Number("airspeed_kt", "True airspeed", "kt", 100, 250, 5, 170),
            Course("wind_from_deg", "Wind from", 10, 120),
            Number("wind_kt", "Wind speed", "kt", 0, 60, 1, 30),
            Number("late_s", "Turn begun late by", "s", 0, 30, 1, 10),
            Number("meets_nm", "Track meets the course at", "NM", 3, 20, 0.5, 9),
            Course("course_deg", "Final course, by the north of the wind", 1, 360, "approach.course_deg", APPROACH),
            Number("pfaf_nm", "Distance of the FAF", "NM", 3, 12, 0.1, 5.0, "approach.pfaf_distance_nm", APPROACH),
            Number("half_width_ft", "Course half-width at the threshold", "ft", 200, 500, 1, 350,
                   "approach.half_width_ft", APPROACH),
            Number("garp_ft", "Threshold to the GARP", "ft", 4000, 20000, 10, 10000, "approach.garp_distance_ft",
                   APPROACH),
            Number("bank_deg", "Bank limit", "deg", 10, 35, 1, 25, "aircraft.bank_limit_deg", AIRCRAFT),
            Number("roll_deg_per_s", "Roll rate", "deg/s", 1, 20, 0.5, 5, "aircraft.roll_rate_deg_per_s", AIRCRAFT),
        ),
        facts=("vectors_full_scale_nm", "two_dot_scale_dots"),
        remarks="Level, at a constant airspeed, in a steady wind; the dots are those of the scale on vectors, where "
        "the turn ends.",
    ),
)

"""The rate of descent that holds the path, by ground speed and angle, with the limit of a stabilized approach."""

from lpv.core.text import number, quantity
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.facts import value
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import angle, beside
from lpv.forms.fields import Number
from lpv.forms.form import NoAnswer
from lpv.motion.kinematics import descent_rate_fpm, gradient_ft_per_nm

HEIGHT = 2650
BOX = (LEFT, TOP, WIDTH - RIGHT, HEIGHT - BOTTOM)
SLOWEST_KT, FASTEST_KT, MIN_KT = 80.0, 220.0, 40.0
OTHER_ANGLES_DEG = (2.5, 3.0, 3.5, 4.0, 5.0)
APART_DEG = 0.2  # no line of another angle so near to the one set
ROWS_KT = 10.0
READ_FPM = 10


def _rate(airspeed_kt: float, tailwind_kt: float, gpa_deg: float) -> Shown:
    ground_kt = airspeed_kt + tailwind_kt
    if ground_kt < MIN_KT:
        raise NoAnswer("The headwind is too strong for this airspeed.")
    rate_fpm, limit_fpm = descent_rate_fpm(ground_kt, gpa_deg), value("gate_sink_rate_fpm")
    limit_kt = limit_fpm * 60.0 / gradient_ft_per_nm(gpa_deg)
    wind = beside(tailwind_kt, "kt", ("of tailwind", "of headwind"), "no wind along")
    over = "more" if rate_fpm > limit_fpm else "less"
    apart = f"{quantity(abs(rate_fpm - limit_fpm), 'ft/min', READ_FPM)} {over} than the {quantity(limit_fpm, 'ft/min')}"
    finding = (
        f"{quantity(airspeed_kt, 'kt')} true airspeed and {wind} are {quantity(ground_kt, 'kt')} over the ground: on "
        f"{quantity(gpa_deg, 'deg', 0.01)} the glidepath asks for {quantity(rate_fpm, 'ft/min', READ_FPM)}, {apart} of "
        f"a stabilized approach, reached at {quantity(limit_kt, 'kt')}."
    )
    brief = f"{quantity(rate_fpm, 'ft/min', READ_FPM)} at {quantity(ground_kt, 'kt')} over the ground"
    speeds_kt = [ground_kt + step * ROWS_KT for step in range(-3, 4)]
    rows = [_row(each_kt, gpa_deg) for each_kt in speeds_kt if each_kt >= MIN_KT]
    return Shown(_drawn(airspeed_kt, ground_kt, gpa_deg), finding, HEADERS, rows, brief)


HEADERS = ("ground speed", "rate", "to the limit")


def _row(ground_kt: float, gpa_deg: float) -> "tuple[str, ...]":
    rate_fpm = descent_rate_fpm(ground_kt, gpa_deg)
    left_fpm = value("gate_sink_rate_fpm") - rate_fpm
    return (
        quantity(ground_kt, "kt"), quantity(rate_fpm, "ft/min", READ_FPM),
        beside(left_fpm, "ft/min", ("below", "over"), "at it", READ_FPM),
    )


def _drawn(airspeed_kt: float, ground_kt: float, gpa_deg: float) -> Sheet:
    sheet = Sheet(HEIGHT)
    slow_kt, fast_kt = min(SLOWEST_KT, ground_kt - 5.0), max(FASTEST_KT, ground_kt + 10.0)
    rate_fpm, limit_fpm = descent_rate_fpm(ground_kt, gpa_deg), value("gate_sink_rate_fpm")
    high_fpm = max(1.3 * limit_fpm, 1.12 * rate_fpm)
    panel = Panel(sheet, BOX, (slow_kt, fast_kt), (0.0, high_fpm))
    panel.area([(slow_kt, limit_fpm), (fast_kt, limit_fpm), (fast_kt, high_fpm), (slow_kt, high_fpm)])
    panel.axes("ground speed, kt", "rate of descent, ft/min")
    others = [deg for deg in OTHER_ANGLES_DEG if abs(deg - gpa_deg) >= APART_DEG]
    for deg in others:
        panel.line([(kt, descent_rate_fpm(kt, deg)) for kt in (slow_kt, fast_kt)], "muted", "thin")
    panel.line([(kt, descent_rate_fpm(kt, gpa_deg)) for kt in (slow_kt, fast_kt)], "first")
    panel.rule_y(limit_fpm, "second", "dash")
    panel.line([(airspeed_kt, 0.0), (airspeed_kt, descent_rate_fpm(airspeed_kt, gpa_deg))], "third", "dot")
    panel.line([(ground_kt, 0.0), (ground_kt, rate_fpm)], "answer", "thin")
    panel.mark(airspeed_kt, descent_rate_fpm(airspeed_kt, gpa_deg), "square", "third")
    panel.mark(ground_kt, rate_fpm, "circle", "answer")
    panel.label(number(rate_fpm, READ_FPM), ground_kt, rate_fpm, "answer", ("nw", "n", "w"), True)
    panel.label("limit", slow_kt, limit_fpm, "second", ("ne", "se"))
    if abs(airspeed_kt - ground_kt) >= 1.0:
        panel.label("in calm", airspeed_kt, descent_rate_fpm(airspeed_kt, gpa_deg), "third", ("se", "nw"))
    at_kt, at_fpm = _named_at(gpa_deg, slow_kt, fast_kt, high_fpm)
    panel.label(quantity(gpa_deg, "deg", 0.01), at_kt, at_fpm, "first", ("nw", "se"))
    for deg in others:
        at_kt, at_fpm = _named_at(deg, slow_kt, fast_kt, high_fpm)
        panel.label(quantity(deg, "deg", 0.1), at_kt, at_fpm, "muted", ("nw", "se"))
    return sheet


def _named_at(gpa_deg: float, slow_kt: float, fast_kt: float, high_fpm: float) -> "tuple[float, float]":
    """Where the line of an angle is named: near the end that the panel shows."""
    fast_kt = min(fast_kt, 0.97 * high_fpm * 60.0 / gradient_ft_per_nm(gpa_deg))
    at_kt = slow_kt + 0.93 * (fast_kt - slow_kt)
    return at_kt, descent_rate_fpm(at_kt, gpa_deg)


FIGURES = (
    Figure(
        "live-rate", "rate of descent on the glidepath", _rate,
        inputs=(
            Number("airspeed_kt", "True airspeed", "kt", 80, 200, 1, 130, "aircraft.final_speed_kt"),
            Number("tailwind_kt", "Tailwind (headwind: minus)", "kt", -50, 40, 1, 10),
            angle(),
        ),
        facts=("gate_sink_rate_fpm",),
        remarks="The wind is taken along the course; across it the ground speed is a little less.",
    ),
)

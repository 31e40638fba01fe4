"""How far from the course the turn must begin, by intercept angle and ground speed."""

from lpv.core.text import number, quantity
from lpv.intercept.course import TurnOn, turn_onto_course_in_calm
from lpv.motion.kinematics import flying_time_s
from lpv_site.department.data import example_aircraft
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

ANGLES_DEG, SPEEDS_KT = (20, 30, 45, 60, 90), (140, 170, 200)
SHALLOW_DEG, STEEP_DEG = 30, 90


def turn(angle_deg: float, speed_kt: float) -> TurnOn:
    """The turn of the example's type in calm."""
    flying = example_aircraft().flying
    return turn_onto_course_in_calm(angle_deg, 0.0, speed_kt, flying.bank_limit_deg, flying.roll_rate_deg_per_s)


def cell(angle_deg: float, speed_kt: float) -> str:
    """Distance from the course at which to roll in, and the time before the track meets it."""
    roll_in = turn(angle_deg, speed_kt)
    before_s = flying_time_s(roll_in.lead_nm, speed_kt)
    return f"**{quantity(roll_in.cross_track_nm, 'NM', 0.01)}**<br>{quantity(before_s, 's')}"


def show() -> Shown:
    """A row for each angle."""
    jet = example_aircraft()
    listed = table(
        ["angle", *(f"at {quantity(speed_kt, 'kt')}" for speed_kt in SPEEDS_KT)],
        [(quantity(angle, "°"), *(cell(angle, speed_kt) for speed_kt in SPEEDS_KT)) for angle in ANGLES_DEG])
    below = (
        "First line: distance from the course. Second: time before the track would meet it. "
        f"{escape(jet.type.name)}, calm: rolling {quantity(jet.flying.roll_rate_deg_per_s, '°')} a second, "
        f"at most {quantity(jet.flying.bank_limit_deg, '°')} of bank.")
    times = turn(STEEP_DEG, SPEEDS_KT[1]).cross_track_nm / turn(SHALLOW_DEG, SPEEDS_KT[1]).cross_track_nm
    return Shown(f"{listed}\n{below}\n", {
        "shallow": quantity(SHALLOW_DEG, "°"), "steep": quantity(STEEP_DEG, "°"),
        "times": Value(times, "", number(times))})

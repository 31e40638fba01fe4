"""How far from the course the turn must begin, by intercept angle and ground speed."""

from lpv.core.text import number, quantity
from lpv.intercept.course import turn_onto_course_in_calm
from lpv_site.department.data import example_aircraft
from lpv_site.text.table import table
from lpv_site.text.text import escape

ANGLES_DEG = (20, 30, 45, 60, 90)
SPEEDS_KT = (140, 170, 200)
aircraft = example_aircraft()
bank_deg, roll_deg_per_s = aircraft.flying.bank_limit_deg, aircraft.flying.roll_rate_deg_per_s


def turn(angle_deg, speed_kt):
    return turn_onto_course_in_calm(angle_deg, 0.0, speed_kt, bank_deg, roll_deg_per_s)


def cell(angle_deg, speed_kt):
    found = turn(angle_deg, speed_kt)
    before_s = found.lead_nm / speed_kt * 3600.0
    return f"**{quantity(found.cross_track_nm, 'NM', 0.01)}**<br>{quantity(before_s, 's')}"


print(
    table(
        ["angle", *(f"at {quantity(speed, 'kt')}" for speed in SPEEDS_KT)],
        [(quantity(angle, "°"), *(cell(angle, speed) for speed in SPEEDS_KT)) for angle in ANGLES_DEG],
    )
)
print(
    f"First line: distance from the course. Second: time before the track would meet it. "
    f"{escape(aircraft.type.name)}, calm: rolling {quantity(roll_deg_per_s, '°')} a second, "
    f"at most {quantity(bank_deg, '°')} of bank."
)
times = turn(90, 170).cross_track_nm / turn(30, 170).cross_track_nm
values = {"shallow": quantity(30, "°"), "steep": quantity(90, "°"), "times": number(times)}

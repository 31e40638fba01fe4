"""What the wind adds: the same intercept in wind from four sides."""

from lpv.core.text import quantity
from lpv.intercept.course import overshoot_late_nm, turn_onto_course
from lpv.motion.kinematics import wind_triangle
from lpv_site.department.data import example_aircraft
from lpv_site.text.shown import Shown
from lpv_site.text.table import table

AIRSPEED_KT, WIND_KT, ANGLE_DEG, LATE_S = 170.0, 30.0, 30.0, 10.0
# The final course runs north, and the aircraft comes from its right: where the wind comes from.
TRACK_DEG = 330.0
WINDS = (
    ("calm", 0.0, 0.0),
    ("**tail**, on final", 180.0, WIND_KT),
    ("**nose**, on final", 0.0, WIND_KT),
    ("**through** the course", 90.0, WIND_KT),
    ("**away** from it", 270.0, WIND_KT),
)


def show() -> Shown:
    """A row for each wind."""
    flying, rows = example_aircraft().flying, []
    for name, wind_from_deg, wind_kt in WINDS:
        turn = turn_onto_course(TRACK_DEG, 0.0, AIRSPEED_KT, flying.bank_limit_deg, flying.roll_rate_deg_per_s,
                                wind_from_deg, wind_kt)
        ground_kt = wind_triangle(TRACK_DEG, AIRSPEED_KT, wind_from_deg, wind_kt).ground_speed_kt
        late_nm = overshoot_late_nm(ANGLE_DEG, ground_kt, LATE_S)
        rows.append((name, quantity(ground_kt, "kt"), f"**{quantity(turn.cross_track_nm, 'NM', 0.01)}**",
                     quantity(late_nm, "NM", 0.01)))
    head = (f"Track {quantity(ANGLE_DEG, '°')} from the course, {quantity(AIRSPEED_KT, 'kt')} true airspeed, "
            f"wind {quantity(WIND_KT, 'kt')}:")
    heads = ["wind", "ground speed", "roll in at", f"{quantity(LATE_S, 's')} late: past by"]
    return Shown(f"{head}\n\n{table(heads, rows)}")

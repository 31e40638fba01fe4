"""The final of the example at a glance: altimeter, one dot and time to go."""

from lpv.core.text import clock, number, quantity
from lpv.decide.final_path import (
    descent_altitude_ft,
    descent_angle_deg,
    distance_at_altitude_nm,
    path_dot_ft,
    pfaf_distance_nm,
)
from lpv.decide.last_mile import seconds_to_minimum
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

GROUND_SPEED_KT, ROUND_NM, STEP_FPM = 130.0, (5.0, 4.0, 3.0, 2.0, 1.0), 10


def show() -> Shown:
    """A row for each place on the way down."""
    approach, identity = example(), example().identity
    da_nm, pfaf_nm = distance_at_altitude_nm(approach, example_row().altitude_ft), pfaf_distance_nm(approach)
    places = {f"FAF {escape(approach.pfaf.name)}": pfaf_nm,
              **{quantity(nm, "NM"): nm for nm in ROUND_NM if da_nm < nm < pfaf_nm}, "DA": da_nm}
    da_ft = example_row().altitude_ft
    to_go_s = {name: seconds_to_minimum(approach, distance_nm, da_ft, GROUND_SPEED_KT)
               for name, distance_nm in places.items()}
    rows = [
        (name, f"**{number(descent_altitude_ft(approach, distance_nm))}**",
         number(path_dot_ft(approach, distance_nm)), clock(to_go_s[name]))
        for name, distance_nm in places.items()
    ]
    rate_fpm = descent_rate_fpm(GROUND_SPEED_KT, descent_angle_deg(approach))
    head = (f"{escape(identity.title)}, {escape(identity.airport)}, on a standard day; time to the DA at a ground "
            f"speed of {quantity(GROUND_SPEED_KT, 'kt')}, {quantity(rate_fpm, 'ft/min', STEP_FPM)} down:")
    listed = table(["to threshold", "altimeter, ft", "one glidepath dot, ft", "to go, min:s"], rows)
    return Shown(f"{head}\n\n{listed}", {
        "rate": Value(rate_fpm, "ft/min", quantity(rate_fpm, "ft/min", STEP_FPM)),
        "to_go": Value(next(iter(to_go_s.values())), "s", clock(next(iter(to_go_s.values())))),
    })

"""How much tailwind until the rate of descent on the path exceeds the criterion."""

from lpv.air.atmosphere import isa_temperature_c, true_airspeed_kt
from lpv.core.text import number, quantity, rounded_down
from lpv.decide.final_path import charted_pfaf_ft, descent_angle_deg
from lpv.decide.last_mile import ground_speed_at_rate_kt, tailwind_at_rate_kt
from lpv.facts import value
from lpv_site.department.data import example, examples
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

ANGLES_DEG, AIRSPEEDS_KT, INDICATED_KT = (3.0, 3.5, 4.0), range(110, 180, 10), 140.0


def show() -> Shown:
    """A row for each true airspeed."""
    limits_kt = {angle_deg: ground_speed_at_rate_kt(value("gate_sink_rate_fpm"), angle_deg)
                 for angle_deg in (ANGLES_DEG[-1], descent_angle_deg(example()))}

    def left(airspeed_kt: float, angle_deg: float) -> str:
        tailwind_kt = rounded_down(tailwind_at_rate_kt(value("gate_sink_rate_fpm"), angle_deg, airspeed_kt))
        return number(tailwind_kt) if tailwind_kt > 0.0 else "none"

    rows = [(quantity(kt, "kt"), *[left(kt, angle_deg) for angle_deg in ANGLES_DEG]) for kt in AIRSPEEDS_KT]
    listed = table(["true airspeed", *[quantity(angle_deg, "deg", 0.1) for angle_deg in ANGLES_DEG]], rows)
    own_kt, steep_kt = limits_kt[descent_angle_deg(example())], limits_kt[ANGLES_DEG[-1]]
    return Shown(f"Tailwind along the final, in kt, at which the criterion is reached:\n\n{listed}", {
        "limit": Value(own_kt, "kt", quantity(rounded_down(own_kt), "kt")),
        "limit_steep": Value(steep_kt, "kt", quantity(rounded_down(steep_kt), "kt")),
        "high": high_field(),
    })


def high_field() -> Value:
    """The true airspeed at the highest PFAF of the approaches."""
    charted = {approach.pfaf.altitude_ft: approach for approach in examples() if approach.pfaf.altitude_ft is not None}
    altitude_ft = max([charted_pfaf_ft(example()), *charted])
    high = charted.get(altitude_ft, example())
    true_kt = true_airspeed_kt(INDICATED_KT, altitude_ft, isa_temperature_c(altitude_ft))
    return Value(true_kt, "kt", (
        f"{quantity(INDICATED_KT, 'kt')} indicated at the FAF of {escape(high.identity.airport_name)}, "
        f"{quantity(altitude_ft, 'ft')} up, is {quantity(true_kt, 'kt')} true on a standard day"))

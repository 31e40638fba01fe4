"""How far the go-around of the aircraft dips below the decision, decided at once and late: a live figure draws it."""

from lpv.core.text import quantity
from lpv.decide.final_path import descent_angle_deg
from lpv.decide.missed import dip, reaction_loss_ft, rotation_loss_ft
from lpv.motion.kinematics import descent_rate_fpm
from lpv_site.department.data import example, example_aircraft, example_speed_kt
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import finding_and_table
from lpv_site.text.text import escape

LATE_S = 2.0


def show() -> Shown:
    """Decided at once, and later."""
    jet = example_aircraft()
    around, rate_fpm = jet.go_around, descent_rate_fpm(example_speed_kt(), descent_angle_deg(example()))
    soon_s = around.reaction_s
    dips = {seconds: dip(rate_fpm, around.climb_rate_fpm, seconds, around.acceleration_g)
            for seconds in (soon_s, soon_s + LATE_S)}
    at_once, late = (quantity(lowest.loss_ft, "ft") for lowest in dips.values())
    back, back_late = (quantity(lowest.back_s, "s") for lowest in dips.values())
    name = escape(jet.type.name.lower())
    return Shown(finding_and_table(
        headers=["path changes after", "lowest below the DA", "back at the DA after"],
        rows=[(quantity(seconds, "s", 0.1), quantity(lowest.loss_ft, "ft"), quantity(lowest.back_s, "s", 0.1))
              for seconds, lowest in dips.items()],
        finding=f"From {quantity(rate_fpm, 'ft/min')} the {name} dips {at_once} below the DA when its path begins to "
        f"change after {quantity(soon_s, 's', 0.1)}, and {late} when that comes {quantity(LATE_S, 's')} "
        f"later. It is back at the DA after {back} and {back_late}.",
    ), {
        "loss": Value.of(dips[soon_s].loss_ft, "ft"), "per_second": Value.of(reaction_loss_ft(rate_fpm, 1.0), "ft"),
        "rotation": Value.of(rotation_loss_ft(rate_fpm, around.acceleration_g), "ft"), "jet": name,
        "acceleration": Value(around.acceleration_g, "g", f"{quantity(around.acceleration_g, 'g', 0.01)} (invented)"),
    })

"""Rate of climb that a climb gradient needs, by ground speed, and what the aircraft makes good."""

from lpv.core.text import number, quantity
from lpv.decide.climb import icao_gradient_ft_per_nm
from lpv.decide.missed import required_climb_rate_fpm
from lpv.facts import value
from lpv.motion.kinematics import gradient_for_climb_rate_ft_per_nm
from lpv_site.department.data import example, example_aircraft, example_speed_kt, examples
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

SPEEDS_KT, STEEPER_FT_PER_NM = (100, 120, 140, 160, 180), (300.0, 400.0)


def show() -> Shown:
    """A row for each ground speed."""
    jet, speed_kt, missed = example_aircraft(), example_speed_kt(), example().chart.missed
    gradients = (value("missed_gradient_ft_per_nm"), *STEEPER_FT_PER_NM)
    rows = [(number(kt), *(number(required_climb_rate_fpm(kt, gradient)) for gradient in gradients))
            for kt in SPEEDS_KT]
    listed = table(["kt", *(quantity(gradient, "ft/NM") for gradient in gradients)], rows)
    one_out_fpm = jet.go_around.climb_rate_one_out_fpm
    made_good = gradient_for_climb_rate_ft_per_nm(speed_kt, one_out_fpm)
    return Shown(f"Feet per minute; speed over the ground:\n\n{listed}", {
        "icao": Value.of(icao_gradient_ft_per_nm(), "ft/NM"),
        "altitude": Value.of(missed.altitude_ft, "ft") if missed else "not printed",
        "one_out": Value(one_out_fpm, "ft/min", f"{quantity(one_out_fpm, 'ft/min')} (invented)"),
        "made_good": Value.of(made_good, "ft/NM"), "speed": Value.of(speed_kt, "kt"), "printed": printed(speed_kt),
    })


def printed(speed_kt: float) -> str:
    """The approaches that print a gradient, and the rate that it needs."""
    rows = []
    for approach in examples():
        gradient = approach.chart.missed and approach.chart.missed.climb_gradient_ft_per_nm
        if gradient:
            rows.append(
                f"{escape(approach.identity.airport)} {escape(approach.identity.title)} prints "
                f"{quantity(gradient, 'ft/NM')}, which needs "
                f"{quantity(required_climb_rate_fpm(speed_kt, gradient), 'ft/min')} at {quantity(speed_kt, 'kt')}")
    return "; ".join(rows) or "none of the demo approaches prints a higher one"

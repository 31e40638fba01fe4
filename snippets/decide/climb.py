"""Rate of climb that a climb gradient needs, by ground speed, and what the aircraft makes good."""

from lpv.core.units import FT_PER_NM
from lpv.decide.missed import required_climb_rate_fpm
from lpv.facts import value
from lpv.motion.kinematics import gradient_for_climb_rate_ft_per_nm
from lpv_site.department.data import example, example_aircraft, examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity

jet = example_aircraft()
SPEEDS_KT = (100, 120, 140, 160, 180)
gradients = (value("missed_gradient_ft_per_nm"), 300.0, 400.0)
rows = [
    (number(speed), *(number(required_climb_rate_fpm(speed, gradient)) for gradient in gradients))
    for speed in SPEEDS_KT
]
print("Feet per minute; speed over the ground:\n")
print(table(["kt", *(f"{number(gradient)} ft/NM" for gradient in gradients)], rows))

speed_kt = jet.target_speeds_kt(jet.landing.max_weight_lb)[-1]
made_good = gradient_for_climb_rate_ft_per_nm(speed_kt, jet.go_around.climb_rate_one_out_fpm)
printed = [a for a in examples() if a.chart.missed and a.chart.missed.climb_gradient_ft_per_nm]
missed = example().chart.missed
icao_ft_per_nm = value("missed_gradient_icao_percent") / 100.0 * FT_PER_NM
values = {
    "icao": quantity(icao_ft_per_nm, "ft/NM"),
    "altitude": quantity(missed.altitude_ft, "ft") if missed else "not printed",
    "one_out": f"{quantity(jet.go_around.climb_rate_one_out_fpm, 'ft/min')} (invented)",
    "made_good": quantity(made_good, "ft/NM"),
    "speed": quantity(speed_kt, "kt"),
    "printed": "; ".join(
        f"{escape(approach.identity.airport)} {escape(approach.identity.title)} prints "
        f"{quantity(approach.chart.missed.climb_gradient_ft_per_nm, 'ft/NM')}, which needs "
        f"{quantity(required_climb_rate_fpm(speed_kt, approach.chart.missed.climb_gradient_ft_per_nm), 'ft/min')} "
        f"at {quantity(speed_kt, 'kt')}"
        for approach in printed
    ) or "none of the demo approaches prints a higher one",
}

"""The flying sections of a briefing: rate, altimeter, cold, scale, decision, climb.

Each is a function from an approach to Markdown that begins with its heading.  An approach without SBAS
glidepath gets what a crew needs instead: a steady descent by the altimeter, a minimum descent altitude.
"""

from collections.abc import Callable
from functools import partial

from lpv.air.altimetry import true_height_ft
from lpv.approach.record import Approach
from lpv.approach.schema import Minima, Missed
from lpv.core.text import clock, length, number, quantity, signed
from lpv.crosscheck.coded import FROM_THE_CHART
from lpv.crosscheck.fixes import foot
from lpv.decide.category import category_for_vref
from lpv.decide.climb import climb_gradient_ft_per_nm
from lpv.decide.final_path import (
    altimeter_at_pfaf_ft,
    altimeter_over_charted_ft,
    descent_altitude_ft,
    descent_angle_deg,
    glidepath_met_nm,
    has_glidepath,
    pfaf_distance_nm,
)
from lpv.decide.last_mile import decision_point, ground_speed_at_rate_kt, lights_only_ft
from lpv.decide.lines import best_row, rows_of
from lpv.decide.missed import distance_to_altitude_nm
from lpv.decide.visibility import printed_visibility_ft
from lpv.decide.visual import reach_ahead_ft, slant_range_ft
from lpv.facts import value
from lpv.motion.kinematics import climb_rate_fpm, descent_rate_fpm, flying_time_s, gradient_ft_per_nm
from lpv_site.briefing import numbers
from lpv_site.briefing.cold import cold
from lpv_site.briefing.scale import scale
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

DESCENT_SPEEDS_KT = range(80, 181, 10)
CLIMB_SPEEDS_KT = range(100, 201, 20)
TEMPERATURES_C = range(40, -31, -10)
TIMED_AT_KT = 120.0


def rate(approach: Approach) -> str:
    """Rate of descent by ground speed, and the time from the PFAF to the minimum."""
    return numbers.titled("Rate of descent", "rate", lambda: _rate(approach))


def _rate(approach: Approach) -> str:
    angle_deg = descent_angle_deg(approach)
    per_nm = gradient_ft_per_nm(angle_deg)
    rows = [
        (
            str(speed), number(descent_rate_fpm(speed, angle_deg)),
            numbers.computed_text(partial(numbers.pfaf_to_minimum, approach, speed)), category_for_vref(speed),
        )
        for speed in DESCENT_SPEEDS_KT
    ]
    steepest_kt = ground_speed_at_rate_kt(value("gate_sink_rate_fpm"), angle_deg)
    return (
        f"{_descent(approach)} {quantity(angle_deg, '°', 0.01)} is {quantity(per_nm, 'ft/NM')}; "
        f"every {quantity(10, 'kt')} of ground speed add {quantity(climb_rate_fpm(10.0, per_nm), 'ft/min')}."
        f"{_passed(approach)}\n\n"
        + numbers.numbers_table(
            ["ground speed, kt", "ft/min", f"FAF to {numbers.minimum_kind(approach)}", "category"], rows)
        + f"\nThe highest sink rate of the stabilized gates, {{{{ fact('gate_sink_rate_fpm') }}}}, is reached at "
        f"{quantity(steepest_kt, 'kt')} over the ground. The category goes by VREF: "
        "wind changes ground speed, not category.\n"
    )


def _descent(approach: Approach) -> str:
    """What is flown down, in words."""
    if has_glidepath(approach):
        return "On the glidepath:"
    if approach.chart.glidepath_deg is not None:
        return "No glidepath. The chart's angle, advisory only:"
    return f"No glidepath. A steady descent from {escape(approach.pfaf.name)} to the threshold, advisory only:"


def _passed(approach: Approach) -> str:
    """How a descent without glidepath passes the step-downs after the PFAF."""
    if has_glidepath(approach):
        return ""
    words = ""
    for fix in approach.final_fixes[1:]:
        if fix.altitude_ft is not None and fix.role == "step-down":
            passed_ft = descent_altitude_ft(approach, foot(approach, fix)[0])
            low = ": **too low, level off before it**" if fix.altitude_ft - passed_ft >= 0.5 else ""
            charted = f"charted {number(fix.altitude_ft)}, {fix.altitude_rule}"
            words += f" It passes {escape(fix.name)} at {quantity(passed_ft, 'ft')} ({charted}){low}."
    return words


def altimeter(approach: Approach) -> str:
    """What the altimeter reads at the PFAF on the path, by temperature; without a path, the true altitude."""
    return numbers.titled(
        "Altimeter check at the FAF", "altimeter",
        lambda: _altimeter(approach) if has_glidepath(approach) else _true_altitude(approach),
    )


def _altimeter(approach: Approach) -> str:
    pfaf, pfaf_nm = approach.pfaf, pfaf_distance_nm(approach)
    headers = ["airport, °C", "reads, ft"]
    rows = [[signed(float(t), ""), number(altimeter_at_pfaf_ft(approach, t))] for t in TEMPERATURES_C]
    if (charted_ft := pfaf.altitude_ft) is not None:
        headers += [f"over {number(charted_ft)}", f"{number(charted_ft)} meets glidepath"]
        for row, temperature_c in zip(rows, TEMPERATURES_C, strict=True):
            over_ft = altimeter_over_charted_ft(approach, temperature_c)
            row += [signed(over_ft, ""), quantity(glidepath_met_nm(approach, charted_ft, temperature_c), "NM", 0.1)]
    return (
        f"At {escape(pfaf.name)}, {quantity(pfaf_nm, 'NM', 0.1)} before the threshold and on the "
        f"glidepath, the altimeter reads:\n\n{numbers.numbers_table(headers, rows)}"
        "\nThe glidepath is fixed in space; the altimeter moves with the temperature. A reading far from this: "
        "wrong altimeter setting, wrong glidepath or wrong fix. Do not descend on the glidepath until you know which.\n"
    )


def _true_altitude(approach: Approach) -> str:
    elevation_ft, charted_ft = approach.chart.airport_elevation_ft, approach.pfaf.altitude_ft
    if charted_ft is None:
        return "No glidepath to check the altimeter against, and no altitude printed at the FAF.\n"
    above_ft = charted_ft - elevation_ft
    true_ft = {t: elevation_ft + true_height_ft(above_ft, float(t), elevation_ft) for t in TEMPERATURES_C}
    rows = [(signed(float(t), ""), number(feet), signed(feet - charted_ft, "")) for t, feet in true_ft.items()]
    return (
        "No glidepath to check the altimeter against: only the altimeter gives your height, and temperature moves it. "
        f"With {quantity(charted_ft, 'ft')} indicated at {escape(approach.pfaf.name)}:\n\n"
        + numbers.numbers_table(["airport, °C", "true altitude, ft", "above or below, ft"], rows)
    )


def decision(approach: Approach) -> str:
    """Where the minimum is reached and what is ahead there."""
    title = f"At the {numbers.minimum_kind(approach)}"
    return numbers.titled(title, "decision", lambda: _decisions(approach))


def _decisions(approach: Approach) -> str:
    """One card for each row of the level of service, in the order of the chart."""
    binding = numbers.binding_row(approach)
    rows = rows_of(approach, binding.line)
    cards = [(_head(row, len(rows) > 1), _decision(approach, row)) for row in rows]
    words = (
        "Decide here: continue only with the required references in sight; otherwise go around at once. A go-around "
        "begun here dips below the DA."
        if binding.kind == "DA" else
        "Do not descend below the MDA without the required references in sight: level off or go around before it. The "
        "steady descent reaches it here."
    )
    return f"{words}\n\n{stacked(cards)}\nThe eye is assumed at the antenna; the nose hides the nearest ground.\n"


def _head(row: Minima, several: bool) -> str:
    categories = f", category {escape(row.categories)}" if several else ""
    return f"{row.line} {row.kind} {quantity(row.altitude_ft, 'ft')}{categories}"


def _decision(approach: Approach, line: Minima) -> list[tuple[str, str]]:
    point = decision_point(approach, line.altitude_ft)
    height_ft, distance_nm, distance_ft = point.height_ft, point.distance_nm, point.distance_ft
    return [
        ("above the threshold", quantity(height_ft, "ft")),
        ("threshold ahead", f"{quantity(distance_nm, 'NM', 0.01)}, {_length(approach, distance_ft)}"),
        (f"time to it at {quantity(TIMED_AT_KT, 'kt')}", quantity(flying_time_s(distance_nm, TIMED_AT_KT), "s")),
        ("line of sight to it", _length(approach, slant_range_ft(distance_ft, height_ft))),
        ("approach lights", _lights(approach, distance_ft)),
        ("printed visibility", _seen(approach, line, distance_ft, height_ft)),
        ("on approach lights alone, FAA", _lights_alone(approach)),
    ]


def _lights(approach: Approach, distance_ft: float) -> str:
    lights = approach.chart.lights
    if lights is None:
        return FROM_THE_CHART if numbers.is_awaited(approach, "lights") else "none on the chart"
    where = "ahead" if (ahead_ft := distance_ft - lights.length_ft) >= 0.0 else "behind you"
    long, away = _length(approach, lights.length_ft), _length(approach, abs(ahead_ft))
    return f"{escape(lights.name)}, {long}: begin {away} {where}"


def _length(approach: Approach, length_ft: float) -> str:
    """A length in ft; for a chart by other rules than the FAA's in metres, with the feet behind."""
    return escape(length(length_ft, approach.identity.rule))


def _seen(approach: Approach, line: Minima, distance_ft: float, height_ft: float) -> str:
    """How far the printed visibility reaches along the line of sight."""
    visible_ft = printed_visibility_ft(line)
    if not visible_ft:
        return ""
    if visible_ft <= height_ft:
        return f"{_length(approach, visible_ft)}: does not reach the ground"
    short_ft = distance_ft - reach_ahead_ft(height_ft, visible_ft)
    where = "before" if short_ft > 0.0 else "past"
    return f"{_length(approach, visible_ft)}: reaches to {_length(approach, abs(short_ft))} {where} the threshold"


def _lights_alone(approach: Approach) -> str:
    tdze_ft, lights = approach.chart.tdze_ft, approach.chart.lights
    if approach.identity.rule != "FAA" or tdze_ft is None or lights is None:
        return ""
    return f"not below {quantity(lights_only_ft(approach), 'ft')}"


def climb(approach: Approach) -> str:
    """Rate of climb by ground speed for the missed approach, and how far it is to its altitude."""
    return numbers.titled("Missed approach climb", "climb", lambda: _climb(approach))


def _climb(approach: Approach) -> str:
    missed, per_nm, whose = approach.chart.missed, climb_gradient_ft_per_nm(approach), numbers.whose_climb(approach)
    if missed is None:
        return "The approach file has no missed approach: take it from the chart.\n"
    if (row := best_row(approach)) is not None:
        return _climb_from(row, missed, per_nm, whose)
    rows = [(str(speed), number(climb_rate_fpm(speed, per_nm))) for speed in CLIMB_SPEEDS_KT]
    table = numbers.numbers_table(["ground speed, kt", "least ft/min"], rows)
    return f"At least {quantity(per_nm, 'ft/NM')} ({whose}), to {quantity(missed.altitude_ft, 'ft')}.\n\n{table}"


def _climb_from(line: Minima, missed: Missed, per_nm: float, whose: str) -> str:
    climb_nm = distance_to_altitude_nm(missed.altitude_ft - line.altitude_ft, per_nm)
    rows = [
        (str(speed), number(climb_rate_fpm(speed, per_nm)),
         clock(flying_time_s(climb_nm, speed)))
        for speed in CLIMB_SPEEDS_KT
    ]
    return (
        f"At least {quantity(per_nm, 'ft/NM')} ({whose}): from the {line.kind} to "
        f"{quantity(missed.altitude_ft, 'ft')} in {quantity(climb_nm, 'NM', 0.1)}.\n\n"
        + numbers.numbers_table(["ground speed, kt", "least ft/min", "time to altitude"], rows)
    )


SECTIONS: tuple[Callable[[Approach], str], ...] = (rate, altimeter, cold, scale, decision, climb)

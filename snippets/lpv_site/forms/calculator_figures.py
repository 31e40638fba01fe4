"""The figures of an approach and of an aircraft that calculators begin with, by the names their fields use."""

import re

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.approach.schema import Minima
from lpv.calculators.speed import NO_RULE, OWN_RULE
from lpv.core.course import magnetic_deg
from lpv.core.text import exact, to_ascii
from lpv.decide.cold import fixes_to_correct
from lpv.decide.final_path import pfaf_distance_nm
from lpv.decide.lines import LINES, best_row, row_for
from lpv.decide.visibility import printed_visibility
from lpv.fas.block import encode
from lpv.figures.cold import FIXES, MAX_ALTITUDES
from lpv.figures.slowing import MAX_LETTERS, MAX_STEPS
from lpv.intercept.planned import slowed

Figures = dict[str, float | str]


def approach_figures(approach: Approach) -> Figures:
    """Every figure of an approach that some field asks for; what it does not have is left out."""
    known = _chart(approach) | _minima(approach) | _database(approach)
    return {f"approach.{name}": value for name, value in known.items() if value is not None}


def _chart(approach: Approach) -> dict[str, float | str | None]:
    chart = approach.chart
    magnetic = chart.course_reference == "magnetic"
    return {
        "glidepath_deg": chart.glidepath_deg,
        "tch_ft": chart.tch_ft,
        "threshold_elevation_ft": chart.threshold_elevation_ft,
        "airport_elevation_ft": chart.airport_elevation_ft,
        "threshold_above_airport_ft": chart.threshold_elevation_ft - chart.airport_elevation_ft,
        "course_deg": chart.course_deg,
        "magnetic_course_deg": chart.course_deg if magnetic else magnetic_deg(chart.course_deg, chart.variation_deg),
        "true_course_deg": approach.true_course_deg,
        "variation_deg": abs(chart.variation_deg),
        "variation_side": "W" if chart.variation_deg < 0 else "E",
        "pfaf_distance_nm": pfaf_distance_nm(approach),
        "pfaf_altitude_ft": approach.pfaf.altitude_ft,
        "lights_ft": chart.lights.length_ft if chart.lights else 0.0,
        "missed_gradient_ft_per_nm": (chart.missed and chart.missed.climb_gradient_ft_per_nm) or 0.0,
        "altitudes": _altitudes(approach),
        "channel": approach.identity.channel,
        "path_id": approach.identity.path_id,
        "cycle": approach.identity.cycle,
    }


def _altitudes(approach: Approach) -> str:
    """The charted altitudes as `lpv.figures.cold` reads them, the highest row of each line of minima."""
    fixes = [(fix.role, fix.name, altitude_ft) for fix, _, altitude_ft in fixes_to_correct(approach)
             if fix.role in FIXES]
    rows = [row for row in (row_for(approach, line) for line in LINES) if row is not None]
    missed = [("missed", "", approach.chart.missed.altitude_ft)] if approach.chart.missed else []
    altitudes = [*fixes, *((row.line, row.kind, row.altitude_ft) for row in rows), *missed]
    more = max(0, len(altitudes) - MAX_ALTITUDES)  # those farthest out are left out first
    return ";".join(f"{role}|{name}|{to_ascii(exact(altitude_ft))}" for role, name, altitude_ft in altitudes[more:])


def _minima(approach: Approach) -> dict[str, float | str | None]:
    """The DA that binds any type: the highest row of the approach's own line; nothing where it has no DA."""
    row = best_row(approach)
    if row is None or row.kind != "DA":
        return {}
    height_ft = row.altitude_ft - approach.chart.threshold_elevation_ft
    return _visibility(row) | {"da_ft": row.altitude_ft, "da_height_ft": height_ft}


def _visibility(line: Minima) -> dict[str, float | str | None]:
    printed = printed_visibility(line)
    return {} if printed is None else {
        "visibility": printed.size, "visibility_unit": printed.unit, "visibility_ft": printed.length_ft}


def _database(approach: Approach) -> dict[str, float | str | None]:
    segment, effective = approach.segment, approach.database.effective
    return {
        "half_width_ft": approach.geometry.half_width_ft,
        "garp_distance_ft": approach.geometry.garp_distance_ft,
        "sbas_provider": str(segment.sbas_provider),
        "runway_number": segment.runway_number,
        "block": encode(segment).hex(" ", 4).upper(),
        "hal_m": segment.hal_m,
        "val_m": segment.val_m,
        "latitude_deg": segment.ltp_latitude_deg,
        "longitude_deg": segment.ltp_longitude_deg,
        "effective": effective.isoformat() if effective else None,
    }


def aircraft_figures(aircraft: Aircraft) -> Figures:
    """Every figure of an aircraft that some field asks for."""
    flying, cockpit, go_around = aircraft.flying, aircraft.cockpit, aircraft.go_around
    known: Figures = _additive(aircraft) | {
        "final_speed_kt": aircraft.target_speeds_kt(aircraft.landing.max_weight_lb)[-1],
        "bank_limit_deg": flying.bank_limit_deg,
        "roll_rate_deg_per_s": flying.roll_rate_deg_per_s,
        "reaction_s": go_around.reaction_s,
        "acceleration_g": go_around.acceleration_g,
        "climb_rate_fpm": go_around.climb_rate_fpm,
        "climb_rate_one_out_fpm": go_around.climb_rate_one_out_fpm,
        "cutoff_deg": cockpit.cutoff_deg,
        "eyes_above_antenna_ft": cockpit.eye_above_wheels_ft - cockpit.antenna_above_wheels_ft,
        "category": aircraft.type.category,
        "vref_kt": aircraft.vref_kt(aircraft.landing.max_weight_lb),
        "slowing": _slowing(aircraft),
    }
    return {f"aircraft.{name}": value for name, value in known.items()}


def _additive(aircraft: Aircraft) -> Figures:
    """The operator's own rule of what is added to VREF; a type without one begins with none."""
    rule = aircraft.operator.rule_of_additive()
    if rule is None:
        return {"additive": NO_RULE}
    return {"additive": OWN_RULE, "headwind_share": rule.headwind_share, "gust_share": rule.gust_share,
            "least_added_kt": rule.least_kt, "most_added_kt": rule.most_kt}


def _slowing(aircraft: Aircraft) -> str:
    """How the type slows down, as `lpv.figures.slowing` reads it."""
    weight_lb, flying, brake = aircraft.landing.max_weight_lb, aircraft.flying, aircraft.speed_brake
    adds, lowest_ft = (0.0, 0.0) if brake is None else (brake.adds_kt_per_s, brake.lowest_ft)
    slowing = slowed(aircraft, weight_lb)
    records = [f"{flying.spool_up_s:g}|{adds:g}|{lowest_ft:g}|{slowing.first_kt:g}", _drag(slowing.rows)]
    for row, step in list(zip(aircraft.schedule, slowing.steps, strict=True))[:MAX_STEPS]:
        target = f"{row.speed_kt:g}" if row.above_vref_kt is None else f"+{row.above_vref_kt:g}"
        label = re.sub(r"[;|\s]+", " ", row.label)[:MAX_LETTERS]
        records.append(
            f"{label}|{row.before_pfaf_nm:g}|{target}|{step.limit_kt:g}|{row.takes_s:g}|{_drag(step.rows)}")
    return ";".join(records)


def _drag(rows: list[tuple[float, float]]) -> str:
    return ",".join(f"{speed_kt:g}/{slows:g}" for speed_kt, slows in rows)

"""Rules of the cross-check: what only the chart prints, within what it can be: temperatures, lights, safe altitudes."""

import math
from collections.abc import Iterator

from lpv.air.altimetry import aerodrome_isa_deviation_c
from lpv.approach.record import Approach
from lpv.approach.schema import SafeAltitude
from lpv.core.errors import DomainError
from lpv.core.findings import Finding, not_compared
from lpv.core.text import feet, nautical_miles, quantity, trimmed_quantity
from lpv.core.units import M_PER_FT
from lpv.crosscheck.statements import finding, within
from lpv.decide.visibility import printed_visibility_text
from lpv.decide.visual import lights_length_ft, lights_remembered
from lpv.facts import value, value_of
from lpv.path.temperature import order_effective_angle_deg

Row = tuple[str, str]
READ_AGAIN = "Read it from the chart again, sign and unit included."
CLASSES = {"full": "lights_full_m", "intermediate": "lights_intermediate_m", "basic": "lights_basic_m"}


def vnav_temperatures(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The temperature limits of a barometric path against the angle that it would have at them."""
    chart = approach.chart
    if "LNAV/VNAV" not in [minima.line for minima in chart.minima]:
        return
    rows = (
        ("vnav-lowest", "lowest temperature for baro-VNAV", chart.vnav_lowest_c, value("vnav_angle_lowest_share"), 1.0),
        ("vnav-highest", "highest temperature for baro-VNAV", chart.vnav_highest_c, 1.0,
         value("vnav_angle_highest_share")),
    )
    for key, what, limit_c, least, most in rows:
        if limit_c is None and key == "vnav-highest" and approach.identity.rule != "FAA":
            continue  # charts by other rules print the lowest alone
        if limit_c is None:
            yield not_compared(key, what, "missing in the chart part", computed="an LNAV/VNAV line is printed")
            continue
        share = path_share(approach, limit_c)
        if share is None:
            yield not_compared(key, what, "missing in the chart part", chart=f"{quantity(limit_c, '°C')}",
                               computed="no angle, or no altitude at the FAF")
            continue
        yield finding(
            key, "ok" if within(share, least, most) else "resolve", what, chart=f"{quantity(limit_c, '°C')}",
            computed=f"a barometric path would have {quantity(100.0 * share, '%')} of its angle; "
                 f"usually {quantity(100.0 * least, '%')} to {quantity(100.0 * most, '%')}",
            why="At the limit the path is still flyable; a limit far from that is a slip of sign or unit.",
            action=READ_AGAIN,
        )


def path_share(approach: Approach, temperature_c: float) -> float | None:
    """Share of the glidepath angle that a barometric path has at a temperature, by the formula of Order 8260.52.

    None without a glidepath angle or an altitude at the PFAF.
    """
    chart, pfaf_ft = approach.chart, approach.pfaf.altitude_ft
    if chart.glidepath_deg is None or pfaf_ft is None:
        return None
    deviation_c = aerodrome_isa_deviation_c(temperature_c, chart.airport_elevation_ft)
    angle_deg = order_effective_angle_deg(chart.glidepath_deg, pfaf_ft - chart.threshold_elevation_ft, deviation_c)
    return math.tan(math.radians(angle_deg)) / math.tan(math.radians(chart.glidepath_deg))


def cold_temperature(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The temperature at and below which altitudes are corrected is a cold one."""
    printed_c = approach.chart.cold_temperature_airport_c
    low_c, high_c = value("cold_airport_lowest_c"), value("cold_airport_highest_c")
    if printed_c is not None:
        yield finding(
            "cold-temperature", "ok" if within(printed_c, low_c, high_c) else "resolve",
            "range of the cold temperature", chart=f"{quantity(printed_c, '°C')}",
            computed=f"{quantity(low_c, '°C')} to {quantity(high_c, '°C')}",
            why="It decides when you correct altitudes.", action=READ_AGAIN,
        )


def lights(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Length of the approach lights against what their name stands for."""
    printed, key, what = approach.chart.lights, "lights", "length of the approach lights"
    if printed is None:
        return
    expected = lights_range_ft(printed.name, approach.segment.gpa_deg)
    if expected is None:
        yield not_compared(key, what, "no rule", chart=f"{printed.name}, {feet(printed.length_ft)}",
                           action="Compare the length with the airport data.")
        return
    low_ft, high_ft = expected
    yield finding(
        key, "ok" if within(printed.length_ft, low_ft, high_ft) else "resolve", what,
        chart=f"{printed.name}, {feet(printed.length_ft)}",
        computed=f"{feet(low_ft)} to {feet(high_ft)}{lights_remembered(_word(printed.name))}",
        why="What you see at the minimum, and the visibility you need, depend on it.",
        action="Compare name and length with the chart.",
    )


def lights_range_ft(name: str, gpa_deg: float) -> tuple[float, float] | None:
    """Least and greatest length (ft) of lights of this name; None for a name that is not known here."""
    try:
        length_ft = lights_length_ft(_word(name), max(gpa_deg, 1.0))
    except DomainError:
        return _class_range_ft(name.lower())
    return length_ft - value("lights_length_ft"), length_ft + value("lights_length_ft")


def _word(name: str) -> str:
    """The first word of the lights' name, in capitals."""
    return name.upper().split()[0] if name.split() else ""


def _class_range_ft(name: str) -> tuple[float, float] | None:
    """The range of a class of lights (EASA), where the name says one."""
    classes = list(CLASSES)
    class_name = next((word for word in classes if word in name), None)
    if class_name is None:
        return None
    longer = classes.index(class_name) - 1
    most_ft = value_of(CLASSES[classes[longer]]) / M_PER_FT if longer >= 0 else 4000.0
    return value_of(CLASSES[class_name]) / M_PER_FT, most_ft


def safe_altitudes(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Minimum safe altitudes: sectors that make a full circle about one centre, and altitudes that can be."""
    sectors, key, what = approach.chart.msa, "msa", "minimum safe altitudes"
    if not sectors:
        yield not_compared(key, what, "missing in the chart part")
        return
    faults = [*_circle_faults(sectors), *_sector_faults(approach, sectors)]
    yield finding(
        key, "resolve" if faults else "ok", what,
        chart="; ".join(f"{sector.name} {feet(sector.altitude_ft)}" for sector in sectors),
        computed="; ".join(faults) or "a full circle, above the airport",
        why="You need them when everything else is lost.", action="Read the sectors from the chart again.",
    )


def _circle_faults(sectors: tuple[SafeAltitude, ...]) -> list[str]:
    """Gaps and overlaps between sectors, and more than one center or radius."""
    ordered = sorted(sectors, key=lambda sector: sector.from_deg)
    turned = sum((sector.to_deg - sector.from_deg) % 360.0 or 360.0 for sector in sectors)
    chained = all(after.from_deg % 360.0 == before.to_deg % 360.0
                  for before, after in zip(ordered, [*ordered[1:], ordered[0]], strict=True))
    faults = [] if chained and turned == 360.0 else ["gaps or overlaps between sectors"]
    return faults + (["more than one center"] if len({sector.centre for sector in sectors}) > 1 else [])


def _sector_faults(approach: Approach, sectors: tuple[SafeAltitude, ...]) -> Iterator[str]:
    """A centre that belongs elsewhere, an altitude that is not in hundreds or not above the airport, an odd radius."""
    least_ft = approach.chart.airport_elevation_ft + value("msa_above_airport_ft")
    for sector in sectors:
        if sector.centre.startswith("RW") and sector.centre != f"RW{approach.identity.runway}":
            yield f"center {sector.centre} is another runway"
        if sector.altitude_ft % 100.0 or sector.altitude_ft < least_ft:
            yield f"{feet(sector.altitude_ft)} is not in hundreds, or under {feet(least_ft)}"
        if not within(sector.radius_nm, value("msa_radius_nm"), 30.0):
            yield f"radius {nautical_miles(sector.radius_nm, 1)}"


def chart_only(approach: Approach, on: int | None) -> Iterator[Finding]:
    """What stands on the chart alone: it may be within what is possible, and still be wrong."""
    rows = [(what, text) for what, text in _chart_only_values(approach) if text]
    if rows:
        yield not_compared(
            "chart-alone", "printed on the chart only", "missing in the database part",
            chart="; ".join(f"{what} {text}" for what, text in rows),
            why="Only the chart has these: nothing else here can show a misreading.",
            action="Read each of these from the chart in force, twice.",
        )


def _chart_only_values(approach: Approach) -> Iterator[Row]:
    """Everything that only the chart states, with its value as text, "" where it states nothing."""
    chart, missed = approach.chart, approach.chart.missed
    yield "name of the airport", approach.identity.airport_name
    for minima in chart.minima:
        height = "" if minima.hat_ft is None else f" ({feet(minima.hat_ft)})"
        yield f"{minima.line} {minima.categories}", f"{minima.kind} {feet(minima.altitude_ft)}{height}"
        yield f"visibility {minima.line} {minima.categories}", printed_visibility_text(minima)
    if "circling" not in [minima.line for minima in chart.minima]:
        yield "airport elevation", feet(chart.airport_elevation_ft)
    for what, limit_c in (("lowest for baro-VNAV", chart.vnav_lowest_c), ("highest", chart.vnav_highest_c),
                          ("cold temperature", chart.cold_temperature_airport_c)):
        yield what, "" if limit_c is None else f"{trimmed_quantity(limit_c, '°C')}"
    gradient = missed.climb_gradient_ft_per_nm if missed else None
    yield "climb gradient", "" if gradient is None else f"{trimmed_quantity(gradient, 'ft/NM')}"
    yield "lights", "" if chart.lights is None else f"{chart.lights.name} {feet(chart.lights.length_ft)}"
    yield "minimum safe altitudes", ", ".join(
        f"{sector.name} {feet(sector.altitude_ft)} within {trimmed_quantity(sector.radius_nm, 'NM')}"
        for sector in chart.msa)
    yield "notes", " ".join(chart.notes)


RULES = (chart_only, vnav_temperatures, cold_temperature, lights, safe_altitudes)

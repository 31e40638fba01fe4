"""The numbers behind the flying sections of a briefing and behind its card, one place for each.

Every function takes an approach as its file holds it.  Where the approach lies outside the domain of a
computation the function raises DomainError; `said` and `titled` turn that into words on the page.
"""

import re
from collections.abc import Callable, Sequence
from functools import lru_cache

from lpv.air.altimetry import aerodrome_isa_deviation_c
from lpv.approach.record import Approach
from lpv.approach.schema import KINDS, Identity, Minima
from lpv.core import airac
from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.crosscheck.check import crosscheck
from lpv.crosscheck.coded import FROM_THE_CHART
from lpv.crosscheck.fixes import foot
from lpv.facts import value
from lpv.fas import segment
from lpv.motion.kinematics import flying_time_s
from lpv.path.deviation import final_full_scale_ft, from_two_dots_ft
from lpv.path.profile import (
    barometric_path_angle_deg,
    barometric_path_distance_nm,
    barometric_path_height_ft,
    straight_path_distance_nm,
    straight_path_height_ft,
)
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv.path.temperature import indicated_on_path_ft
from lpv_site.briefing.figures import path_arguments
from lpv_site.figures.figure import set_aside
from lpv_site.text.table import html_table
from lpv_site.text.text import escape, number, plain, quantity

ROUND_DISTANCES_NM = (5, 3, 1)
NOT_COMPUTABLE = "not computable"
LONG_DECIMALS = re.compile(r"-?\d+\.\d{3,}")


def titled(title: str, anchor: str, body: Callable[[], str]) -> str:
    """A section with its heading and id; where it cannot be computed it says so and why."""
    try:
        text = body()
    except DomainError as error:
        text = f"This cannot be computed for this approach. {escape(_shortened(str(error)))}\n"
    return f"## {title} {{ #{anchor} data-search-exclude }}\n\n{text}"


def _shortened(message: str) -> str:
    """An error's words with their long decimals rounded."""
    return LONG_DECIMALS.sub(lambda found: number(float(found[0]), 2), message)


def said(compute: Callable[[], str]) -> str:
    """The text, or in words that it cannot be computed for this approach."""
    try:
        return compute()
    except DomainError:
        return NOT_COMPUTABLE


def numbers_table(headers: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """A table of numbers, right aligned, escaped; set aside, since Markdown takes long over so many cells."""
    return f'<div class="hb-numbers">{set_aside(html_table(headers, rows))}</div>\n'


def minutes_seconds(seconds: float) -> str:
    """A duration as m:ss."""
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02d}"


def has_path(approach: Approach) -> bool:
    """Whether SBAS guides in the vertical: LPV does, LP does not, even with an angle on its chart."""
    return approach.identity.level_of_service == "LPV"


@lru_cache(maxsize=4)
def crosschecked(approach: Approach) -> tuple[Finding, ...]:
    """What the cross-check of chart, database and computation finds: told on the page and on its card."""
    return tuple(crosscheck(approach))


@lru_cache(maxsize=16)
def pfaf_nm(approach: Approach) -> float:
    """Distance of the PFAF before the threshold, along the final course."""
    return foot(approach, approach.pfaf)[0]


def best_line(approach: Approach) -> Minima:
    """The line of minima of the approach's level of service, else the first one printed; DomainError for none."""
    if not approach.chart.minima:
        raise DomainError(f"Lines of minima: found none; they are {FROM_THE_CHART}.")
    return approach.minima_line(approach.identity.level_of_service) or approach.chart.minima[0]


def is_awaited(approach: Approach, key: str) -> bool:
    """Whether a key of the chart is still to be filled from it, so that nothing may be said about it."""
    return key in approach.chart.to_be_filled


def minimum_kind(approach: Approach) -> str:
    """DA or MDA, of the best line; of the level of service where the minima are to be filled from the chart."""
    return best_line(approach).kind if approach.chart.minima else KINDS[approach.identity.level_of_service]


def minimum_told(approach: Approach) -> tuple[str, str, str]:
    """The minimum of the best line as (line, DA or MDA, altitude in words, or that the chart is to be read)."""
    if not approach.chart.minima:
        return approach.identity.level_of_service, minimum_kind(approach), FROM_THE_CHART
    line = best_line(approach)
    return line.line, line.kind, quantity(line.altitude_ft, "ft")


def whose_climb(approach: Approach) -> str:
    """Whose the gradient is that `climb_ft_per_nm` gives, in words."""
    if is_awaited(approach, "missed.climb_gradient_ft_per_nm"):
        return f"{standard_climb(approach)}; whether the chart asks for more is {FROM_THE_CHART}"
    missed = approach.chart.missed
    published = missed is not None and missed.climb_gradient_ft_per_nm == climb_ft_per_nm(approach)
    return "published" if published else f"{standard_climb(approach)}, none higher published"


def threshold_and_crossing_ft(approach: Approach) -> tuple[float, float]:
    """Elevation of the threshold and crossing height: the chart's, else the data block's."""
    chart = approach.chart
    return chart.threshold_elevation_ft, approach.segment.tch_ft if chart.tch_ft is None else chart.tch_ft


def descent_deg(approach: Approach) -> float:
    """The glidepath angle; without one, the angle of a steady descent from the PFAF's altitude."""
    if approach.chart.glidepath_deg is not None:
        return approach.chart.glidepath_deg
    altitude_ft = approach.pfaf.altitude_ft
    if altitude_ft is None:
        raise DomainError("altitude at the PFAF: found none; allowed: a number. The chart prints no angle either.")
    return barometric_path_angle_deg(pfaf_nm(approach), altitude_ft, *threshold_and_crossing_ft(approach))


def descent_height_ft(approach: Approach, distance_nm: float) -> float:
    """Altitude on the SBAS glidepath, or on the steady descent by the altimeter where there is none."""
    path = straight_path_height_ft if has_path(approach) else barometric_path_height_ft
    return path(distance_nm, *threshold_and_crossing_ft(approach), descent_deg(approach))


def minimum_distance_nm(approach: Approach) -> float:
    """Distance before the threshold at which the descent reaches the minimum of the best line."""
    distance = straight_path_distance_nm if has_path(approach) else barometric_path_distance_nm
    minimum_ft = best_line(approach).altitude_ft
    return distance(minimum_ft, *threshold_and_crossing_ft(approach), descent_deg(approach))


def pfaf_to_minimum(approach: Approach, ground_speed_kt: float) -> str:
    """Time from the PFAF down to the minimum, as m:ss."""
    distance_nm = pfaf_nm(approach) - minimum_distance_nm(approach)
    return minutes_seconds(flying_time_s(distance_nm, ground_speed_kt))


def standard_c(approach: Approach) -> float:
    """Standard temperature at the airport, °C."""
    return 0.0 - aerodrome_isa_deviation_c(0.0, approach.chart.airport_elevation_ft)


def reads_at_pfaf_ft(approach: Approach, temperature_c: float) -> float:
    """What the altimeter shows at the PFAF on the SBAS path, by the temperature at the airport."""
    elevation_ft = approach.chart.airport_elevation_ft
    return indicated_on_path_ft(
        pfaf_nm(approach), *path_arguments(approach), temperature_c, elevation_ft
    )


def course_full_scale_ft(approach: Approach, distance_nm: float) -> float:
    """Full-scale course deviation on the final approach segment."""
    held = approach.segment
    return final_full_scale_ft(distance_nm, held.course_width_m / M_PER_FT, segment.garp_distance_ft(held))


def path_full_scale_ft(approach: Approach, distance_nm: float) -> float:
    """Full-scale path deviation of LPV."""
    _, tch_ft, gpa_deg = path_arguments(approach)
    return lpv_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)


def dot_ft(full_scale_ft: float) -> float:
    """One dot of a scale of two dots each side."""
    return from_two_dots_ft(1.0, full_scale_ft)


def scale_places(approach: Approach) -> list[tuple[str, float]]:
    """Where the scale is told: PFAF, round distances inside it, and the minimum; (name, NM), farthest first."""
    begin_nm = pfaf_nm(approach)
    places = [(f"{distance} NM", float(distance)) for distance in ROUND_DISTANCES_NM if distance < begin_nm]
    return sorted([("PFAF", begin_nm), *places, *_minimum_place(approach)], key=lambda place: -place[1])


def _minimum_place(approach: Approach) -> list[tuple[str, float]]:
    """The minimum among the places; none where it is not before the threshold or cannot be computed."""
    try:
        distance_nm = minimum_distance_nm(approach)
    except DomainError:
        return []
    return [(best_line(approach).kind, distance_nm)] if distance_nm >= 0.0 else []


def above_airport_ft(approach: Approach, altitude_ft: float) -> float:
    """Height above the airport, by which temperature corrections are read."""
    return altitude_ft - approach.chart.airport_elevation_ft


def climb_ft_per_nm(approach: Approach) -> float:
    """Climb gradient that the missed approach needs: the published one, else the standard one of the chart's rules."""
    published = approach.chart.missed.climb_gradient_ft_per_nm if approach.chart.missed else None
    icao_ft_per_nm = value("missed_gradient_icao_percent") / 100.0 * FT_PER_NM
    standard = value("missed_gradient_ft_per_nm") if approach.identity.rule == "FAA" else icao_ft_per_nm
    return max(standard, published or 0.0)


def standard_climb(approach: Approach) -> str:
    """Whose standard counts where the chart prints no climb gradient."""
    if approach.identity.rule == "FAA":
        return "the FAA's standard"
    return f"{quantity(value('missed_gradient_icao_percent'), '%', 1)}, ICAO's standard, from memory"


def in_force(who: Identity) -> str:
    """From when to when the data hold; the page's script warns in it once they are out of date."""
    cycle = airac.cycle(who.cycle)
    return (
        f'<p class="hb-validity" data-from="{airac.iso(cycle.effective)}" data-until="{airac.iso(cycle.expiry)}">'
        f"Data of cycle {escape(who.cycle)}, in force {cycle.held}.</p>\n"
    )


def printed_visibility(line: Minima) -> str:
    """The visibility of a line as printed, in its own unit; "" if it prints none."""
    given = [(line.visibility_sm, "SM"), (line.visibility_m, "m"), (line.rvr_ft, "ft RVR"), (line.rvr_m, "m RVR")]
    return next((f"{plain(found)} {unit}" for found, unit in given if found is not None), "")

"""The card of a briefing: what a crew needs on one printed page, in the order it is needed.

With the address ending in #card the browser prints this alone (docs/assets/card.css).  It fits A5 and half
letter, in black on white.  The empty box at its top right is kept for a code to scan.
"""

from collections.abc import Callable, Sequence
from functools import partial

from lpv.approach.record import Approach
from lpv.approach.schema import Minima
from lpv.core.findings import Finding, verdict
from lpv.core.text import capitalized, course, number, plural, quantity, signed
from lpv.crosscheck.coded import FROM_THE_CHART
from lpv.decide.climb import climb_gradient_ft_per_nm
from lpv.decide.cold import altitude_addition_ft, missed_addition_ft, pfaf_addition_ft
from lpv.decide.final_path import (
    altimeter_at_pfaf_ft,
    course_full_scale_ft,
    descent_altitude_ft,
    descent_angle_deg,
    has_glidepath,
    path_full_scale_ft,
    pfaf_distance_nm,
    standard_temperature_c,
)
from lpv.decide.lines import rows_of
from lpv.decide.visibility import printed_visibility_text
from lpv.motion.kinematics import climb_rate_fpm, descent_rate_fpm
from lpv.path.deviation import from_two_dots_ft
from lpv_site.briefing import numbers
from lpv_site.briefing.cold import additions, shown_c
from lpv_site.department.department import cautions
from lpv_site.figures.figure import set_aside
from lpv_site.text.findings import MARKS
from lpv_site.text.text import escape

SPEEDS_KT = (100, 120, 140, 160)
COLD_C = -20.0
BLANK = '<span class="hb-blank"></span>'
DAY = ("QNH", "temp", "wind", "minimum set")
MAX_DISTANCES = 8
MAX_STOPS = 3
DOT_PLACES = (quantity(3.0, "NM"), quantity(1.0, "NM"), "DA", "MDA")  # of those that the page tells
CAUTION = (
    "For training and reference only; never primary navigation. The current chart, the aircraft's database, the "
    "aircraft flight manual, your operator's procedures and local rules come first, and a qualified instructor "
    "decides what you practice."
) + "".join(f" {escape(text)}" for text in cautions())


def card(approach: Approach) -> str:
    """The card as one element, below a heading and the link that prints it."""
    body = "".join(_part(label, partial(part, approach)) for label, part in PARTS)
    return (
        "## Card { #print data-search-exclude }\n\n"
        '<p class="hb-print"><a href="#card">Print this card</a> on one page: A5 or half letter.</p>\n\n'
        f'<section class="hb-card" id="card" aria-label="Card" data-search-exclude>{set_aside(body)}</section>\n'
    )


def _part(label: str, part: Callable[[], str]) -> str:
    """A part of the card; where it cannot be computed its label says so."""
    text = numbers.computed_text(part)
    return card_row(label, text) if text == numbers.NOT_COMPUTABLE else text


def card_row(label: str, text: str) -> str:
    """A row of a card: what it is about, its first letter a capital, and HTML of our own."""
    return f'<p class="hb-card-row"><b>{capitalized(label)}</b> {text}</p>\n'


def _grid(name: str, corner: str, heads: Sequence[str], *rows: tuple[str, Sequence[str]]) -> str:
    """A small table with headings above and at the left; its cells are HTML of our own."""
    above = "".join(f'<th scope="col">{head}</th>' for head in (corner, *heads))
    body = "".join(
        f'<tr><th scope="row">{label}</th>{"".join(f"<td>{cell}</td>" for cell in cells)}</tr>'
        for label, cells in rows
    )
    return (
        f'<table class="hb-card-grid" aria-label="{name}"><thead><tr>{above}</tr></thead>'
        f"<tbody>{body}</tbody></table>\n"
    )


def _stops(approach: Approach) -> str:
    """What must be settled before anything else on the card is used; "" where nothing stops it."""
    stops = [finding for finding in numbers.crosschecked(approach) if finding.grade == "stop"]
    more = f" And {plural(len(stops) - MAX_STOPS, 'stop')} more." if len(stops) > MAX_STOPS else ""
    listed = " ".join(f"{capitalized(escape(finding.what))}: {_sides(finding)}." for finding in stops[:MAX_STOPS])
    return f'<p class="hb-card-row hb-stop"><b>{MARKS["stop"]} Do not fly it.</b> {listed}{more}</p>\n' if stops else ""


def _sides(finding: Finding) -> str:
    sides = (("chart", finding.chart), ("database", finding.database), ("computed", finding.computed))
    return escape(", ".join(f"{side} {text}" for side, text in sides if text) or finding.why)


def _top(approach: Approach) -> str:
    """Which approach it is, what identifies it, whether its data hold and agree."""
    who, chart = approach.identity, approach.chart
    path_deg = chart.glidepath_deg if has_glidepath(approach) else None
    angle = ", no glidepath" if path_deg is None else f", glidepath {quantity(path_deg, '°', 0.01)}"
    tch = f", TCH {quantity(chart.tch_ft, 'ft')}" if chart.tch_ft is not None else ""
    invented = " Invented: no such place exists." if who.invented else ""
    return (
        f'<div class="hb-card-top"><div><p class="hb-card-name">{escape(who.airport)} {escape(who.title)}</p>'
        f"<p>{escape(who.airport_name)}, runway {escape(who.runway)}.{invented}</p>"
        f'<p class="hb-card-key">channel {who.channel} · {escape(who.path_id)} · {course(chart.course_deg)} '
        f"{escape(chart.course_reference)}</p><p>{escape(who.level_of_service)}{angle}{tch}</p></div>"
        f'<div class="hb-card-code"></div></div>\n{numbers.in_force(who)}'
        + card_row("Chart and database", verdict(numbers.crosschecked(approach)))
    )


def _set_up(approach: Approach) -> str:
    """What to set before the approach: source, minimum, missed approach altitude."""
    (line, kind, altitude), missed = numbers.minima_in_words(approach), approach.chart.missed
    climb = f" · missed approach {quantity(missed.altitude_ft, 'ft')}" if missed is not None else ""
    return card_row(
        "Set", f"source SBAS · {kind} {altitude} ({line}) as charted, plus the operator's and cold additions{climb}")


def _at_pfaf(approach: Approach) -> str:
    """Where the PFAF is, its altitude, and what the altimeter shows there."""
    pfaf = approach.pfaf
    charted = "" if pfaf.altitude_ft is None else (
        f", {quantity(pfaf.altitude_ft, 'ft')} {escape(pfaf.altitude_rule)}")
    where = f"{quantity(pfaf_distance_nm(approach), 'NM', 0.1)} before the threshold{charted}."
    return card_row(f"FAF {escape(pfaf.name)}", f"{where} {numbers.computed_text(partial(_reads, approach))}")


def _reads(approach: Approach) -> str:
    """What to expect on the altimeter; where there is no path to compare it with, what to add in cold."""
    if not has_glidepath(approach):
        return _additions(approach)
    standard_c = standard_temperature_c(approach)
    standard, cold = (
        f"{quantity(altimeter_at_pfaf_ft(approach, temperature_c), 'ft')} at {signed(temperature_c, 'deg C')}"
        for temperature_c in (standard_c, COLD_C)
    )
    return f"On the glidepath the altimeter reads {standard} (standard), {cold}."


def _altitudes(approach: Approach) -> str:
    """Altitude against distance, as far down as the minimum."""
    farthest = int(pfaf_distance_nm(approach))
    step = max(1, -(-farthest // MAX_DISTANCES))
    places = reversed(range(step, farthest + 1, step))
    heights = [(distance, descent_altitude_ft(approach, distance)) for distance in places]
    lowest_ft = _lowest_minimum_ft(approach)
    shown = [(distance, ft) for distance, ft in heights if ft >= lowest_ft]
    name = "glidepath, ft, standard day" if has_glidepath(approach) else "advisory descent, ft"
    return _grid(
        "Altitude against distance", "to threshold, NM", [str(distance) for distance, _ in shown],
        (name, [number(ft) for _, ft in shown]),
    ) if shown else ""


def _lowest_minimum_ft(approach: Approach) -> float:
    """The lowest minimum of the level of service, or the threshold where none is in the file."""
    rows = rows_of(approach, approach.identity.level_of_service)
    return min((row.altitude_ft for row in rows), default=approach.chart.threshold_elevation_ft)


def _rates(approach: Approach) -> str:
    """Rates of descent and of climb at a few ground speeds."""
    down_deg, up = descent_angle_deg(approach), climb_gradient_ft_per_nm(approach)
    return _grid(
        "Rates", "ground speed, kt", [str(speed) for speed in SPEEDS_KT],
        (f"down {quantity(down_deg, '°', 0.01)}, ft/min",
         [number(descent_rate_fpm(speed, down_deg)) for speed in SPEEDS_KT]),
        (f"up {quantity(up, 'ft/NM')}, ft/min",
         [number(climb_rate_fpm(speed, up)) for speed in SPEEDS_KT]),
    )


def _dots(approach: Approach) -> str:
    """One dot of two in ft on the way down."""
    places = [place for place in numbers.scale_places(approach) if place[0] in DOT_PLACES]
    scales = {"course, ft": course_full_scale_ft}
    if has_glidepath(approach):
        scales["glidepath, ft (scale from memory)"] = path_full_scale_ft
    rows = [
        (label, [number(from_two_dots_ft(1.0, full_scale_ft(approach, distance_nm))) for _, distance_nm in places])
        for label, full_scale_ft in scales.items()
    ]
    return _grid("One dot in ft", "one dot of two", [name for name, _ in places], *rows)


def _minima(approach: Approach) -> str:
    return card_row("Minima", " · ".join(_minimum(line) for line in approach.chart.minima) or f"{FROM_THE_CHART}.")


def _minimum(line: Minima) -> str:
    visibility = printed_visibility_text(line)
    return f"{line.line} {escape(line.categories)} {line.kind} {quantity(line.altitude_ft, 'ft')}" + (
        f", {visibility}" if visibility else "")


def _missed(approach: Approach) -> str:
    missed = approach.chart.missed
    if missed is None:
        return card_row("Missed approach", "not in the file: take it from the chart.")
    more = f"; more is {FROM_THE_CHART}" if numbers.is_awaited(approach, "missed.climb_gradient_ft_per_nm") else ""
    whose = "published" if missed.climb_gradient_ft_per_nm else f"{numbers.standard_climb(approach)}{more}"
    climb = f"Climb at least {quantity(climb_gradient_ft_per_nm(approach), 'ft/NM')} ({whose})."
    return card_row("Missed approach", f"{escape(missed.instruction)} {climb}")


def _cold(approach: Approach) -> str:
    limit_c = approach.chart.cold_temperature_airport_c
    if numbers.is_awaited(approach, "cold_temperature_airport_c"):
        return card_row("Cold", f"the temperature to correct from is {FROM_THE_CHART}.")
    if limit_c is None:
        return ""
    return _cold_grid(approach, limit_c)


def _cold_grid(approach: Approach, limit_c: float) -> str:
    """What cold days add, as the briefing's own section has it."""
    shown = shown_c(limit_c)
    rows = [(name, [numbers.computed_text(lambda add=add, at=at: number(add(at))) for at in shown])  # type: ignore[misc]
            for name, add in additions(approach).items()]
    corner = f"<b>Cold</b> at {quantity(limit_c, 'deg C')} and below (FAA): add, ft"
    return _grid("Cold", corner, [quantity(temperature_c, "°C") for temperature_c in shown], *rows)


def _day(approach: Approach) -> str:
    """Room for what is only known on the day."""
    return f'<p class="hb-card-day">{" ".join(f"<span>{name} {BLANK}</span>" for name in DAY)}</p>\n'


def _additions(approach: Approach) -> str:
    """What one cold day adds at the PFAF, to the minimum and to the missed approach altitude."""
    rows, missed = rows_of(approach, numbers.binding_row(approach).line), approach.chart.missed
    added = [(pfaf_addition_ft(approach, COLD_C), "the altitude at the FAF")]
    for row in rows:
        categories = f" ({row.categories})" if len(rows) > 1 else ""
        added.append((altitude_addition_ft(approach, row.altitude_ft, COLD_C), f"the {row.kind}{categories}"))
    if missed is not None:
        added.append((missed_addition_ft(approach, missed.altitude_ft, COLD_C), "the missed approach altitude"))
    listed = ", ".join(f"{quantity(addition_ft, 'ft')} to {what}" for addition_ft, what in added)
    return f"At {signed(COLD_C, 'deg C')} add {listed} (FAA)."


def _caution(approach: Approach) -> str:
    return f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p>\n'


PARTS: tuple[tuple[str, Callable[[Approach], str]], ...] = (
    ("Stop", _stops), ("Approach", _top), ("Set", _set_up), ("FAF", _at_pfaf), ("Altitudes", _altitudes),
    ("Rates", _rates), ("One dot", _dots), ("Minima", _minima), ("Missed approach", _missed), ("Cold", _cold),
    ("Day", _day), ("Caution", _caution),
)
SECTIONS: tuple[Callable[[Approach], str], ...] = (card,)

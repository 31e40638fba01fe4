"""What full scale means on one approach: in ft at a few places, and a drawing of how it narrows."""

from collections.abc import Callable
from functools import partial

from lpv.approach.record import Approach
from lpv.approach.schema import KINDS
from lpv.core.errors import DomainError
from lpv.core.text import feet, number, quantity
from lpv.decide.final_path import course_full_scale_ft, has_glidepath, path_full_scale_ft, pfaf_distance_nm
from lpv.path.deviation import from_two_dots_ft
from lpv_site.briefing import numbers
from lpv_site.figures.figure import figure_html
from lpv_site.figures.plot import FONT, Frame, Point, Words, labelled, line, mark, sheet

HEIGHT_IN = 2.4
STEPS = 40  # parts in which a scale is drawn
ROOM = 1.1  # above the widest scale
Scale = Callable[[Approach, float], float]


def scale(approach: Approach) -> str:
    """Full scale and one dot in ft on the way down, for the course and, where there is one, the path."""
    return numbers.titled("What full scale means", "scale", lambda: _scale(approach))


def _scale(approach: Approach) -> str:
    rows = [_scale_row(approach, name, distance_nm) for name, distance_nm in numbers.scale_places(approach)]
    headers = ["at", "NM", "course, ft", "glidepath, ft"] if has_glidepath(approach) else ["at", "NM", "course, ft"]
    path = " The glidepath's scale is from memory; no public text of its standard was found." if has_glidepath(
        approach) else ""
    return (
        "Full scale to one side; in brackets, one dot of a two-dot scale.\n\n"
        + numbers.numbers_table(headers, rows)
        + f"\n{narrowing(approach)}"
        + f"\nThe course's scale: FAA, AIM 1-1-18, with this approach's own width and length.{path}\n"
    )


def _scale_row(approach: Approach, name: str, distance_nm: float) -> list[str]:
    return [name, number(distance_nm, 0.1), *(
        numbers.computed_text(partial(_full_and_dot_of, full_scale_ft, approach, distance_nm))
        for _, _, full_scale_ft in _scales(approach)
    )]


def _full_and_dot_of(
    full_scale_ft: Callable[[Approach, float], float], approach: Approach, distance_nm: float,
) -> str:
    return _full_and_dot(full_scale_ft(approach, distance_nm))


def _full_and_dot(full_scale_ft: float) -> str:
    return f"{number(full_scale_ft)} ({number(from_two_dots_ft(1.0, full_scale_ft))})"


def _scales(approach: Approach) -> list[tuple[str, str, Scale]]:
    """The scales there are: name, role in a drawing, ft by distance."""
    course = ("course", "first", course_full_scale_ft)
    return [course, ("glidepath", "second", path_full_scale_ft)] if has_glidepath(approach) else [course]


def narrowing(approach: Approach) -> str:
    """Drawing: full scale to one side from the PFAF to the threshold; "" where a scale is not defined all the way."""
    begin_nm, (where, end_nm) = pfaf_distance_nm(approach), numbers.scale_places(approach)[-1]
    if not 0.0 <= end_nm < begin_nm:
        return ""
    try:
        values = {name: (full(approach, begin_nm), full(approach, end_nm)) for name, _, full in _scales(approach)}
        svg = _drawn(approach, begin_nm, end_nm)
        rows = [_row(approach, distance_nm) for distance_nm in range(int(begin_nm), -1, -1)]
    except DomainError:
        return ""
    widths = ", ".join(f"{name} from {number(wide)} to {feet(near)}" for name, (wide, near) in values.items())
    place = f"the {where}" if where in KINDS.values() else f"{where} before the threshold"
    return figure_html(
        "scale-figure", svg, finding=f"From the FAF to {place}, full scale to one side narrows: {widths}.",
        headers=["to threshold", *(f"{name}, ft" for name in values)], rows=rows,
    )


def _row(approach: Approach, distance_nm: float) -> list[str]:
    return [quantity(distance_nm, "NM"), *(number(full(approach, distance_nm)) for _, _, full in _scales(approach))]


def _drawn(approach: Approach, begin_nm: float, end_nm: float) -> str:
    scales = _scales(approach)
    lines = {name: _points(approach, full, begin_nm) for name, _, full in scales}
    widest_ft = max(ft for points in lines.values() for _, ft in points)
    frame = Frame("scale-figure", (begin_nm, 0.0), (0.0, ROOM * widest_ft), HEIGHT_IN)
    ends = [(name, role, (end_nm, full(approach, end_nm))) for name, role, full in scales]
    middle = STEPS // 2
    return sheet(frame, ("distance to the threshold, NM", "full scale, ft"), [
        *(line(frame, lines[name], role, dashed=name == "glidepath") for name, role, _ in scales),
        *(mark(frame, at, "circle", role) for _, role, at in ends),
    ], labelled(frame, [
        *(Words(at, feet(at[1]), role, ("n", "nw", "s"), FONT, bold=True) for _, role, at in ends),
        *(Words(lines[name][middle], name, role, ("ne", "n"), FONT) for name, role, _ in scales),
    ], [at for _, _, at in ends], list(lines.values())))


def _points(approach: Approach, full_scale_ft: Scale, begin_nm: float) -> list[Point]:
    places = [begin_nm * (STEPS - step) / STEPS for step in range(STEPS + 1)]
    return [(distance_nm, full_scale_ft(approach, distance_nm)) for distance_nm in places]

"""Course and path as funnels, the aircraft in them: what a dot is in feet at any distance, and beside an ILS."""

import math

from lpv.core.text import number, quantity
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.facts import value
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import APPROACH, angle, beside, crossing_height, steps
from lpv.forms.fields import Choice, Number
from lpv.path.deviation import (
    final_cap_distance_nm,
    five_dots,
    procedure_full_scale_ft,
    two_dots,
    vectors_full_scale_ft,
)
from lpv.path.ils_scale import glide_slope_full_scale_ft, localizer_full_scale_ft
from lpv.path.scale import lpv_cap_distance_nm, lpv_floor_distance_nm, lpv_full_scale_ft, origin_distance_nm

HEIGHT = 3050
UPPER, LOWER = (LEFT, TOP, WIDTH - RIGHT, 1450), (LEFT, 1820, WIDTH - RIGHT, HEIGHT - BOTTOM)
ROOM = 1.25  # of an axis beside the widest scale
PARTS = 8
SCALES = {"2": two_dots, "5": five_dots}
ROWS_NM = (10.0, 5.0, 3.0, 2.0, 1.0, 0.5, 0.0)


class Scale:
    """Full scale of course and path by distance, LPV and ILS, for one approach and one way of flying it."""

    def __init__(
        self, flown: str, pfaf_nm: float, half_width_ft: float, garp_ft: float, tch_ft: float, gpa_deg: float,
    ) -> None:
        self.flown, self.pfaf_nm, self.half_width_ft, self.garp_ft = flown, pfaf_nm, half_width_ft, garp_ft
        self.tch_ft, self.gpa_deg = tch_ft, gpa_deg

    def course_ft(self, distance_nm: float) -> float:
        """LPV, the course."""
        if self.flown == "vectors":
            return vectors_full_scale_ft(distance_nm, self.half_width_ft, self.garp_ft)
        return procedure_full_scale_ft(distance_nm, self.pfaf_nm, self.half_width_ft, self.garp_ft)

    def path_ft(self, distance_nm: float) -> float:
        """LPV, the path."""
        return lpv_full_scale_ft(self.from_origin_nm(distance_nm), self.gpa_deg)

    def localizer_ft(self, distance_nm: float) -> float:
        """ILS, its antenna where the GARP is."""
        return localizer_full_scale_ft(distance_nm, self.garp_ft)

    def glide_slope_ft(self, distance_nm: float) -> float:
        """ILS, of 0.7 degrees."""
        return glide_slope_full_scale_ft(self.from_origin_nm(distance_nm))

    def from_origin_nm(self, distance_nm: float) -> float:
        """From where the path meets the level of the threshold."""
        return origin_distance_nm(distance_nm, self.tch_ft, self.gpa_deg)

    def places_nm(self, far_nm: float) -> "list[float]":
        """Where lines of full scale are drawn through: evenly, and where they bend."""
        before_origin_nm = self.from_origin_nm(0.0)
        bends = [
            self.pfaf_nm, self.pfaf_nm + value("angular_begins_before_pfaf_nm"),
            final_cap_distance_nm(self.half_width_ft, self.garp_ft),
            lpv_cap_distance_nm(self.gpa_deg) - before_origin_nm,
            lpv_floor_distance_nm(self.gpa_deg) - before_origin_nm,
        ]
        return sorted(steps(0.0, far_nm, PARTS) + [nm for nm in bends if 0.0 < nm < far_nm])


def _funnel(
    distance_nm: float, course_ft: float, path_ft: float, scale: str, flown: str, pfaf_nm: float,
    half_width_ft: float, garp_ft: float, tch_ft: float, gpa_deg: float,
) -> Shown:
    scales = Scale(flown, pfaf_nm, half_width_ft, garp_ft, tch_ft, gpa_deg)
    dots, full = SCALES[scale], float(scale)
    lpv, ils = _deflections(dots, scales, distance_nm, course_ft, path_ft)
    across, above = beside(course_ft, "ft", SIDES, "on the course"), beside(path_ft, "ft", LEVELS, "on the glidepath")
    dot_ft = scales.course_ft(distance_nm) / full, scales.path_ft(distance_nm) / full
    finding = (
        f"{quantity(distance_nm, 'NM', 0.1)} out, {across} is {_dots(lpv[0], full)} and {above} is "
        f"{_dots(lpv[1], full)}. One dot is {quantity(dot_ft[0], 'ft')} of the course and {quantity(dot_ft[1], 'ft')} "
        f"of the glidepath. On an ILS the same offsets are {_dots(ils[0], full)} and {_dots(ils[1], full)}."
        f"{_judged(scales, distance_nm, course_ft, path_ft)}"
    )
    brief = f"Course {_dots(lpv[0], full)}, glidepath {_dots(lpv[1], full)} at {quantity(distance_nm, 'NM', 0.1)}"
    rows = [_row(scales, nm, full) for nm in ROWS_NM]
    return Shown(_drawn(scales, distance_nm, course_ft, path_ft, full), finding, HEADERS, rows, brief)


SIDES, LEVELS = ("right of the course", "left of the course"), ("above the glidepath", "below the glidepath")
HEADERS = ("to threshold", "course, one dot", "glidepath, one dot", "ILS, one dot")


def _deflections(
    dots: "object", of: Scale, distance_nm: float, course_ft: float, path_ft: float,
) -> "tuple[tuple[float, float], tuple[float, float]]":
    """Course and path in dots, of LPV and of an ILS."""
    lpv = dots(course_ft, of.course_ft(distance_nm)), dots(path_ft, of.path_ft(distance_nm))  # type: ignore[operator]
    ils = dots(course_ft, of.localizer_ft(distance_nm)), dots(path_ft, of.glide_slope_ft(distance_nm))  # type: ignore[operator]
    return lpv, ils


def _dots(dots: float, full: float) -> str:
    text = quantity(abs(dots), "dot" if number(abs(dots), 0.1) == "1.0" else "dots", 0.1)
    return text if abs(dots) <= full else text + " (off the scale)"


def _judged(scales: Scale, distance_nm: float, course_ft: float, path_ft: float) -> str:
    """What the limit of a stabilized approach says to it."""
    limit = value("gate_deviation_dots")
    course_dots = abs(two_dots(course_ft, scales.course_ft(distance_nm)))
    most = max(course_dots, abs(two_dots(path_ft, scales.path_ft(distance_nm))))
    if most <= limit:
        return ""
    return f" More than {quantity(limit, 'dot')} of a two-dot scale: at a gate that is not stabilized."


def _row(scales: Scale, distance_nm: float, full: float) -> "tuple[str, ...]":
    glide_slope_ft = scales.glide_slope_ft(distance_nm) / full
    ils = f"{number(scales.localizer_ft(distance_nm) / full)} / {quantity(glide_slope_ft, 'ft')}"
    return (
        quantity(distance_nm, "NM", 0.1), quantity(scales.course_ft(distance_nm) / full, "ft"),
        quantity(scales.path_ft(distance_nm) / full, "ft"), ils,
    )


def _drawn(scales: Scale, distance_nm: float, course_ft: float, path_ft: float, full: float) -> Sheet:
    sheet = Sheet(HEIGHT)
    far_nm = float(max(1, math.ceil(distance_nm * 1.25)))
    places = scales.places_nm(far_nm)
    course = [(nm, scales.course_ft(nm)) for nm in places], [(nm, scales.localizer_ft(nm)) for nm in places]
    path = [(nm, scales.path_ft(nm)) for nm in places], [(nm, scales.glide_slope_ft(nm)) for nm in places]
    _one(sheet, UPPER, course, (distance_nm, course_ft), full, ("", "right of the course, ft"))
    _one(sheet, LOWER, path, (distance_nm, path_ft), full, ("to the threshold, NM", "above the glidepath, ft"))
    return sheet


def _one(
    sheet: Sheet, box: "tuple[int, int, int, int]",
    scales: "tuple[list[tuple[float, float]], list[tuple[float, float]]]", here: "tuple[float, float]", full: float,
    labels: "tuple[str, str]",
) -> None:
    """One funnel: LPV filled, one dot dotted, the ILS dashed, the aircraft a dart."""
    lpv, ils = scales
    most = ROOM * max(max([ft for _, ft in lpv]), abs(here[1]))
    panel = Panel(sheet, box, (lpv[-1][0], 0.0), (-most, most))
    panel.area(lpv + _below(lpv))
    panel.x_axis(labels[0])
    panel.y_axis(labels[1])
    panel.rule_y(0.0, "ink", "thin")
    for side in (1.0, -1.0):
        panel.line([(nm, side * ft) for nm, ft in lpv], "first")
        panel.line([(nm, side * ft / full) for nm, ft in lpv], "first", "dot thin")
        panel.line([(nm, side * ft) for nm, ft in ils], "second", "dash")
    panel.mark(here[0], here[1], "aircraft", "answer")
    panel.label(quantity(abs(here[1]), "ft"), here[0], here[1], "answer", ("e", "w"), True)
    place = len(lpv) // 2
    panel.label("LPV full scale", lpv[place][0], lpv[place][1], "first", ("ne", "nw"))
    panel.label("ILS", ils[place][0], -ils[place][1], "second", ("se", "sw"))
    panel.label("one dot", lpv[place][0], -lpv[place][1] / full, "first", ("ne", "n"))


def _below(points: "list[tuple[float, float]]") -> "list[tuple[float, float]]":
    """The lower edge of a funnel, from its far end back."""
    return [(nm, -ft) for nm, ft in reversed(points)]


FIGURES = (
    Figure(
        "live-funnel", "course and glidepath scales", _funnel,
        inputs=(
            Number("distance_nm", "Distance to the threshold", "NM", 0, 15, 0.1, 3.0),
            Number("course_ft", "Right of the course (left: minus)", "ft", -6000, 6000, 20, 200),
            Number("path_ft", "Above the glidepath (below: minus)", "ft", -500, 500, 5, -40),
            Choice("scale", "Dots to a side", (("2", "two"), ("5", "five")), "2"),
            Choice("flown", "Flown", (("procedure", "the whole procedure"), ("vectors", "vectors to final")),
                   "procedure"),
            Number("pfaf_nm", "Distance of the FAF", "NM", 3, 12, 0.1, 5.0, "approach.pfaf_distance_nm", APPROACH),
            Number("half_width_ft", "Course half-width at the threshold", "ft", 200, 500, 1, 350,
                   "approach.half_width_ft", APPROACH),
            Number("garp_ft", "Threshold to the GARP", "ft", 4000, 20000, 10, 10000, "approach.garp_distance_ft",
                   APPROACH),
            crossing_height(),
            angle(APPROACH),
        ),
        facts=(
            "angular_start_full_scale_nm", "angular_begins_before_pfaf_nm", "lpv_vertical_share", "lpv_vertical_cap_m",
            "lpv_vertical_floor_m", "gate_deviation_dots", "glide_slope_thickness_deg",
        ),
        remarks="The ILS for comparison: localizer antenna at the GARP, glideslope 0.7\u00b0 to "
        "full scale. The scale of the LPV glidepath is from memory.",
    ),
)

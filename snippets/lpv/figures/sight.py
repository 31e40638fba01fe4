"""What is in sight at the DA: the nose, the visibility and the lights, from the side."""

from lpv.core.text import number, quantity
from lpv.core.units import M_PER_FT
from lpv.decide.visual import (
    Sight,
    eye_height_ft,
    hidden_ahead_ft,
    lights_in_sight,
    reach_ahead_ft,
    slant_range_ft,
    threshold_distance_ft,
)
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import AIRCRAFT, APPROACH, angle
from lpv.forms.fields import Number

HEIGHT = 2350
BOX = (LEFT, TOP, WIDTH - RIGHT, HEIGHT - BOTTOM)
BELOW, ABOVE = 0.75, 1.35  # of the height of the eyes, shown under the ground and in all
PAST_FT = 400.0
VISIBILITIES_FT = (1200.0, 1800.0, 2400.0, 3200.0, 4000.0, 5280.0)


class View:
    """The eyes on the path at a height of the antenna above the threshold, and what limits their sight."""

    def __init__(
        self, height_ft: float, cutoff_deg: float, lights_ft: float, eyes_above_ft: float, tch_ft: float,
        gpa_deg: float,
    ) -> None:
        self.cutoff_deg, self.lights_ft, self.tch_ft, self.gpa_deg = cutoff_deg, lights_ft, tch_ft, gpa_deg
        self.distance_ft = threshold_distance_ft(height_ft, tch_ft, gpa_deg)
        self.eyes_ft, self.eyes_above_ft = eye_height_ft(height_ft, eyes_above_ft), eyes_above_ft
        self.hidden_ft = hidden_ahead_ft(self.eyes_ft, cutoff_deg)

    def sight(self, visibility_ft: float) -> Sight:
        """What is in sight with a visibility."""
        return lights_in_sight(self.distance_ft, self.eyes_ft, self.cutoff_deg, visibility_ft, self.lights_ft)

    def needs(self) -> str:
        """What it takes to see the threshold, in words."""
        if self.hidden_ft > self.distance_ft:
            return "is hidden by it"
        return f"needs {quantity(slant_range_ft(self.distance_ft, self.eyes_ft), 'ft', 10)} of visibility"


def _sight(
    visibility_ft: float, height_ft: float, cutoff_deg: float, lights_ft: float, eyes_above_ft: float, tch_ft: float,
    gpa_deg: float,
) -> Shown:
    view = View(height_ft, cutoff_deg, lights_ft, eyes_above_ft, tch_ft, gpa_deg)
    sight = view.sight(visibility_ft)
    threshold = "the threshold is in sight" if sight.threshold else "the threshold is not in sight"
    lights = f"{quantity(sight.length_ft, 'ft', 10)} of {quantity(lights_ft, 'ft')} of approach lights are in sight"
    if not lights_ft:
        lights = "there are no approach lights"
    finding = (
        f"{quantity(height_ft, 'ft')} above the threshold with {quantity(visibility_ft, 'ft')} "
        f"({quantity(visibility_ft * M_PER_FT, 'm', 10)}) of visibility {lights}, and {threshold}. The nose hides "
        f"{quantity(view.hidden_ft, 'ft', 10)} ahead; the threshold, {quantity(view.distance_ft, 'ft', 10)} ahead, "
        f"{view.needs()}."
    )
    brief = f"{quantity(sight.length_ft, 'ft', 10) if sight.length_ft else 'Nothing'} of the lights; {threshold}"
    rows = [_row(view, each_ft) for each_ft in VISIBILITIES_FT]
    headers = ("visibility", "lights in sight", "threshold")
    return Shown(_drawn(view, sight, visibility_ft), finding, headers, rows, brief)


def _row(view: View, visibility_ft: float) -> "tuple[str, ...]":
    sight = view.sight(visibility_ft)
    return (
        quantity(visibility_ft, "ft"), quantity(sight.length_ft, "ft", 10),
        "in sight" if sight.threshold else "not in sight",
    )


def _drawn(view: View, sight: Sight, visibility_ft: float) -> Sheet:
    """From the side: heights are drawn larger than distances."""
    sheet = Sheet(HEIGHT)
    far_ft, eyes_ft = max(view.distance_ft, view.lights_ft) + 300.0, view.eyes_ft
    panel = Panel(sheet, BOX, (far_ft, -PAST_FT), (-BELOW * eyes_ft, ABOVE * eyes_ft))
    hidden_at, reach_at = view.distance_ft - view.hidden_ft, view.distance_ft - reach_ahead_ft(eyes_ft, visibility_ft)
    if hidden_at > reach_at:
        panel.area([(view.distance_ft, eyes_ft), (hidden_at, 0.0), (reach_at, 0.0)])
    panel.x_axis("before the threshold, ft")
    panel.y_axis("height, ft")
    panel.line([(view.distance_ft, eyes_ft), (0.0, view.tch_ft + view.eyes_above_ft)], "muted", "dash")
    panel.line([(view.distance_ft, eyes_ft), (hidden_at, 0.0)], "second")
    panel.line([(view.distance_ft, eyes_ft), (reach_at, 0.0)], "first")
    panel.line([(far_ft, 0.0), (-PAST_FT, 0.0)], "ink", "thin")
    panel.line([(0.0, 0.0), (-PAST_FT, 0.0)], "ink", "wide")
    panel.line([(view.lights_ft, 0.0), (0.0, 0.0)], "muted", "dot wide")
    if sight.outer_ft is not None and sight.inner_ft is not None:
        panel.line([(sight.outer_ft, 0.0), (sight.inner_ft, 0.0)], "answer", "wide")
        middle_ft = (sight.outer_ft + sight.inner_ft) / 2.0
        words = f"lights in sight: {quantity(sight.length_ft, 'ft', 10)}"
        panel.label(words, middle_ft, 0.0, "answer", ("s", "sw", "se"), True)
    panel.mark(view.distance_ft, eyes_ft, "circle", "ink")
    panel.label(f"eyes, {quantity(eyes_ft, 'ft')}", view.distance_ft, eyes_ft, "ink", ("ne", "n"))
    panel.label("runway", -PAST_FT / 2.0, 0.0, "ink", ("s", "sw", "n"))
    nose_at = _part(view.distance_ft, hidden_at, 0.7)
    panel.label(f"nose, {number(view.cutoff_deg)}\u00b0", nose_at, 0.3 * eyes_ft, "second", ("w", "sw"))
    panel.label("visibility", _part(view.distance_ft, reach_at, 0.6), 0.4 * eyes_ft, "first", ("ne", "n"))
    return sheet


def _part(start: float, end: float, share: float) -> float:
    return start + share * (end - start)


FIGURES = (
    Figure(
        "live-sight", "what is in sight at the DA", _sight,
        inputs=(
            Number("visibility_ft", "Visibility", "ft", 400, 6000, 50, 2400, "approach.visibility_ft"),
            Number("height_ft", "DA above the threshold", "ft", 150, 600, 1, 200, "approach.da_height_ft"),
            Number("cutoff_deg", "Lowest line of sight over the nose", "deg", 5, 30, 1, 15, "aircraft.cutoff_deg"),
            Number("lights_ft", "Length of the approach lights (0: none)", "ft", 0, 3000, 50, 2400,
                   "approach.lights_ft"),
            Number("eyes_above_ft", "Eyes above the antenna", "ft", -20, 20, 1, 0, "aircraft.eyes_above_antenna_ft",
                   AIRCRAFT),
            Number("tch_ft", "Threshold crossing height", "ft", 0, 100, 1, 50, "approach.tch_ft", APPROACH),
            angle(APPROACH),
        ),
        remarks="Flat ground, visibility along the line of sight; heights are drawn larger than distances. The rule"
        " says whether what you see is enough.",
    ),
)

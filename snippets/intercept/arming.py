"""Where an approach is expected to arm: near the course and heading toward it."""

import math
from functools import partial
from typing import Any

from lpv.core.text import nautical_miles, quantity
from lpv.core.units import degrees_360
from lpv.facts import value
from lpv.intercept.course import ready_to_arm
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown

# The final course runs to the right; where, how far right of it, track against it, NM and degrees.
COURSE_DEG, BEGIN_NM, ARROW_NM = 0.0, 15, 1.6
PLACES = (
    ("vector, close", 13.8, 1.7, -30.0),
    ("vector, far", 13.5, 5.0, -30.0),
    ("flying away", 6.0, -1.6, -40.0),
    ("downwind", 8.5, -4.5, 180.0),
    ("outbound", 12.0, -2.6, 150.0),
    ("on the course", 11.0, 0.0, 0.0),
)


def show() -> Shown:
    """The figure: six places, and whether to arm at each."""
    window_nm = value("arming_window_nm")
    rows = [(name, quantity(abs(across_nm), "NM", 0.1), then(across_nm, angle_deg))
            for name, _, across_nm, angle_deg in PLACES]
    return Shown(figure(
        "arming-figure", partial(draw, window_nm),
        finding=f"An approach is expected to arm within about {nautical_miles(window_nm, 1)} of the final course "
        "(shaded), on a track that closes with it and leads inbound; not far out, not flying away, not outbound.",
        headers=["where", "from the course", "then"], rows=rows))


def then(across_nm: float, angle_deg: float) -> str:
    """What to do at a place."""
    ready = ready_to_arm(across_nm, degrees_360(angle_deg), COURSE_DEG, value("arming_window_nm"))
    return "arm" if ready else "not yet"


def draw(window_nm: float, axes: Any) -> None:
    """Each place as an arrow along its track."""
    axes.axhspan(-window_nm, window_nm, color=COLOURS["shade"], linewidth=0)
    axes.plot([BEGIN_NM, 0], [0, 0], color=COLOURS["ink"], linewidth=1.0)
    axes.plot(0, 0, "s", color=COLOURS["ink"])
    note = {"textcoords": "offset points"}
    axes.annotate(f"within {nautical_miles(window_nm, 1)}", (0, window_nm), xytext=(0, 2), ha="right", fontsize=8,
                  **note)
    for name, along_nm, across_nm, angle_deg in PLACES:
        angle, word = math.radians(angle_deg), then(across_nm, angle_deg)
        head = along_nm - ARROW_NM * math.cos(angle), across_nm + ARROW_NM * math.sin(angle)
        colour = COLOURS["answer" if word == "arm" else "muted"]
        axes.annotate("", head, (along_nm, across_nm), arrowprops={
            "arrowstyle": "-|>", "color": colour, "linewidth": 2.0 if word == "arm" else 1.2})
        axes.annotate(f"{name}: {word}", (along_nm, across_nm), xytext=(3, -5), va="top", fontsize=8,
                      color=colour, **note)
    axes.set_yticks([-4, 0, 4], ["4 L", "0", "4 R"])
    axes.set(xlabel="to the threshold, NM", ylabel="from the course, NM", xlim=(BEGIN_NM, -0.5), ylim=(6.8, -5.4))

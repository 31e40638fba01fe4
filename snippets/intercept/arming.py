"""Where an approach is expected to arm: near the course and heading toward it."""

import math
from functools import partial
from typing import Any

from lpv.core.text import nautical_miles, quantity
from lpv.facts import value
from lpv.intercept.course import ready_to_arm
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown

# The final course runs to the right; where, how far right of it, track against it, NM and degrees.
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
    words = ["arm" if ready_to_arm(across_nm, angle_deg % 360.0, 0.0, window_nm) else "not yet"
             for _, _, across_nm, angle_deg in PLACES]
    rows = [(name, quantity(abs(across_nm), "NM", 0.1), word)
            for (name, _, across_nm, _), word in zip(PLACES, words, strict=True)]
    return Shown(figure(
        "arming-figure", partial(draw, window_nm, words),
        finding=f"An approach is expected to arm within about {nautical_miles(window_nm, 1)} of the final course "
        "(shaded), on a track that closes with it and leads inbound; not far out, not flying away, not outbound.",
        headers=["where", "from the course", "then"], rows=rows))


def draw(window_nm: float, words: list[str], axes: Any) -> None:
    """Each place as an arrow along its track."""
    axes.axhspan(-window_nm, window_nm, color=COLOURS["shade"], linewidth=0)
    axes.plot([15, 0], [0, 0], color=COLOURS["ink"], linewidth=1.0)
    axes.plot(0, 0, "s", color=COLOURS["ink"])
    axes.text(-0.3, window_nm - 0.15, f"within {nautical_miles(window_nm, 1)}", va="bottom", ha="right", fontsize=8)
    for (name, along_nm, across_nm, angle_deg), word in zip(PLACES, words, strict=True):
        angle = math.radians(angle_deg)
        head = along_nm - 1.6 * math.cos(angle), across_nm + 1.6 * math.sin(angle)
        colour = COLOURS["answer" if word == "arm" else "muted"]
        style = {"arrowstyle": "-|>", "color": colour, "linewidth": 2.0 if word == "arm" else 1.2}
        axes.annotate("", head, (along_nm, across_nm), arrowprops=style)
        axes.text(along_nm - 0.2, across_nm + 0.4, f"{name}: {word}", va="top", fontsize=8, color=colour)
    axes.set_yticks([-4, 0, 4], ["4 L", "0", "4 R"])
    axes.set(xlabel="to the threshold, NM", ylabel="from the course, NM", xlim=(15, -0.5), ylim=(6.8, -5.4))

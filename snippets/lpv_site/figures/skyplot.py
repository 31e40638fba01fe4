"""A sky drawn as the crew would look up at it from above the map: north up, the zenith in the middle."""

import math
from collections.abc import Sequence
from typing import Any

from lpv.sbas.masks import Masks, in_view, terrain_elevation_deg, wing_plane_elevation_deg
from lpv.sbas.sky import Sight
from lpv_site.figures.svg import COLOURS

AZIMUTHS = range(0, 361, 4)


def point(azimuth_deg: float, elevation_deg: float) -> tuple[float, float]:
    """Where a direction lies on the plot, in degrees from the zenith, east and north positive."""
    away, turned = 90.0 - elevation_deg, math.radians(azimuth_deg)
    return away * math.sin(turned), away * math.cos(turned)


def lowest_deg(azimuth_deg: float, masks: Masks) -> float:
    """The elevation in degrees above which no mask hides a satellite, at an azimuth; 90 at the most.

    Masks with a wing_deg of 0 only: the plane of the wings is then a line on the plot.
    """
    wing_deg = wing_plane_elevation_deg(azimuth_deg, masks.heading_deg, masks.bank_deg)
    return max(masks.elevation_deg, terrain_elevation_deg(masks.terrain, azimuth_deg), wing_deg)


def draw_sky(axes: Any, data: tuple[Masks, Sequence[Sight]]) -> None:
    """Draws what the masks hide as a shade, the satellites in view as dots and the hidden ones as crosses."""
    masks, sights = data
    _draw_ground(axes, masks)
    _draw_circles(axes, sights)
    for seen in sights:
        kept = in_view(seen, masks)
        mark, role, weight = ("o", "first", "normal") if kept else ("x", "answer", "bold")
        where = point(seen.azimuth_deg, seen.elevation_deg)
        axes.plot(*where, mark, color=COLOURS[role], ms=7, mew=2)
        axes.annotate(
            seen.name, where, xytext=(6, 3), textcoords="offset points", color=COLOURS[role], weight=weight
        )
    axes.set_position((0.02, 0.02, 0.96, 0.96))
    axes.set(xlim=(-106, 106), ylim=(-106, 106), aspect="equal", xticks=[], yticks=[])
    axes.spines[:].set_visible(False)


def _draw_ground(axes: Any, masks: Masks) -> None:
    """What is hidden, the points of the compass, and the heading of a banked aircraft."""
    rim = [point(azimuth, 0.0) for azimuth in AZIMUTHS]
    edge = [point(azimuth, lowest_deg(azimuth, masks)) for azimuth in reversed(AZIMUTHS)]
    axes.fill(*zip(*rim, *edge, strict=True), color=COLOURS["shade"])
    for azimuth, letter in ((0, "N"), (90, "E"), (180, "S"), (270, "W")):
        axes.text(*point(azimuth, -9), letter, ha="center", va="center", weight="bold")
    if masks.bank_deg:
        nose, tail = point(masks.heading_deg, 68), point(masks.heading_deg + 180, 68)
        axes.annotate("", nose, tail, arrowprops={"arrowstyle": "-|>", "color": COLOURS["ink"], "lw": 1.5})


def _draw_circles(axes: Any, sights: Sequence[Sight]) -> None:
    """Circles of elevation, each named where it is farthest from the satellites."""
    taken = [point(seen.azimuth_deg, seen.elevation_deg) for seen in sights]
    for elevation in (0, 30, 60):
        circle = [point(azimuth, elevation) for azimuth in AZIMUTHS]
        axes.plot(*zip(*circle, strict=True), color=COLOURS["muted"], lw=0.6)
        if elevation:
            inside = [point(azimuth, elevation + 7) for azimuth in AZIMUTHS]
            where = max(inside, key=lambda place: min((math.dist(place, other) for other in taken), default=0.0))
            axes.text(*where, f"{elevation}°", color=COLOURS["muted"], fontsize=8, ha="center", va="center")

"""The approach as a map of the handbook: one profile from planning to the ramp, a link at each place where crews ask.

The drawing shows an order, not an approach: nothing in it is to scale.  Its boxes are made for a thumb, its words are
legible where it is as wide as a small phone.
"""

from dataclasses import dataclass

from lpv.drawing.sheet import Sheet
from lpv.drawing.typeset import LARGE
from lpv_site.figures.figure import set_aside
from lpv_site.text.text import verbatim

HEIGHT = 3540
BOX_HEIGHT = 460
PADDING = 70
NAME_DOWN, ABOUT_DOWN = 195, 370  # baselines within a box
GROUND, CRUISE, INTERMEDIATE = 2950, 800, 1290
FAF, TOUCHDOWN = (2120, INTERMEDIATE), (2920, GROUND)
DA = (2720, 2540)
FINAL = (2470, 2010)


@dataclass(frozen=True)
class Place:
    """A place of the flight: what it is called, what crews ask there, the page that answers, its box and its point.

    box: left, top and width
    """

    name: str
    about: str
    page: str
    box: tuple[int, int, int]
    point: tuple[int, int] | None = None


PLACES = (
    Place("Plan", "may I fly it?", "plan/index.md", (20, 3060, 980), (300, GROUND)),
    Place("Verify", "chart = box?", "verify/index.md", (20, 120, 940), (300, CRUISE)),
    Place("Set up", "both sides", "set-up/index.md", (1040, 120, 880), (1480, CRUISE)),
    Place("Intercept", "arm, capture", "intercept/index.md", (1760, 690, 980), (1940, INTERMEDIATE)),
    Place("FAF", "altimeter", "final/altimeter.md", (960, 1380, 820), FAF),
    Place("Final", "dots, rate", "final/index.md", (1340, 1900, 820), FINAL),
    Place("DA", "land or go", "decide/index.md", (1580, 2410, 840), DA),
    Place("Missed", "climb, track", "decide/missed.md", (2280, 20, 980), (3060, 900)),
    Place("Ramp", "leave it clean", "after-landing/index.md", (2140, 3060, 1120), (3100, GROUND)),
    Place("Modes", "at any time", "modes/index.md", (1080, 3060, 980)),
)


def approach_map() -> str:
    """The map as HTML, for the page at the root of the handbook."""
    return (
        f'<figure class="hb-figure hb-map" id="approach-map" data-search-exclude>{set_aside(svg())}'
        "<figcaption>Tap the place you are at. Not to scale.</figcaption></figure>\n"
    )


def svg() -> str:
    """The drawing itself: a group of links, in the order of the flight."""
    sheet = Sheet(HEIGHT)
    _profile(sheet)
    for place in PLACES:
        _link(sheet, place)
    drawn = sheet.svg("The approach, from planning to the ramp: each place leads to its task")
    return drawn.replace('role="img"', 'role="group"', 1)


def _profile(sheet: Sheet) -> None:
    """The ground, the way to the approach, the approach, and the missed approach."""
    sheet.path(f"M20 {GROUND}H3260", "muted", "thin")
    sheet.path(f"M2830 {GROUND}H3260", "ink", "wide")
    sheet.path(f"M300 {GROUND}V1000Q300 {CRUISE} 500 {CRUISE}H1480", "muted", "dash")
    sheet.path(f"M1480 {CRUISE}Q1600 {CRUISE} 1650 1000Q1700 {INTERMEDIATE} 1940 {INTERMEDIATE}H{FAF[0]}", "first")
    sheet.path(f"M{FAF[0]} {FAF[1]}L{TOUCHDOWN[0]} {TOUCHDOWN[1]}", "first", "heavy")
    sheet.path(f"M{DA[0]} {DA[1]}Q2900 2800 2980 2300L3060 900", "second", "dash")
    sheet.path("M3060 900l-90 130h150z", "second", "fill")
    for place in PLACES:
        if place.point and place.name != "Missed":
            sheet.mark(place.point, "diamond" if place.name == "FAF" else "circle", "ink")


def _link(sheet: Sheet, place: Place) -> None:
    left, top, width = place.box
    sheet.add(f'<a class="hb-place" href="{verbatim(place.page)}">')
    sheet.path(f"M{left} {top}h{width}v{BOX_HEIGHT}h-{width}z", "box")
    sheet.word(left + PADDING, top + NAME_DOWN, place.name, "ink", bold=True, size=LARGE)
    sheet.word(left + PADDING, top + ABOUT_DOWN, place.about, "muted")
    sheet.add("</a>")

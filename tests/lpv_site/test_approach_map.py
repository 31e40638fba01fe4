"""The map of the approach: boxes for a thumb, words that keep clear, links to pages that are there."""

import math
import re
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest

from lpv.drawing.check import faults
from lpv.drawing.typeset import LARGE, SIZE, width
from lpv_site.department.data import DOCS
from lpv_site.figures.approach_map import BOX_HEIGHT, HEIGHT, PADDING, PLACES, svg

THUMB = 440  # ten units to a pixel on a small phone
SHEET = 3280
LINK = "{http://www.w3.org/2000/svg}a"


def test_labels_do_not_overlap():
    assert faults(svg()) == []


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_box_fits_label_and_thumb(place):
    left, top, wide = place.box
    assert min(BOX_HEIGHT, wide) >= THUMB
    assert left >= 0
    assert top >= 0
    assert left + wide <= SHEET
    assert top + BOX_HEIGHT <= HEIGHT
    assert max(width(place.name, LARGE, bold=True), width(place.about, SIZE)) + PADDING <= wide


def test_boxes_do_not_overlap():
    boxes = [(left, top, left + wide, top + BOX_HEIGHT) for left, top, wide in (place.box for place in PLACES)]
    covered = [pair for pair in combinations(boxes, 2) if pair[0][0] < pair[1][2] and pair[1][0] < pair[0][2]
               and pair[0][1] < pair[1][3] and pair[1][1] < pair[0][3]]
    assert covered == []


def test_each_place_links_to_page():
    links = [link.get("href") for link in ElementTree.fromstring(svg()).iter(LINK)]
    assert links == [place.page for place in PLACES]
    assert all((DOCS / link).is_file() for link in links)
    names = [place.name for place in PLACES]
    assert names[:9] == ["Plan", "Verify", "Set up", "Intercept", "FAF", "Final", "DA", "Missed", "Ramp"]


def flattened(d):
    """A path of M, L, H, V and Q as points, each curve in sixteen stretches."""
    points = []
    for command, text in re.findall(r"([MLHVQ])([^MLHVQ]*)", d):
        numbers = [float(number) for number in text.split()]
        at = points[-1] if points else (0.0, 0.0)
        if command == "Q":
            (bend_x, bend_y), (x, y) = numbers[:2], numbers[2:]
            for step in range(1, 17):
                s = step / 16.0
                points.append(tuple((1 - s) ** 2 * a + 2 * s * (1 - s) * b + s * s * c
                                    for a, b, c in ((at[0], bend_x, x), (at[1], bend_y, y))))
        else:
            points.append((numbers[0], at[1]) if command == "H" else (at[0], numbers[0]) if command == "V"
                          else tuple(numbers))
    return points


def away(point, start, end):
    """Units from a point to a stretch."""
    along = end[0] - start[0], end[1] - start[1]
    square = along[0] ** 2 + along[1] ** 2 or 1.0
    share = ((point[0] - start[0]) * along[0] + (point[1] - start[1]) * along[1]) / square
    share = max(0.0, min(1.0, share))
    return math.dist(point, (start[0] + share * along[0], start[1] + share * along[1]))


def test_one_way_from_take_off_to_touchdown_through_every_place():
    """The pieces of the way meet end to end, each mark lies on it, and the missed approach leaves it at the DA."""
    classes = {path.get("class"): path.get("d") for path in ElementTree.fromstring(svg()).iter(f"{LINK[:-1]}path")}
    climb, level, final, missed = (flattened(classes[look]) for look in (
        "muted dash", "first", "first heavy", "second dash"))
    assert (climb[-1], level[-1]) == (level[0], final[0])
    ground = flattened(classes["muted thin"])
    assert climb[0][1] == final[-1][1] == ground[0][1] == ground[1][1]
    way = [*pairwise(climb), *pairwise(level), *pairwise(final)]
    marks = [tuple(map(int, re.match(r"M(\d+) (\d+)", path.get("d")).groups()))
             for path in ElementTree.fromstring(svg()).iter(f"{LINK[:-1]}path")
             if re.match(r"M\d+ \d+m", path.get("d"))]
    on_way = [point for point in marks if point[0] < 3000]
    assert len(on_way) == len(PLACES) - 3
    off = [min(away(point, *stretch) for stretch in way) for point in on_way]
    assert sorted(off)[-1] < 75.0, "at the corner that the way to the cruise cuts"
    assert sorted(off)[-2] < 15.0
    assert min(away(missed[0], *stretch) for stretch in pairwise(final)) < 15.0
    assert missed[-1][1] < missed[0][1]
    heights = [y for _, y in (*climb, *level, *final)]
    assert heights.index(min(heights)) < len(climb), "highest in the cruise"
    assert [x for x, _ in final] == sorted(x for x, _ in final)
    assert all(earlier[1] <= later[1] for earlier, later in pairwise(level))

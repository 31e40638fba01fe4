"""The map of the approach: boxes for a thumb, words that keep clear, links to pages that are there."""

from itertools import combinations
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

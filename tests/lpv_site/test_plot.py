"""Plain drawings lie where matplotlib would put the same, follow the theme, and print any text."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv_site.figures.figure import drawing
from lpv_site.figures.plot import SHAPES, Frame, line, mark, said, sheet
from lpv_site.figures.svg import COLOURS

POINTS = [(7.0, 12345.0), (3.25, 4000.0), (0.0, 1500.0)]
LIMITS = (7.0, 0.0), (1000.0, 13000.0)
FRAME = Frame("x", *LIMITS)
WORDS = re.compile(r"<text([^>]*)>([^<]*)</text>")
SVG = "{http://www.w3.org/2000/svg}"


def plain(*inside, beside=()):
    return sheet(FRAME, ("distance, NM", "altitude, ft"), inside, beside)


def by_matplotlib(axes):
    axes.plot(*zip(*POINTS, strict=True), color=COLOURS["first"])
    axes.set(xlabel="distance, NM", ylabel="altitude, ft", xlim=LIMITS[0], ylim=LIMITS[1])


def words(svg):
    """What is written, and where on the sheet: x and y of the anchor."""
    found = {}
    for attributes, word in WORDS.findall(svg):
        place = re.search(r'x="([-\d.]+)" y="([-\d.]+)"', attributes) or re.search(
            r"translate\(([-\d.]+) ([-\d.]+)\)", attributes)
        found[word] = float(place[1]), float(place[2])
    return found


def path(svg):
    """The points of the line in the colour of `first`."""
    drawn = re.search(r'<path d="([^"]*)"[^>]*stroke="var\(--hb-first\)"', svg)[1]
    return [tuple(map(float, pair)) for pair in re.findall(r"([\d.]+) ([\d.]+)", drawn)]


def test_words_and_lines_lie_where_matplotlib_puts_them():
    own, theirs = plain(line(FRAME, POINTS, "first")), drawing("x", by_matplotlib, None, 2.8)
    assert words(own).keys() == words(theirs).keys()
    assert {"0", "7", "2000", "12000", "distance, NM", "altitude, ft"} <= words(own).keys()
    for word, place in words(own).items():
        assert place == pytest.approx(words(theirs)[word], abs=3.0 if word.isdigit() else 8.0), word
    assert len(path(own)) == 3
    for here, there in zip(path(own), path(theirs), strict=True):
        assert here == pytest.approx(there, abs=0.06)


def test_limits_are_the_corners_of_the_axes():
    assert (FRAME.across(7.0), FRAME.across(0.0)) == pytest.approx((43.2, FRAME.right))
    assert (FRAME.down(1000.0), FRAME.down(13000.0)) == pytest.approx((FRAME.bottom, 11.52))


def test_what_lies_outside_is_cut_off_and_words_are_not():
    root = ElementTree.fromstring(plain(mark(FRAME, (9.0, 0.0), "circle", "ink"), beside=[said(FRAME, POINTS[0], "a")]))
    cut = [group for group in root.iter(f"{SVG}g") if group.get("clip-path") == "url(#x-box)"]
    assert len(cut) == 1
    assert cut[0].find(f"{SVG}path") is not None
    assert [text.text for text in root.findall(f"{SVG}text")][-1] == "a"
    assert root.find(f"{SVG}clipPath").get("id") == "x-box"


@given(st.text(st.characters(exclude_categories=("Cc", "Cs", "Cn", "Z")), min_size=1, max_size=20))
def test_any_text_is_written_as_it_is(text):
    root = ElementTree.fromstring(plain(beside=[said(FRAME, POINTS[0], text)]))
    assert [one.text for one in root.findall(f"{SVG}text")][-1] == text


@pytest.mark.parametrize("shape", SHAPES)
def test_marks_have_their_own_shapes_in_the_themes_colours(shape):
    drawn = mark(FRAME, POINTS[1], shape, "answer")
    assert f'd="{SHAPES[shape]}"' in drawn
    assert 'fill="var(--hb-answer)"' in drawn
    assert not re.search(r"#[0-9a-f]{6}|style|NaN|inf", drawn)


def test_lines_of_words_stand_one_below_the_other():
    places = words(said(FRAME, POINTS[1], "GULLY\n2000", hang=1.0))
    assert places["GULLY"][0] == places["2000"][0]
    assert places["2000"][1] - places["GULLY"][1] == pytest.approx(9.6, abs=0.11)


def test_a_drawing_is_small_and_the_same_each_time():
    first, second = (plain(line(FRAME, POINTS, "first"), mark(FRAME, POINTS[0], "bar", "ink")) for _ in range(2))
    assert first == second
    assert len(first) < 4000

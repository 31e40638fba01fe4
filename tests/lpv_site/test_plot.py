"""Plain drawings lie where matplotlib would put the same, follow the theme, and print any text, clear of the others."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generate_approaches import write_approaches
from lpv.approach.record import read
from lpv.decide.final_path import has_glidepath
from lpv_site.briefing.figures import plan, profile
from lpv_site.briefing.scale import narrowing
from lpv_site.figures import ticks
from lpv_site.figures.figure import drawing, drawings_of
from lpv_site.figures.plot import (
    LEFT,
    RIGHT,
    SHAPES,
    WIDTH,
    Frame,
    Words,
    beside_each_other,
    labelled,
    line,
    mark,
    sheet,
)
from lpv_site.figures.svg import COLOURS
from published_approaches import khwd
from support import EXAMPLE, ROOT
from words_apart import covered

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
    places = {}
    for attributes, word in WORDS.findall(svg):
        place = re.search(r'x="([-\d.]+)" y="([-\d.]+)"', attributes) or re.search(
            r"translate\(([-\d.]+) ([-\d.]+)\)", attributes)
        places[word] = float(place[1]), float(place[2])
    return places


def path(svg):
    """The points of the line in the colour of `first`."""
    drawn = re.search(r'<path d="([^"]*)"[^>]*stroke="var\(--hb-first\)"', svg)[1]
    return [tuple(map(float, pair)) for pair in re.findall(r"([\d.]+) ([\d.]+)", drawn)]


def test_text_and_lines_placed_as_by_matplotlib():
    own, theirs = plain(line(FRAME, POINTS, "first")), drawing("x", by_matplotlib, None, 2.8)
    assert words(own).keys() == words(theirs).keys()
    assert {"0", "7", "2000", "12000", "distance, NM", "altitude, ft"} <= words(own).keys()
    for word, place in words(own).items():
        assert place == pytest.approx(words(theirs)[word], abs=3.0 if word.isdigit() else 8.0), word
    assert len(path(own)) == 3
    for here, there in zip(path(own), path(theirs), strict=True):
        assert here == pytest.approx(there, abs=0.06)


def test_limits_are_axis_corners():
    assert (FRAME.across(7.0), FRAME.across(0.0)) == pytest.approx((43.2, FRAME.right))
    assert (FRAME.down(1000.0), FRAME.down(13000.0)) == pytest.approx((FRAME.bottom, 11.52))


def test_outside_lines_clipped_text_kept():
    beside = labelled(FRAME, [Words(POINTS[0], "a")])
    root = ElementTree.fromstring(plain(mark(FRAME, (9.0, 0.0), "circle", "ink"), beside=beside))
    cut = [group for group in root.iter(f"{SVG}g") if group.get("clip-path") == "url(#x-box)"]
    assert len(cut) == 1
    assert cut[0].find(f"{SVG}path") is not None
    assert [text.text for text in root.findall(f"{SVG}text")][-1] == "a"
    assert root.find(f"{SVG}clipPath").get("id") == "x-box"


@given(st.text(st.characters(exclude_categories=("Cc", "Cs", "Cn", "Z")), min_size=1, max_size=20))
def test_text_written_literally(text):
    root = ElementTree.fromstring(plain(beside=labelled(FRAME, [Words(POINTS[0], text)])))
    assert [element.text for element in root.findall(f"{SVG}text")][-1] == text


@pytest.mark.parametrize("shape", SHAPES)
def test_marks_have_own_shapes_and_theme_colours(shape):
    drawn = mark(FRAME, POINTS[1], shape, "answer")
    assert f'd="{SHAPES[shape]}"' in drawn
    assert 'fill="var(--hb-answer)"' in drawn
    assert not re.search(r"#[0-9a-f]{6}|style|NaN|inf", drawn)


def test_text_lines_stacked():
    places = words("".join(labelled(FRAME, [Words(POINTS[1], "GULLY\n2000", sides=("s",))])))
    assert places["GULLY"][0] == places["2000"][0]
    assert places["2000"][1] - places["GULLY"][1] == pytest.approx(9.6, abs=0.11)


def test_drawing_small_and_deterministic():
    first, second = (plain(line(FRAME, POINTS, "first"), mark(FRAME, POINTS[0], "bar", "ink")) for _ in range(2))
    assert first == second
    assert len(first) < 4000


def approaches(folder):
    """The demo's, the example department's, generated ones, and a published one with five step-downs."""
    write_approaches(folder, 20, seed=4)
    places = folder, ROOT / "docs" / "approaches", EXAMPLE / "approaches"
    return [khwd(), *(read(path) for place in places for path in sorted(place.glob("*.toml")))]


def test_briefing_figure_labels_neither_overlap_nor_clip(tmp_path):
    faults, drawn = {}, 0
    for approach in approaches(tmp_path):
        for make in (plan, profile, narrowing):
            if make is not profile or has_glidepath(approach):
                for svg in drawings_of(make(approach)).values():
                    drawn += 1
                    if overlaps := covered(svg):
                        faults[approach.slug, make.__name__] = overlaps
    assert not faults
    assert drawn > 70


def test_fix_beyond_drawing_only_in_table():
    figure = profile(khwd())
    (svg,) = drawings_of(figure).values()
    assert [name for name in ("OKIVY", "WESCH", "SUDGE", "HUZBY") if name not in svg] == ["OKIVY", "WESCH"]
    assert "OKIVY" in figure


def test_overlapping_labels_detected():
    same = [Words(POINTS[1], "GULLY", sides=("s",))]
    assert covered(plain(beside=labelled(FRAME, same + same))) == []
    assert covered(plain(beside=labelled(FRAME, same) + labelled(FRAME, same))) == [("GULLY", "GULLY")]


@pytest.mark.parametrize(("low", "high", "expected"), [
    (-12.5, 6.0, ["\u221210", "\u22125", "0", "5"]),  # not by 2.5: four such words touch
    (0.0, 12.0, ["0", "2", "4", "6", "8", "10", "12"]),
    (-20_000.0, 20_000.0, ["\u221220000", "\u221210000", "0", "10000", "20000"]),
])
def test_labels_below_axis_kept_apart(low, high, expected):
    assert ticks.words(beside_each_other(low, high, WIDTH - LEFT - RIGHT)) == expected

"""Light ticks show what matplotlib's own would: the same places, the same words, the same labels."""

import re

from render.figure import drawing

WORDS = re.compile(r"<text[^>]*>([^<]*)</text>")


def slope(axes):
    axes.plot([0.0, 7.0], [1500.0, 12345.0])
    axes.set(xlabel="distance, NM", ylabel="altitude, ft", xlim=(7, 0))


def words(svg):
    return sorted(WORDS.findall(svg))


def test_the_same_words_in_the_drawing():
    light, own = (drawing("x", slope, None, 2.8, light) for light in (True, False))
    assert words(light) == words(own)
    assert {"distance, NM", "altitude, ft", "0", "7", "12000"} <= set(words(light))


def test_two_drawings_of_the_same_are_equal():
    assert drawing("x", slope, None, 2.8, True) == drawing("x", slope, None, 2.8, True)


def test_ticks_stand_where_matplotlib_puts_them():
    found = {}
    for light in (True, False):
        svg = drawing("x", slope, None, 2.8, light)
        places = re.findall(r"<text[^>]*?translate\(([\d.]+) ([\d.]+)\)[^>]*>(\d+)</text>", svg) or re.findall(
            r'<text[^>]*? x="([\d.]+)" y="([\d.]+)"[^>]*>(\d+)</text>', svg)
        found[light] = {word: (float(x), float(y)) for x, y, word in places}
    assert found[True].keys() == found[False].keys()
    assert len(found[True]) >= 10
    for word, (x, y) in found[True].items():
        assert abs(x - found[False][word][0]) < 0.5
        assert abs(y - found[False][word][1]) < 0.5

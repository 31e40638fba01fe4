"""Whether the words of a plain drawing keep clear of each other, by the widths of a wide font."""

import re

from lpv.drawing.typeset import width

SET = re.compile(
    r'<text x="([-\d.]+)" y="([-\d.]+)" text-anchor="(\w+)" font-size="([\d.]+)"([^>]*)>([^<]*)<')


def boxes(svg):
    """Words and the room that they take in a wide font, but those that stand upright beside the axis."""
    for x, y, anchor, size, more, text in SET.findall(svg):
        if "rotate" not in more:
            wide = width(text, 100, "font-weight" in more) * float(size) / 100
            left = float(x) - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
            yield text, (left, float(y) - 0.74 * float(size), left + wide, float(y) + 0.2 * float(size))


def covered(svg):
    """Which words of a drawing touch others or leave it."""
    right, bottom = map(float, re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg).groups())
    placed = list(boxes(svg))
    return [text for text, box in placed if box[0] < 0 or box[1] < 0 or box[2] > right or box[3] > bottom] + [
        (text, other) for number, (text, box) in enumerate(placed) for other, two in placed[number + 1:]
        if box[0] < two[2] and two[0] < box[2] and box[1] < two[3] and two[1] < box[3]]

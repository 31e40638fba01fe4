"""What a live figure's drawing says: its marks and lines as values, read off the numbers beside its axes."""

import re
from dataclasses import dataclass

NUMBER = r"[-\u2212]?\d+(?:\.\d+)?"


@dataclass
class Seen:
    """One panel: marks (shape, class, x, y) and lines by class, as values."""

    marks: list[tuple[str, str, float, float]]
    lines: dict[str, list[list[tuple[float, float]]]]

    def mark(self, shape: str, role: str) -> tuple[float, float]:
        """The one mark of a shape and role."""
        (position,) = [(x, y) for each, kind, x, y in self.marks if (each, kind) == (shape, role)]
        return position


def _value(text: str) -> float:
    return float(text.replace("\u2212", "-").replace("\u202f", ""))


def _scale(ticks: list[tuple[float, float]]):
    """Value of a place on the sheet, by the two ticks that lie farthest apart."""
    (from_at, from_value), (to_at, to_value) = min(ticks), max(ticks)
    return lambda at: from_value + (at - from_at) * (to_value - from_value) / (to_at - from_at)


def panels(svg: str) -> list[Seen]:
    """The panels of a drawing from top to bottom: each has numbers at its left and, the last at least, below."""
    words = [(float(x), float(y), rest, text) for x, y, rest, text in re.findall(
        r'<text x="(\d+)" y="(\d+)"([^>]*)>([^<]*)</text>', svg)]
    left = [(y - 42.0, _value(text)) for x, y, rest, text in words
            if x == 430.0 and 'anchor="end"' in rest and re.fullmatch(NUMBER, text)]
    frames = sorted({(float(top), float(bottom)) for top, bottom in re.findall(r'd="M480 (\d+)V(\d+)M480 ', svg)})
    return [_panel(svg, words, left, top, bottom) for top, bottom in frames]


def _panel(svg, words, left, top, bottom):
    below = [(x, _value(text)) for x, y, rest, text in words
             if y == bottom + 185.0 and "middle" in rest and re.fullmatch(NUMBER, text)]
    down = _scale([tick for tick in left if top - 1 <= tick[0] <= bottom + 1])
    across = _scale(below) if len(below) > 1 else (lambda at: at)
    marks, lines = [], {}
    for role, d in re.findall(r'<path class="([^"]*)" d="([^"]*)"/>', svg):
        if parsed := re.match(r"M(\d+) (\d+)m-(\d+)(-| 0a)", d):
            x, y = float(parsed[1]), float(parsed[2])
            if top <= y <= bottom:
                marks.append(("square" if parsed[4] == "-" else "circle", role.split()[0], across(x), down(y)))
            continue
        for part in d.strip("z").split("M")[1:]:
            if re.fullmatch(r"[\d ]+", part):
                parsed = [float(number) for number in part.split()]
                points = [(across(x), down(y)) for x, y in zip(parsed[::2], parsed[1::2], strict=True)]
                if all(top <= y <= bottom for y in parsed[1::2]):
                    lines.setdefault(role, []).append(points)
    return Seen(marks, lines)

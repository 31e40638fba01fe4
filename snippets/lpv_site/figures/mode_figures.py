"""What the guidance does, event by event: a figure in which time runs down the page.

At the left what happens, in words; beside it one lane each for the source, the level of service, and the lateral
and vertical state.  A lane is written where it changes and goes on as a box until the next change.  The box tells
the state without colour: closed and filled while captured, dashed while armed, crossed when lost.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lpv.core.spoken import spoken
from lpv.modes.annunciation import Moment, lateral_modes, timeline, vertical_modes
from lpv.modes.machine import run
from lpv.modes.rules import Rules
from lpv.modes.state import FLYING, MONITORING, State, lateral_source, source
from lpv_site.figures.figure import COLOURS, figure

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# A normal approach until it is past the PFAF, for what happens after.
TO_INSIDE_PFAF = (
    "take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
    "path reached from below", "PFAF passed")
# On a phone the words are drawn larger than here (docs/assets/cockpit.css): lines keep room for that.
ROW_IN, HEAD_IN, LINE_IN = 0.37, 0.34, 0.145
LEFT_IN, FIRST_LANE_IN, LANE_IN, BESIDE_IN = -0.55, 0.55, 0.665, 0.015
EVENT_LETTERS = 15
MODES = {"basic mode": "basic", "FMS lateral": "FMS\nlateral", "heading held": "heading", "fixed pitch": "pitch",
         "climb to the altitude set": "climb", "wings level": "wings\nlevel"}
SHORT = {"FMS lateral navigation": "FMS\nlateral", "LNAV/VNAV": "LNAV/\nVNAV"}


@dataclass(frozen=True)
class Look:
    """How a lane is drawn while something holds: line, width, colour, whether filled."""

    line: str = "-"
    width: float = 0.8
    colour: str = "grid"
    filled: bool = False


LOOKS = {
    "captured": Look(width=1.8, colour="first", filled=True),
    "armed": Look(line="--", width=1.4, colour="first"),
    "lost": Look(width=1.4, colour="second"),
    "good": Look(filled=True),
    "other": Look(line=":", width=1.4, colour="second"),
    "plain": Look(),
}


@dataclass(frozen=True)
class Cell:
    """What a lane says, and how it looks."""

    words: str
    look: str = "plain"


Lane = tuple[str, Callable[[State, Rules], Cell]]


def source_on(side: int) -> Callable[[State, Rules], Cell]:
    """The lane of the guidance source of one side."""

    def cell(state: State, rules: Rules) -> Cell:
        name = source(state, side, rules)
        if name in ("SBAS", "ILS") and not lateral_source(state, rules, side):
            return Cell(f"{name}, no\nguidance", "lost")
        if name != "SBAS":
            return Cell(SHORT.get(name, name), "other" if name == "ILS" else "plain")
        return Cell("SBAS", "good")

    return cell


def level(state: State, rules: Rules) -> Cell:
    """The lane of the level of service announced."""
    name = SHORT.get(state.level, state.level)
    if state.missing == "all":
        return Cell(f"{name}\nlost", "lost")
    if state.missing == "vertical":
        return Cell(f"{name}, no\nvertical", "lost")
    return Cell(name, "plain" if name == "none" else "good")


def lateral(state: State, rules: Rules) -> Cell:
    """The lane of lateral guidance: what is armed, captured or lost, else the mode that flies."""
    return _mode(state.lateral, lateral_modes(state, rules))


def vertical(state: State, rules: Rules) -> Cell:
    """The lane of vertical guidance, as `lateral`."""
    return _mode(state.vertical, vertical_modes(state, rules))


def _mode(mode: str, modes: tuple[tuple[str, str], ...]) -> Cell:
    """The cell of an approach mode, the FMS lateral mode named above it where that one flies."""
    flies = modes[0][1]
    if mode == "inactive":
        return Cell(MODES.get(flies, flies), "plain")
    return Cell(f"FMS, {mode}" if flies == "FMS lateral" else mode, mode)


def lanes_for(moments: Sequence[Moment], rules: Rules) -> tuple[Lane, ...]:
    """Four lanes: both sides' sources in place of the level where the sides ever differ."""
    modes: tuple[Lane, ...] = (("lateral", lateral), ("vertical", vertical))
    flying, other = source_on(FLYING), source_on(MONITORING)
    if all(flying(moment.state, rules) == other(moment.state, rules) for moment in moments):
        return (("source", flying), ("level", level), *modes)
    return (("flying side", flying), ("other side", other), *modes)


def timeline_figure(
    name: str, events: Sequence[str], rules: Rules, *, finding: str, set_up: Sequence[str] = (),
    begin: str = "before", answer: str = "",
) -> str:
    """The figure of a sequence of events, as `lpv_site.figures.figure.figure` gives it.

    set_up: events before the first that is drawn, the aircraft parked at first; begin: what the state after them is
    called; answer: the event that the figure is about, marked in it.
    """
    moments = timeline(list(events), rules, run(tuple(set_up), rules))
    lanes = lanes_for(moments, rules)
    names = [begin, *map(spoken, events)]

    def draw(axes: Axes) -> None:
        draw_lanes(axes, moments, names, lanes, rules, spoken(answer))

    return figure(
        name, draw, finding=finding, height_in=0.46 + 0.16 + HEAD_IN + ROW_IN * len(moments) - 0.3,
        headers=["what happens", *[lane for lane, _ in lanes]],
        rows=[
            (names[index], *[cell_of(moment.state, rules).words.replace("\n", " ") for _, cell_of in lanes])
            for index, moment in enumerate(moments)
        ],
    )


def draw_lanes(
    axes: Axes, moments: Sequence[Moment], names: Sequence[str], lanes: Sequence[Lane], rules: Rules, answer: str
) -> None:
    """Everything, in inches from the axes' left edge and down from the top."""
    bottom = HEAD_IN + ROW_IN * len(moments)
    axes.set_axis_off()
    axes.set(xlim=(0, 3.08), ylim=(bottom - 0.3, 0))
    for row, event in enumerate(names):
        _event(axes, row, event, bool(answer) and event == answer)
    for column, (title, cell_of) in enumerate(lanes):
        left = FIRST_LANE_IN + LANE_IN * column
        axes.text(left + LANE_IN / 2, HEAD_IN - 0.05, title.replace(" ", "\n"), ha="center", va="bottom", fontsize=8,
                  linespacing=1.25,
                  color=COLOURS["muted"], clip_on=False)
        cells = [cell_of(moment.state, rules) for moment in moments]
        for first, last in spans(cells):
            _worded_box(axes, left, HEAD_IN + ROW_IN * first, HEAD_IN + ROW_IN * last, cells[first])


def spans(cells: Sequence[Cell]) -> list[tuple[int, int]]:
    """(first, one past the last) of each run of equal cells."""
    starts = [index for index, cell in enumerate(cells) if not index or cell != cells[index - 1]]
    return list(zip(starts, [*starts[1:], len(cells)], strict=True))


def _event(axes: Axes, row: int, words: str, marked: bool) -> None:
    top = HEAD_IN + ROW_IN * row
    colour = COLOURS["answer"] if marked else COLOURS["ink"] if row else COLOURS["muted"]
    axes.plot([LEFT_IN, FIRST_LANE_IN + 4 * LANE_IN], [top, top], color=COLOURS["grid"], linewidth=0.6,
              clip_on=False, zorder=0)
    axes.text(LEFT_IN, top + ROW_IN / 2, textwrap.fill(words, EVENT_LETTERS), va="center", fontsize=8,
              color=colour, weight="bold" if marked else "normal", linespacing=1.3, clip_on=False)


def box(
    axes: Axes, horizontal: tuple[float, float], vertical: tuple[float, float], cell: Cell
) -> str:
    """An empty box from one corner to the other, drawn as its cell looks; returns the colour of its words."""
    look = LOOKS[cell.look]
    (left, right), (top, bottom) = horizontal, vertical
    from matplotlib.patches import Rectangle

    axes.add_patch(Rectangle(
        (left, top), right - left, bottom - top, linestyle=look.line, linewidth=look.width,
        edgecolor=COLOURS[look.colour], facecolor=COLOURS["shade"] if look.filled else "none", clip_on=False,
    ))
    strong = cell.look in ("lost", "captured", "other")
    return COLOURS[look.colour if strong else "muted" if cell.words == "basic" else "ink"]


def _worded_box(axes: Axes, left: float, top: float, bottom: float, cell: Cell) -> None:
    colour = box(axes, (left + BESIDE_IN, left + LANE_IN - BESIDE_IN), (top + 0.025, bottom - 0.025), cell)
    lines = (("✕ " if cell.words == "lost" else "") + cell.words.replace("FMS, ", "FMS,\n")).split("\n")
    for number, line in enumerate(lines):
        middle = top + ROW_IN / 2 + LINE_IN * (number - (len(lines) - 1) / 2)
        axes.text(left + LANE_IN / 2, middle, line, ha="center", va="center", fontsize=8, color=colour, clip_on=False)

"""A flight to play: plan, profile and what is annunciated by time, with the aircraft at a moment of it."""

from lpv.core.text import clock, listed, quantity
from lpv.core.units import FT_PER_NM
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import EDGE, WIDTH, Sheet
from lpv.drawing.ticks import ticks
from lpv.drawing.typeset import width
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import beside, spread
from lpv.figures.replay import Flight, Replay, Sample, read
from lpv.forms.fields import Number

HEIGHT = 3050
PLAN = (LEFT, TOP, WIDTH - RIGHT, 760)
PROFILE = (LEFT, 1000, WIDTH - RIGHT, 1540)
TIMES = (RIGHT, 1930, WIDTH - RIGHT, HEIGHT - BOTTOM)
TEXT_DOWN, BAR_DOWN = 100, 143  # from the top of a row to its words and to its bar
MIN_ACROSS_FT, MIN_ALTITUDE_FT, ROOM = 1000.0, 500.0, 0.12
IN_MILES_FROM_FT = 9000.0  # beside the course: a wider plan counts in miles
MAX_ROWS = 4
BOTH_SIDES = " on both sides"
MINUTES = ((30, 1), (60, 1), (120, 1), (300, 1), (600, 1), (1200, 1), (3600, 1))  # of an axis in seconds
LOOKS = (("lost", "answer", "dot"), ("captured", "first", "wide"), ("armed", "second", "dash"))
FLIGHT = (
    "s|0|8|-600|2000|-520|150;s|60|5.5|-40|2000|40|150;s|90|4.3|0|1650|0|140;s|150|2|0|900|0|135;s|205|0|0|70|0|130;"
    "e|0|The flight begins;e|45|Course reached;e|78|Glidepath met from below;"
    "m|0|source|SBAS on both sides;m|0|lateral|basic mode, armed;m|0|vertical|basic mode, armed;"
    "m|45|lateral|captured;m|78|vertical|captured"
)
_read = []  # type: list[tuple[str, Flight]]


def _flight(time_s: float, flight: str) -> Shown:
    replayed = _kept(flight)
    jumps, time_s = replayed.jumps(time_s), min(time_s, replayed.end_s)
    now, announced = replayed.at(time_s), replayed.announced(time_s)
    last = [words for at_s, words in replayed.events if at_s <= time_s]
    modes = listed([f"{what} {words}" for what, words in announced]) or (
        "nothing annunciated" if replayed.modes else "annunciations were not recorded")
    happened = f" Last: {_small(last[-1]).rstrip('.')}." if last else ""
    finding = (
        f"{clock(time_s)} into the flight, {_distance(now)}, {quantity(now.altitude_ft, 'ft', 10)} on the altimeter"
        f"{_above(now)}, {beside(now.across_ft, 'ft', SIDES, 'on the course', 10)}: {modes}.{happened}"
    )
    shown = [f"{what} {words}" for what, words in announced if what in ("lateral", "vertical")]
    brief = f"{clock(time_s)}: {listed(shown) or _distance(now)}"
    rows = [(clock(at_s), words, _place(replayed.at(at_s))) for at_s, words in replayed.events]  # type: list[tuple[str, ...]]
    return Shown(_drawn(replayed, time_s, now), finding, ("time", "what", "where"), rows, brief, jumps)


SIDES = ("right of the course", "left of the course")


def _kept(text: str) -> Flight:
    """The flight in a text, read once as long as it is the same."""
    if not _read or _read[0][0] != text:
        _read.clear()
        _read.append((text, read(text)))
    return _read[0][1]


def _small(words: str) -> str:
    return words if words[1:2].isupper() else words[:1].lower() + words[1:]


def _distance(current: Sample) -> str:
    side = "before" if current.along_nm >= 0.0 else "past"
    return f"{quantity(abs(current.along_nm), 'NM', 0.1)} {side} the threshold"


def _place(sample: Sample) -> str:
    return f"{quantity(sample.along_nm, 'NM', 0.1)}, {quantity(sample.altitude_ft, 'ft', 10)}"


def _above(sample: Sample) -> str:
    if sample.above_ft is None:
        return ""
    return ", " + beside(sample.above_ft, "ft", ("above the glidepath", "below the glidepath"), "on the glidepath", 10)


def _drawn(flight: Flight, time_s: float, current: Sample) -> Sheet:
    sheet = Sheet(HEIGHT)
    distances_nm = [sample.along_nm for sample in flight.samples]
    far_nm, near_nm = max(distances_nm), min(min(distances_nm), 0.0)
    room_nm = 0.03 * (far_nm - near_nm) + 0.05
    distances = far_nm + room_nm, near_nm - room_nm
    gone = [sample for sample in flight.samples if sample.time_s < time_s] + [current]
    wide = max([abs(sample.across_ft) for sample in flight.samples]) > IN_MILES_FROM_FT
    unit_ft, unit = (FT_PER_NM, "NM") if wide else (1.0, "ft")
    across = _span([-sample.across_ft / unit_ft for sample in flight.samples], MIN_ACROSS_FT / unit_ft)
    _plan(Panel(sheet, PLAN, distances, across), flight, gone, (unit_ft, unit))
    altitudes = _span([sample.altitude_ft for sample in flight.samples], MIN_ALTITUDE_FT)
    _profile(Panel(sheet, PROFILE, distances, altitudes), flight, gone)
    _times(Panel(sheet, TIMES, (0.0, max(1.0, flight.end_s)), (0.0, 1.0)), flight, time_s)
    return sheet


def _span(values: "list[float]", least: float) -> "tuple[float, float]":
    low, high = spread(values, least, ROOM)
    return min(low, 0.0), max(high, 0.0)


def _path_ft(sample: Sample) -> float:
    """Where the path is, by the altimeter; where the aircraft is if that is not known."""
    return sample.altitude_ft - (sample.above_ft or 0.0)


def _plan(panel: Panel, flight: Flight, gone: "list[Sample]", unit: "tuple[float, str]") -> None:
    """Seen from above, left of the course up; what is still to be flown thin.  unit: its size in feet, and its name"""
    unit_ft, name = unit
    panel.x_axis("")
    panel.y_axis(f"left of the course, {name}")
    panel.rule_y(0.0, "ink", "thin")
    panel.line([(sample.along_nm, -sample.across_ft / unit_ft) for sample in flight.samples], "muted", "dot thin")
    panel.line([(sample.along_nm, -sample.across_ft / unit_ft) for sample in gone], "first")
    panel.mark(gone[-1].along_nm, -gone[-1].across_ft / unit_ft, "circle", "answer")


def _profile(panel: Panel, flight: Flight, gone: "list[Sample]") -> None:
    """Seen from the side, as the altimeter has it."""
    current = gone[-1]
    panel.axes("to the threshold, NM", "altimeter, ft")
    on_final = [sample for sample in flight.samples if sample.above_ft is not None and sample.along_nm >= 0.0]
    path = [(sample.along_nm, _path_ft(sample)) for sample in on_final]
    panel.line(path, "second", "dash")
    panel.line([(sample.along_nm, sample.altitude_ft) for sample in flight.samples], "muted", "dot thin")
    panel.line([(sample.along_nm, sample.altitude_ft) for sample in gone], "first")
    panel.mark(current.along_nm, current.altitude_ft, "circle", "answer")
    words = quantity(current.altitude_ft, "ft", 10)
    panel.label(words, current.along_nm, current.altitude_ft, "answer", ("ne", "n", "nw"), True)
    within = [(nm, ft) for nm, ft in path if panel.holds(nm, ft)]
    if within:
        panel.label("glidepath", within[0][0], within[0][1], "second", ("sw", "w", "se"))


def _times(panel: Panel, flight: Flight, time_s: float) -> None:
    """What is annunciated by time, a row each: captured wide, armed dashed, lost dotted, anything else thin."""
    sheet, (left, top, right, bottom) = panel.sheet, panel.box
    rows, now, end_s = flight.rows()[:MAX_ROWS], dict(flight.announced(time_s)), max(1.0, flight.end_s)
    row_height, now_x = (bottom - top) // MAX_ROWS, panel.across(time_s)
    for place in range(len(rows)):
        name, y = rows[place], top + row_height * place
        for start_s, stop_s, words in flight.stretches(name):
            x, to_x = panel.across(max(0.0, start_s)), panel.across(min(end_s, stop_s))
            if words and to_x > x:
                role, look = _look(words)
                sheet.path(f"M{x} {y + BAR_DOWN}H{to_x}", role, look)
        sheet.path(f"M{now_x} {y + BAR_DOWN - 30}v60", "answer", "wide")
        sheet.word(EDGE, y + TEXT_DOWN, _row(name, now.get(name, "")), _look(now.get(name, ""))[0])
    strokes = "".join([f"M{panel.across(at_s)} {bottom}v-50" for at_s, _ in flight.events if 0.0 <= at_s <= end_s])
    sheet.path(f"M{left} {bottom}H{right}{strokes}", "muted", "thin")
    marks = ticks(0.0, end_s, 5, MINUTES)
    panel.numbers([panel.across(at_s) for at_s, _ in marks], [clock(at_s) for at_s, _ in marks])
    sheet.word((left + right) // 2, bottom + 340, "minutes and seconds flown", "ink", "middle")


def _row(what: str, words: str) -> str:
    """What stands in a row: the words themselves where the sheet has room for them."""
    text = f"{what}: {words.replace(BOTH_SIDES, '') or 'not shown'}"
    return text if width(text) <= WIDTH - 2 * EDGE else f"{what}: see the words below"


def _look(words: str) -> "tuple[str, str]":
    for part, role, look in LOOKS:
        if part in words:
            return role, look
    return "ink", "thin"


FIGURES = (
    Figure(
        "live-flight", "a flight to play", _flight,
        inputs=(
            Number("time_s", "Time", "s", 0, 7200, 1, 80),
            Replay("flight", "Flight", FLIGHT),
        ),
        remarks="The scale across the course is larger than along it. Strokes under the rows are events.",
        plays="time_s",
    ),
)

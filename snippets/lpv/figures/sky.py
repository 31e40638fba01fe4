"""The sky over an approach: what a bank, a ridge and lost satellites cost, and HPL and VPL over the day."""

import math

from lpv.core.text import course, listed, number, percent, quantity
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import APPROACH
from lpv.forms.fields import Choice, Course, Number
from lpv.sbas.day import MOMENTS, STEP_S, Day, Moment, Seen, hider, names
from lpv.sbas.level import LEVELS, Limits, availability, level_of_service, supports
from lpv.sbas.masks import Masks, ridge, terrain_elevation_deg, wing_plane_elevation_deg

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable

HEIGHT = 3050
CENTRE, RADIUS = (880, 910), 720  # of the sky: its zenith, and the horizon around it
SKY = (10, 20, 1750, 1800)  # where its labels may stand
WORDS_X, FIRST_ROW, ROW = 1830, 300, 175
BOX = (LEFT, 2010, WIDTH - RIGHT, HEIGHT - BOTTOM)
AZIMUTHS_DEG = [float(azimuth) for azimuth in range(0, 361, 8)]
CIRCLES_DEG = (0, 30, 60)
SIDE_DEG = 10.0  # over which a ridge falls to the horizon at its ends
RIDGE = "The ridge"
MIN_TOP_M, HEADROOM = 60.0, 1.35  # of the axis of the levels
ASIDE = 24  # moments from the one shown to where HPL is named
DRAWN_TOGETHER = 2  # of the moments: a quarter of an hour
HOUR_STEPS = ((3, 1), (6, 1))
WHY = {"": "received", "lost": "lost", "bank": "hidden by the bank", "terrain": "hidden by the ridge"}
NONE = "none"
_days = {}  # type: dict[tuple[float, float], Day]


class Case:
    """What is set: masks, satellites lost, alert limits, and the moment that is shown."""

    def __init__(self, masks: Masks, ridge_deg: float, lost: "tuple[str, ...]", limits: Limits, place: int) -> None:
        self.masks, self.ridge_deg, self.lost, self.limits, self.place = masks, ridge_deg, lost, limits, place

    def conditions(self) -> str:
        """What is set against the satellites, in words."""
        phrases = []
        if self.masks.bank_deg:
            side = "right" if self.masks.bank_deg > 0.0 else "left"
            phrases.append(f"{quantity(abs(self.masks.bank_deg), 'deg')} of bank to the {side}")
        if self.ridge_deg:
            phrases.append(f"a ridge of {quantity(self.ridge_deg, 'deg')}")
        if self.lost:
            phrases.append(f"{listed(list(self.lost))} lost")
        return "With " + listed(phrases) if phrases else "Wings level under an open sky"


def _sky(
    bank_deg: float, heading_deg: float, hour: float, lost: str, lost_too: str, ridge_deg: float, ridge_at_deg: float,
    ridge_width_deg: float, hal_m: float, val_m: float, latitude_deg: float, longitude_deg: float,
) -> Shown:
    terrain = ridge(ridge_at_deg, ridge_width_deg, ridge_deg, SIDE_DEG) if ridge_deg else ()
    out = tuple([name for name in (lost, lost_too) if name != NONE])
    place = int(hour * 3600.0 / STEP_S + 0.5) % MOMENTS
    masks = Masks(terrain=terrain, heading_deg=heading_deg, bank_deg=bank_deg)
    case = Case(masks, ridge_deg, out[:1] if out[:1] == out[1:] else out, Limits(hal_m, val_m), place)
    day = _day(latitude_deg, longitude_deg)
    moments, above, hidden = day.moments(masks, out), day.satellites(place), hider(masks, out)
    now = moments[place]
    level = level_of_service(now, case.limits, LEVELS)
    best = "LPV" if val_m else "LP"
    share = availability(moments, case.limits, best)
    finding = (
        f"{case.conditions()}, {now.satellites} of {len(above)} satellites are received at {quantity(hour, 'h', 0.25)} "
        f"of the ideal day: {_levels(now, case.limits)}. {_verdict(level)} Kept up all day, {best} would be there "
        f"{percent(share)} of the time."
    )
    rows = []  # type: list[tuple[str, ...]]
    for body in above:
        rows.append((body.name, course(body.azimuth_deg), quantity(body.elevation_deg, "deg"), WHY[hidden(body)]))
    brief = f"{now.satellites} of {len(above)} satellites: {'no level' if level == NONE else level}"
    return Shown(_drawn(case, moments, above, hidden, level), finding, HEADERS, rows, brief)


HEADERS = ("satellite", "azimuth", "elevation", "signal")


def _day(latitude_deg: float, longitude_deg: float) -> Day:
    """The day at a place; the last place is kept, since most dials leave it as it is."""
    if (latitude_deg, longitude_deg) not in _days:
        _days.clear()
        _days[(latitude_deg, longitude_deg)] = Day(latitude_deg, longitude_deg)
    return _days[(latitude_deg, longitude_deg)]


def _levels(now: Moment, limits: Limits) -> str:
    if now.vpl_m is None or now.hpl_pa_m is None:
        return "they fix no position"
    vertical = "no VAL is set" if not limits.val_m else _against(now.vpl_m, "VAL", limits.val_m)
    return f"VPL {quantity(now.vpl_m, 'm')}, {vertical}; HPL {quantity(now.hpl_pa_m, 'm')}, " \
           f"{_against(now.hpl_pa_m, 'HAL', limits.hal_m)}"


def _against(level_m: float, name: str, limit_m: float) -> str:
    return f"{'within' if level_m <= limit_m else 'over'} the {name} of {quantity(limit_m, 'm')}"


def _verdict(level: str) -> str:
    return "No level is supported." if level == NONE else f"The signal supports {level}."


def _drawn(
    case: Case, moments: "list[Moment]", above: "list[Seen]", hidden: "Callable[[Seen], str]", level: str,
) -> Sheet:
    sheet = Sheet(HEIGHT)
    _ground(sheet, case.masks)
    for body in above:
        point = _point(body.azimuth_deg, body.elevation_deg)
        why = hidden(body)
        sheet.mark(point, "cross" if why else "circle", "answer" if why else "first")
        sheet.label(body.name, point, "answer" if why else "first", ("ne", "nw", "e", "w"), bool(why), SKY)
    for elevation in CIRCLES_DEG:
        if elevation:
            sheet.label(f"{elevation}\u00b0", _point(45.0, float(elevation)), "muted", ("n", "s"), within=SKY)
    _summary(sheet, case, moments[case.place], len(above), level)
    _over_the_day(sheet, case, moments)
    return sheet


def _point(azimuth_deg: float, elevation_deg: float) -> "tuple[int, int]":
    """Where a direction lies on the plot of the sky: north up, the zenith in the middle."""
    away, turned = (90.0 - elevation_deg) / 90.0 * RADIUS, math.radians(azimuth_deg)
    return int(CENTRE[0] + away * math.sin(turned) + 0.5), int(CENTRE[1] - away * math.cos(turned) + 0.5)


def _ground(sheet: Sheet, masks: Masks) -> None:
    """The part of the sky that is hidden, circles of elevation, the points of the compass, and the heading."""
    azimuths_deg = sorted(AZIMUTHS_DEG + [azimuth for azimuth, _ in masks.terrain])
    edge = [_point(azimuth, _lowest_deg(masks, azimuth)) for azimuth in azimuths_deg]
    edge.reverse()
    rim = [_point(azimuth, 0.0) for azimuth in azimuths_deg]
    sheet.path("M" + " ".join([f"{x} {y}" for x, y in rim + edge]) + "z", "shade", "fill")
    x, y = CENTRE
    for elevation in CIRCLES_DEG:
        r = int((90 - elevation) / 90.0 * RADIUS)
        sheet.path(f"M{x - r} {y}a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0-{2 * r} 0", "muted", "thin")
    out = RADIUS + 75
    for letter, dx, dy in (("N", 0, -out), ("E", out, 0), ("S", 0, out), ("W", -out, 0)):
        sheet.word(x + dx, y + dy + 42, letter, "ink", "middle", True)
    if masks.bank_deg:
        nose, tail = _point(masks.heading_deg, 66.0), _point(masks.heading_deg + 180.0, 66.0)
        left, right = _point(masks.heading_deg - 12.0, 74.0), _point(masks.heading_deg + 12.0, 74.0)
        sheet.path("M{} {}L{} {}M{} {}L{} {}L{} {}".format(*tail, *nose, *left, *nose, *right), "ink", "thin")


def _lowest_deg(masks: Masks, azimuth_deg: float) -> float:
    """The elevation under which something is hidden."""
    wing_deg = wing_plane_elevation_deg(azimuth_deg, masks.heading_deg, masks.bank_deg) if masks.bank_deg else 0.0
    return max(masks.elevation_deg, wing_deg, terrain_elevation_deg(masks.terrain, azimuth_deg))


def _summary(sheet: Sheet, case: Case, now: Moment, above: int, level: str) -> None:
    """What holds at the moment that is shown, and what the marks mean."""
    vpl = "none" if now.vpl_m is None else number(now.vpl_m)
    hpl = "none" if now.hpl_pa_m is None else number(now.hpl_pa_m)
    fits = supports(now, case.limits, "LPV")
    rows = (
        (f"at {quantity(case.place * STEP_S / 3600.0, 'h', 0.25)}", "ink", False),
        (f"received: {now.satellites} of {above}", "first", False),
        (f"VPL {vpl}, VAL {number(case.limits.val_m)}", "third", False),
        (f"HPL {hpl}, HAL {number(case.limits.hal_m)}", "second", False),
        ("no level" if level == NONE else level, "ink" if fits else "answer", True),
    )
    for place in range(len(rows)):
        text, role, bold = rows[place]
        sheet.word(WORDS_X, FIRST_ROW + ROW * place, text, role, bold=bold)
    y = FIRST_ROW + ROW * (len(rows) + 1)
    for shape, role, words in (("circle", "first", "received"), ("cross", "answer", "not received")):
        sheet.mark((WORDS_X + 60, y - 42), shape, role)
        sheet.word(WORDS_X + 180, y, words, role)
        y += ROW
    sheet.path(f"M{WORDS_X} {y - 95}h130v105h-130z", "shade", "fill")
    sheet.word(WORDS_X + 180, y, "hidden sky", "muted")


def _over_the_day(sheet: Sheet, case: Case, moments: "list[Moment]") -> None:
    """HPL and VPL beside their limits; shaded where they allow no LPV."""
    limits, best = case.limits, "LPV" if case.limits.val_m else "LP"
    top_m = HEADROOM * max(MIN_TOP_M / HEADROOM, limits.hal_m, limits.val_m)
    panel = Panel(sheet, BOX, (0.0, 24.0), (0.0, top_m))
    hour = STEP_S / 3600.0
    for first, last in _gaps([supports(moment, limits, best) for moment in moments]):
        start, end = first * hour, (last + 1) * hour
        panel.area([(start, 0.0), (end, 0.0), (end, top_m), (start, top_m)])
    panel.axes("hour of the ideal day", "HPL and VPL, m", HOUR_STEPS)
    panel.rule_x(case.place * hour, "ink", "thin")
    for name, role, limit_m, look in (("HAL", "second", limits.hal_m, "dash"), ("VAL", "third", limits.val_m, "dash")):
        if limit_m:
            panel.rule_y(limit_m, role, look)
            panel.label(name, 24.0, limit_m, role, ("nw", "sw"), True)
    _curve(panel, [moment.hpl_pa_m for moment in moments], "second")
    _curve(panel, [moment.vpl_m for moment in moments], "third")
    current = moments[case.place]
    if current.vpl_m is not None:
        panel.label("VPL", case.place * hour, current.vpl_m, "third", ("ne", "nw"))
    aside = case.place + (ASIDE if case.place < MOMENTS // 2 else -ASIDE)
    there_m = moments[aside].hpl_pa_m
    if there_m is not None:
        panel.label("HPL", aside * hour, there_m, "second", ("se", "sw", "ne", "nw"))


def _curve(panel: Panel, levels_m: "list[float | None]", role: str) -> None:
    """A line through the highest levels of each quarter of an hour, broken where there is no position."""
    part = []  # type: list[tuple[float, float]]
    for place in range(0, MOMENTS, DRAWN_TOGETHER):
        few = [level_m for level_m in levels_m[place:place + DRAWN_TOGETHER] if level_m is not None]
        if len(few) == DRAWN_TOGETHER:
            part.append(((place + DRAWN_TOGETHER // 2) * STEP_S / 3600.0, max(few)))
        elif part:
            panel.line(part, role)
            part = []
    panel.line(part, role)


def _gaps(fits: "list[bool]") -> "list[tuple[int, int]]":
    """First and last place of each run of moments that do not fit."""
    gaps = []  # type: list[tuple[int, int]]
    for place in range(len(fits)):
        if not fits[place]:
            if gaps and gaps[-1][1] == place - 1:
                gaps[-1] = gaps[-1][0], place
            else:
                gaps.append((place, place))
    return gaps


SATELLITES = ((NONE, NONE),)  # type: tuple[tuple[str, str], ...]
for _name in names():
    SATELLITES += ((_name, _name),)

FIGURES = (
    Figure(
        "live-sky", "satellites hidden, and the levels over a day", _sky,
        inputs=(
            Number("bank_deg", "Bank to the right (left: minus)", "deg", -45, 45, 5, 25),
            Course("heading_deg", "True heading", 5, 90, "approach.true_course_deg"),
            Number("hour", "Hour of the ideal day", "h", 0, 23.75, 0.25, 5),
            Choice("lost", "Satellite lost", SATELLITES, NONE),
            Choice("lost_too", "Another one lost", SATELLITES, NONE),
            Number("ridge_deg", "Height of the ridge (0: none)", "deg", 0, 40, 1, 0, "", RIDGE),
            Course("ridge_at_deg", "Middle of the ridge, true", 5, 180, "", RIDGE),
            Number("ridge_width_deg", "Width of its crest", "deg", 0, 180, 10, 140, "", RIDGE),
            Number("hal_m", "HAL", "m", 10, 60, 1, 40, "approach.hal_m", APPROACH),
            Number("val_m", "VAL (0: no vertical guidance)", "m", 0, 60, 1, 35, "approach.val_m", APPROACH),
            Number("latitude_deg", "Latitude (south: minus)", "deg", -90, 90, 1, 34, "approach.latitude_deg", APPROACH),
            Number("longitude_deg", "Longitude (west: minus)", "deg", -180, 180, 1, -148, "approach.longitude_deg",
                   APPROACH),
        ),
        facts=("mask_elevation_deg", "default_udre_index", "default_give_index", "k_vertical_pa", "k_horizontal_pa"),
        remarks="An ideal constellation: it explains the service and does not predict it, for any day or hour. The "
        "antenna is assumed to see down to the plane of the wings, and the satellite that sends the messages to be "
        "always received. The day is worked out every "
        f"{number(STEP_S / 60.0, 0.1)} minutes.",
    ),
)

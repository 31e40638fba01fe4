"""The set-up check: its items, each a small function that gives findings, and `check` that runs them in order.

What is set stands in the finding's words, what it should be under chart or computed.  An item that nobody has read
from the cockpit is "not compared": a part of a set-up can be checked, and never comes out as ok.
"""

from lpv.air.atmosphere import hpa_from_inches, pressure_altitude_at_ft
from lpv.core import airac
from lpv.core.consequence import grade_of
from lpv.core.course import course_difference_deg
from lpv.core.findings import Finding, not_compared
from lpv.core.text import course_digits, feet, pressure, quantity
from lpv.decide.currency import currency
from lpv.decide.lines import WITHOUT_PATH
from lpv.facts import value
from lpv.intercept.course import ready_to_arm
from lpv.modes.rules import Rules
from lpv.modes.selection import can_show
from lpv.setup.expected import Expected
from lpv.setup.minimum import ft, kind_of_minimum, minimum, missed_altitude
from lpv.setup.records import Setup, Side
from lpv.setup.sources import guidance_source, kept_selected, localizer
from lpv.setup.statements import agrees, differs, not_stated

# How far an altimeter setting may be off: half of the last digit that is set.
ALTIMETER_STEP = {"inHg": 0.01, "hPa": 1.0}


def cycle(setup: Setup, expected: Expected) -> "list[Finding]":
    """The data cycle in the aircraft is in force, and so is the chart's: then they are the same."""
    charted = expected.approach.identity.cycle
    ended = setup.day is not None and currency(charted, setup.day).grade != "ok"
    chart = [_not_in_force(charted, setup.day)] if setup.day is not None and ended else []
    if setup.cycle is None or setup.day is None:
        return chart + [not_stated("set-cycle", "data cycle and day of the flight", "", charted)]  # noqa: RUF005
    what = f"data cycle {setup.cycle} in the aircraft, {airac.iso(setup.day)}"
    in_force = currency(setup.cycle, setup.day)
    if in_force.grade != "ok":
        return chart + [Finding(  # noqa: RUF005
            "set-cycle", in_force.grade, what, chart=charted, computed="in force: " + in_force.in_force,
            why="Final approach data changes; old data may lead elsewhere.",
            action="Do not fly it from this database.",
        )]
    return chart or [agrees("set-cycle", what, charted)]


def _not_in_force(charted: str, day: int) -> Finding:
    """The data that everything is compared with are not of the day: its briefing says not to use them."""
    return Finding(
        "set-cycle", "stop", f"the chart's data, on {airac.iso(day)}", chart=charted,
        computed="in force: " + currency(charted, day).in_force,
        why="Everything below is compared with data that are not in force.",
        action="Do not use them; take the chart in force, and compare again.",
    )


def procedure(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The loaded procedure is the chart's: title, channel, path identifier."""
    identity = expected.approach.identity
    rows = (
        ("set-procedure", "procedure", side.title, identity.title),
        ("set-channel", "channel", None if side.channel is None else str(side.channel), str(identity.channel)),
        ("set-path-id", "path identifier", side.path_id, identity.path_id),
    )
    return [_identifier(key, what, shown, charted, side.name) for key, what, shown, charted in rows]


def _identifier(key: str, what: str, shown: "str | None", charted: str, about: str) -> Finding:
    if shown is None:
        return not_stated(key, what, about, charted)
    if _plain(shown) == _plain(charted):
        return agrees(key, f"{what} {shown}", charted, about)
    return differs(key, "stop", f"{what} {shown}", charted,
                   "Another procedure to this runway, or another runway, looks the same until the end.",
                   "Load the procedure of the chart.", about)


def _plain(shown: str) -> str:
    """An identifier as any side may write it: in capitals, one space between words."""
    return " ".join(shown.upper().split())


def course(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The course that is set is the chart's."""
    chart = course_digits(expected.course_deg)
    if side.course_deg is None:
        return [not_stated("set-course", "course", side.name, chart)]
    off_deg = abs(course_difference_deg(expected.course_deg, side.course_deg))
    what, old = "course " + course_digits(side.course_deg), setup.previous_course_deg
    if off_deg <= value("limit_course_resolve_deg"):
        return [agrees("set-course", what, chart, side.name)]
    if old is not None and abs(course_difference_deg(old, side.course_deg)) <= value("limit_course_resolve_deg"):
        return [differs("set-course-left", "stop", what, chart, "It is the previous approach's course.",
                        "Set the course of this approach.", side.name)]
    return [differs("set-course", "stop" if off_deg > value("limit_course_stop_deg") else "resolve", what, chart,
                    "A wrong course turns the picture, and hides a wrong approach.",
                    "Read the chart again, then set its course.", side.name)]


def altimeter_error_ft(setting: float, reported: float, unit: str) -> float:
    """How much lower, ft, the aircraft is than its altimeter shows with this setting; in inHg or hPa.

    The difference of the two pressures as altitudes in the standard atmosphere: 9 ft for 0.01 inHg.
    """
    set_hpa, true_hpa = (hpa_from_inches(setting), hpa_from_inches(reported)) if unit == "inHg" else (setting, reported)
    return pressure_altitude_at_ft(true_hpa) - pressure_altitude_at_ft(set_hpa)


def altimeter(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The altimeter setting is the one reported; how serious a difference is, its height decides."""
    unit, reported = setup.altimeter_unit, setup.reported
    if side.altimeter is None or unit is None or reported is None:
        return [not_stated("set-altimeter", "altimeter setting", side.name)]
    what, computed = "altimeter " + pressure(side.altimeter, unit), "reported " + pressure(reported, unit)
    if abs(side.altimeter - reported) < ALTIMETER_STEP[unit] / 2:
        return [agrees("set-altimeter", what, "", side.name, computed)]
    error_ft = altimeter_error_ft(side.altimeter, reported, unit)
    lower = f"The aircraft is {ft(abs(error_ft))} {'lower' if error_ft > 0.0 else 'higher'} than the altimeter shows."
    return [differs("set-altimeter", grade_of("minimum", error_ft), what, "",
                    f"{lower} You decide on this altimeter.", "Set the reported value.", side.name, computed)]


def level(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The level of service announced is the one that the approach is made for."""
    best = expected.best_level
    if side.level is None:
        return [not_stated("set-level", "level annunciated", side.name, best)]
    what = "level annunciated " + side.level
    if side.level == best:
        return [agrees("set-level", what, best, side.name)]
    if side.level == "none":
        return [differs("set-level", "stop", what, best, "Without a level there is no approach guidance.",
                        "Do not begin the approach.", side.name)]
    why, action = "It stays until the approach is activated again.", "Fly the line of minima of the level annunciated."
    if side.level in WITHOUT_PATH:
        why += f" A glidepath shown with {side.level} is advisory."
        action += " Set its MDA; check each step-down on the altimeter."
    return [differs("set-level", "note", what, best, why, action, side.name)]


def armed(setup: Setup, expected: Expected) -> "list[Finding]":
    """The approach is armed close to the course and toward it; nothing where it is not armed."""
    if setup.armed is False:
        return []
    if setup.armed is None or setup.across_nm is None or setup.track_deg is None:
        return [not_stated("set-armed", "whether it is armed, from where and on which track", "")]
    what = f"armed {quantity(abs(setup.across_nm), 'NM', 0.1)} from the course, track {course_digits(setup.track_deg)}"
    if ready_to_arm(setup.across_nm, setup.track_deg, expected.course_deg, expected.arm_within_nm):
        return [agrees("set-armed", what, "")]
    near = "" if expected.arm_within_nm is None else f"within {quantity(expected.arm_within_nm, 'NM', 0.1)} and "
    return [Finding(
        "set-armed", "resolve", what, computed=near + "heading toward it, inbound",
        why="Armed too early, it may capture far out or in the wrong place.",
        action="Disarm it. Arm when close to the course and heading toward it.",
    )]


def alike(setup: Setup, rules: "Rules | None" = None) -> "list[Finding]":
    """Both sides are set alike, in what has been read from both; it needs no approach.

    rules: of the type, where it is known: whether its sides can show two sources
    """
    rows = [(what, _texts(setup, show)) for what, show in COMPARED]
    unread = [what for what, texts in rows if None in texts]
    split = [_apart(what, texts, rules) for what, texts in rows if None not in texts and texts[0] != texts[1]]
    if unread:
        split.append(not_compared("set-sides", "left against right: " + ", ".join(unread), "not stated",
                                  why="Nobody has entered what is set on both sides.",
                                  action="Read it from both sides and enter it."))
    return split or [agrees("set-sides", "both sides set alike", "")]


def _apart(what: str, texts: "list[str | None]", rules: "Rules | None") -> Finding:
    """The two sides differ; of two sources that a type cannot show at once, one was misread or something failed."""
    why, action = "At least one of the two is wrong.", "Settle which is right; set both."
    if what == "source" and rules is not None and not can_show(str(texts[0]), str(texts[1]), rules):
        by = "one selector sets both sides" if rules.source_control == "shared" else "both sides follow one source"
        why = f"In this type {by}: these two cannot be shown at once. One was misread, or something failed."
        action = "Read both sides again; resolve it before flight."
    return Finding("set-sides", "resolve", f"left {texts[0]}, right {texts[1]}", about=what, why=why, action=action)


def read_on_both(setup: Setup) -> "list[str]":
    """The items that have been read on both sides."""
    return [what for what, show in COMPARED if None not in _texts(setup, show)]


def _texts(setup: Setup, show: "object") -> "list[str | None]":
    return [show(side, setup) for side in setup.sides()]  # type: ignore[operator]


def _shown(name: str, text: "object") -> "object":
    """A function (side, set-up) -> the text of what the side has set, None where nobody has read it."""
    def show(side: Side, setup: Setup) -> "str | None":
        setting = getattr(side, name)
        return None if setting is None else text(setting)  # type: ignore[operator]
    return show


def _setting(side: Side, setup: Setup) -> "str | None":
    known = side.altimeter is not None and setup.altimeter_unit is not None
    return pressure(side.altimeter, setup.altimeter_unit) if known else None  # type: ignore[arg-type]


COMPARED = (
    ("procedure", _shown("title", _plain)), ("channel", _shown("channel", str)), ("source", _shown("source", str)),
    ("course", _shown("course_deg", course_digits)), ("altimeter", _setting), ("level", _shown("level", str)),
    ("kind of minimum", _shown("minimum_kind", str)), ("minimum", _shown("minimum_ft", feet)),
    ("missed approach altitude", _shown("missed_altitude_ft", feet)),
)
PER_SIDE = (procedure, guidance_source, localizer, course, altimeter, level, kind_of_minimum, minimum, missed_altitude)
FOR_BOTH = (armed, kept_selected)


def check(setup: Setup, expected: Expected) -> "list[Finding]":
    """Every finding about a set-up, those that agree ("ok") included: a split between the sides first, then in the
    order of the cockpit.

    DomainError for numbers outside the range of the formulas.
    """
    findings = alike(setup, expected.rules) + cycle(setup, expected)
    for item in PER_SIDE:
        for side in setup.sides():
            findings += item(side, setup, expected)
    for common in FOR_BOTH:
        findings += common(setup, expected)
    return findings

"""The set-up check: its items, each a small function that gives findings, and `check` that runs them in order.

What is set stands in the finding's words, what it should be under chart or computed.
"""

from lpv.core import airac
from lpv.core.course import course_difference_deg, course_text
from lpv.core.findings import Finding
from lpv.core.text import number
from lpv.crosscheck.statements import ft
from lpv.facts import value
from lpv.intercept.course import within_arming_window
from lpv.modes.rules import Rules, usual_rules
from lpv.modes.state import FLYING, MONITORING, START, State, lateral_source, source
from lpv.setup import radio
from lpv.setup.minimum import kind_of_minimum, minimum, missed_altitude
from lpv.setup.records import Setup, Side, Wanted
from lpv.setup.statements import agrees, differs, pressure

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.core.findings import Grade

# How far an altimeter setting may be off: half of the last digit that is set.
ALTIMETER_STEP = {"inHg": 0.01, "hPa": 1.0}


def cycle(setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The data cycle in the aircraft is in force, and is the chart's."""
    what = "data cycle " + setup.cycle + " in the aircraft, " + airac.iso(setup.day)
    if not airac.in_force(setup.cycle, setup.day):
        return [Finding(
            "set-cycle", "stop", what, chart=wanted.cycle, computed="in force: " + airac.cycle_ident(setup.day),
            why="Final approach data change; what is out of date may lead elsewhere.",
            action="Do not fly it from this database.",
        )]
    if setup.cycle != wanted.cycle:
        return [Finding("set-cycle", "resolve", what, chart=wanted.cycle, why="Chart and database are of two cycles.",
                        action="Take the chart in force, and compare again.")]
    return [agrees("set-cycle", what, wanted.cycle)]


def procedure(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The loaded procedure is the chart's: title, channel, path identifier."""
    why = "Another procedure of the same runway, or another runway, looks the same until the end."
    rows = (
        ("set-procedure", "procedure", side.title, wanted.title),
        ("set-channel", "channel", str(side.channel), str(wanted.channel)),
        ("set-path-id", "path identifier", side.path_id, wanted.path_id),
    )
    return [
        agrees(key, what + " " + found, chart, side.name) if found == chart else
        differs(key, "stop", what + " " + found, chart, why, "Load the procedure of the chart.", side.name)
        for key, what, found, chart in rows
    ]


def localizers_mhz(side: Side) -> "list[float]":
    """The localizer channels among the frequencies that a side has tuned."""
    return [mhz for mhz in side.tuned_mhz if radio.is_localizer(mhz)]


def state_of(setup: Setup) -> State:
    """The set-up as a state of the modes, with the SBAS approach active; the flying side is the pilot flying's."""
    flying, monitoring = setup.sides() if setup.flying == "left" else (setup.right, setup.left)
    return START.but(
        phase="outside", approach="SBAS", active=True, level="LPV",
        selector=(flying.source == "SBAS", monitoring.source == "SBAS"),
        tuned=(localizers_mhz(flying) != [], localizers_mhz(monitoring) != []),
    )


def guidance_source(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The side shows SBAS, and SBAS guides it."""
    index = FLYING if side.name == setup.flying else MONITORING
    state = state_of(setup)
    shown = source(state, index, rules)
    what = "source " + side.source
    if shown == "ILS":
        return [differs(
            "set-wrong-source", "stop", what, "SBAS", "The deviation shown is that of the tuned localizer.",
            "Select SBAS, and take the localizer out of the receiver.", side.name, "shown: " + shown,
        )]
    if side.source != "SBAS":
        return [differs("set-source", "stop", what, "SBAS", "Nothing guides to this runway from this source.",
                        "Select SBAS.", side.name)]
    if not lateral_source(state, rules, index):
        return [differs(
            "set-inhibited", "stop", what, "SBAS", "In this type a tuned localizer, on either side, inhibits SBAS.",
            "Take the localizer out of both receivers.", side.name, "shown: SBAS without guidance",
        )]
    return [agrees("set-source", what, "SBAS", side.name)]


def localizer(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """No receiver of the side is on a localizer channel."""
    found = localizers_mhz(side)
    if not found:
        return [agrees("set-localizer", "no localizer tuned", "", side.name)]
    words = ", ".join([number(mhz, 0.01) + " MHz" for mhz in found])
    return [differs(
        "set-localizer", "resolve", "localizer tuned: " + words, "", "With the selector off, the ILS would be shown.",
        "Tune something that is no localizer channel.", side.name,
    )]


def course(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The course that is set is the chart's."""
    off_deg = abs(course_difference_deg(wanted.course_deg, side.course_deg))
    what, chart = "course " + course_text(side.course_deg), course_text(wanted.course_deg)
    if off_deg <= value("limit_course_resolve_deg"):
        return [agrees("set-course", what, chart, side.name)]
    old = setup.previous_course_deg
    if old is not None and abs(course_difference_deg(old, side.course_deg)) <= value("limit_course_resolve_deg"):
        return [differs("set-course-left", "stop", what, chart, "It is the course of the approach set up before.",
                        "Set the course of this approach.", side.name)]
    grade: Grade = "stop" if off_deg > value("limit_course_stop_deg") else "resolve"
    return [differs("set-course", grade, what, chart, "The wrong course turns the picture, and hides a wrong approach.",
                    "Read the chart again, then set its course.", side.name)]


def altimeter(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The altimeter setting is the one reported."""
    unit = setup.altimeter_unit
    what, reported = "altimeter " + pressure(side.altimeter, unit), "reported " + pressure(setup.reported, unit)
    if abs(side.altimeter - setup.reported) < ALTIMETER_STEP[unit] / 2:
        return [agrees("set-altimeter", what, "", side.name, reported)]
    return [differs("set-altimeter", "stop", what, "", "The decision is made on the barometric altimeter.",
                    "Set what is reported.", side.name, reported)]


def level(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The level of service announced is the one that the approach is made for."""
    what = "level announced " + side.level
    if side.level == wanted.best_level:
        return [agrees("set-level", what, wanted.best_level, side.name)]
    if side.level == "none":
        return [differs("set-level", "stop", what, wanted.best_level, "Without a level there is no approach guidance.",
                        "Do not begin the approach.", side.name)]
    return [differs("set-level", "note", what, wanted.best_level, "It stays until the approach is activated again.",
                    "Fly the line of minima of the level announced.", side.name)]


def armed(setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The approach is armed close to the course and toward it."""
    if not setup.armed or setup.across_nm is None or setup.track_deg is None:
        return []
    what = f"armed {number(abs(setup.across_nm), 0.1)} NM from the course, track {course_text(setup.track_deg)}"
    if within_arming_window(setup.across_nm, setup.track_deg, wanted.course_deg):
        return [agrees("set-armed", what, "")]
    return [Finding(
        "set-armed", "resolve", what, computed=f"within {value('arming_window_nm'):g} NM and heading toward it",
        why="Armed too early, it may capture from far away or in the wrong place.",
        action="Take it off, and arm when close and heading toward the course.",
    )]


def kept_without_power(setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """Where the type's source selector survives the removal of power: that it does; nothing about other types."""
    if rules.selector_after_power == "off":
        return []
    return [Finding(
        "set-selector-kept", "note", "source selector: survives the removal of power in this type",
        why="What one crew selects, the next one finds: at power-up SBAS may be selected that nobody here selected.",
        action="Read the source that is shown, on both sides, at every power-up. Selector off before you leave.",
    )]


def alike(setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """Both sides are set alike."""
    left, right = setup.sides()
    rows = (
        ("procedure", left.title, right.title),
        ("channel", left.channel, right.channel),
        ("source", left.source, right.source),
        ("course", course_text(left.course_deg), course_text(right.course_deg)),
        ("altimeter", pressure(left.altimeter, setup.altimeter_unit), pressure(right.altimeter, setup.altimeter_unit)),
        ("level", left.level, right.level),
        ("kind of minimum", left.minimum_kind, right.minimum_kind),
        ("minimum", ft(left.minimum_ft), ft(right.minimum_ft)),
        ("missed approach altitude", ft(left.missed_altitude_ft), ft(right.missed_altitude_ft)),
    )
    found = [
        Finding("set-sides", "resolve", f"left {one}, right {other}", about=what,
                why="One of the two is wrong, or both will be.", action="Settle which is right; set both.")
        for what, one, other in rows if one != other
    ]
    return found or [agrees("set-sides", "both sides set alike", "")]


COMMON_BEFORE = (cycle,)
PER_SIDE = (procedure, guidance_source, localizer, course, altimeter, level, kind_of_minimum, minimum, missed_altitude)
COMMON_AFTER = (armed, alike, kept_without_power)


def check(setup: Setup, wanted: Wanted, rules: "Rules | None" = None) -> "list[Finding]":
    """Every finding about a set-up, those that agree ("ok") included, in the order of the cockpit.

    rules: of the aircraft's modes; without them, the usual ones with a selector per side.
    DomainError for numbers outside the range of the formulas.
    """
    rules = rules or usual_rules(selector="per side")
    findings = []
    for common in COMMON_BEFORE:
        findings += common(setup, wanted, rules)
    for item in PER_SIDE:
        for side in setup.sides():
            findings += item(side, setup, wanted, rules)
    for common in COMMON_AFTER:
        findings += common(setup, wanted, rules)
    return findings

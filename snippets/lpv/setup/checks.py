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
from lpv.modes.machine import step, with_localizers
from lpv.modes.rules import Rules
from lpv.modes.state import FLYING, MONITORING, START, State, coming_source, lateral_source, source
from lpv.setup import radio
from lpv.setup.expected import Expected
from lpv.setup.minimum import ft, kind_of_minimum, minimum, missed_altitude
from lpv.setup.records import Setup, Side
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


def localizers_mhz(side: Side) -> "list[float]":
    """The localizer channels among the frequencies that a side has tuned."""
    return [mhz for mhz in side.tuned_mhz or [] if radio.is_localizer(mhz)]


def state_of(setup: Setup, rules: Rules) -> State:
    """The set-up as a state of the modes, with the SBAS approach active; the flying side is the pilot flying's.

    Where nobody has said who flies, the left side is taken.
    """
    flying, monitoring = setup.sides() if setup.flying != "right" else (setup.right, setup.left)
    none = "FMS lateral navigation"
    selected = START.but(
        phase="outside", approach="SBAS", active=True, level="LPV",
        selected=(flying.source or none, monitoring.source or none))
    return with_localizers(selected, (localizers_mhz(flying) != [], localizers_mhz(monitoring) != []), rules)


def guidance_source(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The side shows SBAS, and SBAS guides it."""
    if side.source is None:
        return [not_stated("set-source", "guidance source", side.name, "SBAS")]
    rules = expected.rules
    index = MONITORING if side.name == ("left" if setup.flying == "right" else "right") else FLYING
    state = state_of(setup, rules)
    shown = source(state, index, rules)
    what = "source " + side.source
    if shown == "ILS" and lateral_source(state, rules, index):
        return [differs(
            "set-wrong-source", "stop", what, "SBAS", "The deviation shown comes from the tuned localizer.",
            "Select SBAS, and untune the localizer.", side.name, f"shown: {shown}{_channels('; ')}",
        )]
    if shown != "SBAS" and coming_source(state, rules, index) == "SBAS":
        return [agrees("set-source", what + ", SBAS with its course", "SBAS", side.name)]
    if side.source != "SBAS":
        return [differs("set-source", "stop", what, "SBAS", "This source does not guide you to this runway.",
                        "Select SBAS.", side.name)]
    if shown != "SBAS":
        return [differs(
            "set-inhibited", "stop", what, "SBAS", "In this type a tuned localizer takes SBAS away.",
            "Untune the localizer in both receivers, and select SBAS again.", side.name,
            f"shown: {shown}{_channels('; ')}",
        )]
    if not lateral_source(state, rules, index):
        return [differs(
            "set-inhibited", "stop", what, "SBAS", "In this type a tuned localizer, on either side, inhibits SBAS.",
            "Untune the localizer in both receivers.", side.name,
            f"shown: SBAS without guidance{_channels('; ')}",
        )]
    if setup.left.tuned_mhz is None or setup.right.tuned_mhz is None:
        return [not_compared("set-source", what, "not stated", "SBAS", about=side.name,
                             why="A tuned localizer can take over or inhibit SBAS. Nobody has entered what is tuned.",
                             action="Read the frequencies on both sides and enter them.")]
    return [agrees("set-source", what, "SBAS", side.name)]


def localizer(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """No receiver of the side is on a localizer channel."""
    if side.tuned_mhz is None:
        return [not_stated("set-localizer", "frequencies", side.name, "no localizer")]
    tuned = localizers_mhz(side)
    if not tuned:
        return [agrees("set-localizer", "no localizer tuned", "", side.name, _channels())]
    words = ", ".join([quantity(mhz, "MHz", 0.01) for mhz in tuned])
    return [differs(
        "set-localizer", "resolve", "localizer tuned: " + words, "", "With the selector off, the ILS would be shown.",
        "Tune something that is not a localizer channel.", side.name, _channels(),
    )]


def _channels(before: str = "") -> str:
    """Which frequencies are taken for localizers', where nobody has read it in a document; else ""."""
    low, high = (quantity(khz / radio.KHZ_PER_MHZ, "MHz", 0.01) for khz in radio.LOCALIZER_KHZ)
    basis = radio.channels_remembered()
    return f"{before}localizer channels {low} to {high}, odd tenths{basis}" if basis else ""


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


def kept_without_power(setup: Setup, expected: Expected) -> "list[Finding]":
    """Where the type's source selector survives the removal of power: that it does; nothing about other types."""
    rules = expected.rules
    left = state_of(setup, rules).but(selected=("SBAS", "SBAS"))
    for event in ("land", "power off", "power on"):
        left = step(left, event, rules)
    if left.selected[FLYING] != "SBAS":
        return []
    return [Finding(
        "set-selector-kept", "note", "source selector: survives power-down in this type",
        why="You inherit the last crew's selection: SBAS may be on at power-up though nobody here selected it.",
        action="Read the source shown, on both sides, at every power-up. Turn the selector off before you leave.",
    )]


def alike(setup: Setup) -> "list[Finding]":
    """Both sides are set alike, in what has been read from both; it needs no approach."""
    rows = [(what, _texts(setup, show)) for what, show in COMPARED]
    unread = [what for what, texts in rows if None in texts]
    split = [
        Finding("set-sides", "resolve", f"left {texts[0]}, right {texts[1]}", about=what,
                why="At least one of the two is wrong.", action="Settle which is right; set both.")
        for what, texts in rows if None not in texts and texts[0] != texts[1]
    ]
    if unread:
        split.append(not_compared("set-sides", "left against right: " + ", ".join(unread), "not stated",
                                  why="Nobody has entered what is set on both sides.",
                                  action="Read it from both sides and enter it."))
    return split or [agrees("set-sides", "both sides set alike", "")]


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
FOR_BOTH = (armed, kept_without_power)


def check(setup: Setup, expected: Expected) -> "list[Finding]":
    """Every finding about a set-up, those that agree ("ok") included: a split between the sides first, then in the
    order of the cockpit.

    DomainError for numbers outside the range of the formulas.
    """
    findings = alike(setup) + cycle(setup, expected)
    for item in PER_SIDE:
        for side in setup.sides():
            findings += item(side, setup, expected)
    for common in FOR_BOTH:
        findings += common(setup, expected)
    return findings

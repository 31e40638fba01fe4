"""Mistakes in what the sides have set: procedure, source, frequencies, course, altimeter."""

from collections.abc import Callable

from lpv.core.consequence import grade_of
from lpv.core.course import course_difference_deg
from lpv.core.text import course_digits
from lpv.crosscheck.limits import grade_difference
from lpv.drill.case import Case, Pick
from lpv.drill.planted import Mistake, Planted, both_sides, needs, on_sides, one_side, where
from lpv.modes.rules import Rules
from lpv.modes.selection import tuned_effect
from lpv.modes.ways import select_needed, shown_unselected
from lpv.setup.checks import altimeter_error_ft
from lpv.setup.radio import localizer_channels
from lpv.setup.records import NAMES

Sides = Callable[[Pick], tuple[str, ...]]
STOP, RESOLVE, NOTE = "stop", "resolve", "note"
# Of procedures that are made up: numbers of runways, and channels that no approach of the demo has.
OTHER_RUNWAYS = ("05", "13", "31")
OTHER_CHANNELS = (99917, 99926, 99938)
Slips = dict[str, tuple[float, ...]]
ALTIMETER_SLIPS: Slips = {"inHg": (-0.1, 0.1, 0.2), "hPa": (-10.0, 10.0)}
ALTIMETER_OLD: Slips = {"inHg": (-0.03, 0.02, 0.05), "hPa": (-2.0, 2.0, 3.0)}
ALTIMETER_STEP: Slips = {"inHg": (-0.01, 0.01), "hPa": (-1.0, 1.0)}


def other_runway(case: Case, pick: Pick) -> Planted:
    """One side has the procedure of another runway of the airport loaded."""
    needs(case.other is not None, "no other approach is named")
    assert case.other is not None
    other = case.other.identity
    return _loaded(case, one_side(pick), f"the procedure of runway {other.runway} is loaded.",
                   other.title, other.channel, other.path_id)


def channel_digits(case: Case, pick: Pick) -> Planted:
    """Two digits of the channel were swapped on entering it: the procedure that has that channel is loaded.

    Title, channel and identifier come from one data block, so all three are those of the other procedure.
    """
    identity = case.approach.identity
    swapped = _swapped(str(identity.channel))
    needs(swapped != str(identity.channel), "no two digits of the channel differ")
    number = pick.choose("runway of the other channel", OTHER_RUNWAYS)
    needs(number not in identity.runway, "the picked runway is the same")
    return _loaded(case, one_side(pick), "two digits of the channel are swapped, so another procedure is loaded.",
                   identity.title.replace(identity.runway, number), int(swapped),
                   identity.path_id[0] + number + identity.path_id[-1])


def _swapped(digits: str) -> str:
    """The digits with the last two that differ and stand side by side swapped."""
    for at in range(len(digits) - 2, -1, -1):
        if digits[at] != digits[at + 1]:
            return digits[:at] + digits[at + 1] + digits[at] + digits[at + 2:]
    return digits


def path_id_letter(case: Case, pick: Pick) -> Planted:
    """Another procedure to the same runway is loaded on one side: its title, channel and identifier differ."""
    identity = case.approach.identity
    path_id, letter = identity.path_id, "Y" if " Y " not in identity.title else "Z"
    plain = identity.title.replace(" Z ", " ").replace(" Y ", " ")
    return _loaded(case, one_side(pick), "another procedure to this runway is loaded.",
                   plain.replace("RWY", f"{letter} RWY"), pick.choose("its channel", OTHER_CHANNELS),
                   path_id[:-1] + ("B" if path_id[-1] != "B" else "C"))


def _loaded(case: Case, names: tuple[str, ...], words: str, title: str, channel: int, path_id: str) -> Planted:
    """Another procedure loaded on some sides: what its one data block shows."""
    needs(title != case.approach.identity.title, "the title of the other procedure would be the same")
    needs(channel != case.approach.identity.channel, "the channel of the other procedure would be the same")
    return on_sides(
        case, names, words, [("set-procedure", STOP), ("set-channel", STOP), ("set-path-id", STOP)],
        ["procedure", "channel"], title=title, channel=channel, path_id=path_id,
    )


def source_off(case: Case, pick: Pick) -> Planted:
    """SBAS is not selected: on one side, or on both where one selector serves both."""
    needs(select_needed(case.aircraft.rules), "SBAS needs no selecting in this type")
    return on_sides(case, _selected_by(case, pick), "SBAS was never selected.", [("set-source", STOP)], ["source"],
                    source="FMS lateral navigation")


def _selected_by(case: Case, pick: Pick) -> tuple[str, ...]:
    return NAMES if case.aircraft.rules.source_control != "per side" else one_side(pick)


def ils_shown(case: Case, pick: Pick) -> Planted:
    """The selector is off and a localizer tuned on one side: its deviation is shown there."""
    rules = case.aircraft.rules
    needs(shown_unselected(rules) == "ILS", "the type does not show a tuned localizer")
    needs(select_needed(rules), "SBAS needs no selecting in this type")
    (side,), names = one_side(pick), _selected_by(case, pick)
    expected = {("set-wrong-source " + side, STOP), ("set-localizer " + side, RESOLVE)}
    expected |= {("set-source " + name, STOP) for name in names if name != side}
    if len(names) == 1:
        expected |= {("set-sides source", RESOLVE), *_inhibited(rules, [name for name in NAMES if name != side])}
    case = on_sides(case, names, "", [], source="ILS").case
    case = on_sides(case, (side,), "", [], tuned_mhz=[_localizer_mhz(pick)]).case
    return Planted(case, f"{where((side,))}: SBAS is not selected and a localizer is tuned, so the ILS is shown.",
                   frozenset(expected))


def _localizer_mhz(pick: Pick) -> float:
    return pick.choose("localizer", localizer_channels())


def _inhibited(rules: Rules, names: list[str]) -> set[tuple[str, str]]:
    if tuned_effect(rules) not in ("inhibits SBAS on both sides", "takes SBAS away on both sides"):
        return set()
    return {("set-inhibited " + name, STOP) for name in names}


def localizer_left(case: Case, pick: Pick) -> Planted:
    """One receiver of one side was left on a localizer, SBAS selected."""
    return _localizer(case, pick, [])


def localizer_second(case: Case, pick: Pick) -> Planted:
    """The second receiver of one side is on a localizer, SBAS selected."""
    (side,) = one_side(pick)
    return _localizer(case, pick, case.side(side).tuned_mhz or [])


def _localizer(case: Case, pick: Pick, beside: list[float]) -> Planted:
    (side,), rules = one_side(pick), case.aircraft.rules
    planted = on_sides(case, (side,), "a localizer is left tuned.", [("set-localizer", RESOLVE)],
                       tuned_mhz=[*beside, _localizer_mhz(pick)])
    more = _inhibited(rules, list(NAMES))
    if tuned_effect(rules) == "takes over its side":
        more = {("set-wrong-source " + side, STOP)}
    return Planted(planted.case, planted.words, planted.expected | more)


def course_before(sides: Sides) -> Callable[[Case, Pick], Planted]:
    """The course of the approach before is still set."""
    def plant(case: Case, pick: Pick) -> Planted:
        return on_sides(
            case, sides(pick), "the course is still the previous approach's.", [("set-course-left", STOP)],
            ["course"], course_deg=case.setup.previous_course_deg,
        )
    return plant


def swapped_digits(case: Case, pick: Pick) -> Planted:
    """The last two digits of the course are swapped on one side."""
    text = course_digits(case.expected.course_deg).split(".")[0]
    swapped_deg = float(text[0] + text[2] + text[1]) % 360.0
    return _course(case, one_side(pick), swapped_deg, "two digits of the course are swapped.")


def course_true(case: Case, pick: Pick) -> Planted:
    """Both sides have the true course where the chart prints magnetic ones."""
    needs(case.approach.chart.course_reference == "magnetic", "the chart's courses are true")
    true_deg = float(round(case.approach.true_course_deg)) % 360.0
    return _course(case, NAMES, true_deg, "the course is the true one; the chart's is magnetic.")


def course_two_off(case: Case, pick: Pick) -> Planted:
    """The course is two degrees off on one side."""
    off_deg = pick.choose("degrees off", (-2.0, 2.0))
    return _course(case, one_side(pick), (case.expected.course_deg + off_deg) % 360.0, "the course is two degrees off.")


def _course(case: Case, names: tuple[str, ...], course_deg: float, words: str) -> Planted:
    grade = grade_difference("course", course_difference_deg(case.expected.course_deg, course_deg))
    needs(grade != "ok", "the course would not differ")
    return on_sides(case, names, words, [("set-course", grade)], ["course"], course_deg=course_deg)


def altimeter(sides: Sides, slips: Slips, words: str) -> Callable[[Case, Pick], Planted]:
    """The altimeter setting is not the one reported."""
    def plant(case: Case, pick: Pick) -> Planted:
        setup = case.setup
        unit, reported = setup.altimeter_unit, setup.reported
        assert unit is not None
        assert reported is not None
        wrong = round(reported + pick.choose("altimeter slip", slips[unit]), 2)
        grade = grade_of("minimum", altimeter_error_ft(wrong, reported, unit))
        return on_sides(case, sides(pick), words, [("set-altimeter", grade)], ["altimeter"], altimeter=wrong)
    return plant


MISTAKES = {
    "other-runway": Mistake(
        "the procedure of another runway, on one side; the row names it as other", False, other_runway),
    "channel-digits": Mistake(
        "two digits of the channel swapped, and so another procedure loaded, on one side", False, channel_digits),
    "path-id-letter": Mistake(
        "another procedure to the same runway loaded, on one side", True, path_id_letter),
    "source-off": Mistake(
        "SBAS not selected, on one side, or on both with a shared selector", False, source_off),
    "ils-shown": Mistake(
        "SBAS not selected and a localizer tuned, on one side", False, ils_shown),
    "localizer-left": Mistake(
        "a localizer left tuned, on one side", False, localizer_left),
    "localizer-second": Mistake(
        "a localizer in a second receiver of one side", True, localizer_second),
    "course-before": Mistake(
        "the previous approach's course, on one side", False, course_before(one_side)),
    "course-before-both": Mistake(
        "the previous approach's course, on both sides", True, course_before(both_sides)),
    "course-digits": Mistake(
        "two digits of the course swapped, on one side", False, swapped_digits),
    "course-true": Mistake(
        "the true course where the chart prints a magnetic one, on both sides", True, course_true),
    "course-two-off": Mistake(
        "a course two degrees off, on one side", True, course_two_off),
    "altimeter-slip": Mistake(
        "a slip in the altimeter setting, on one side", False,
        altimeter(one_side, ALTIMETER_SLIPS, "the altimeter setting has a slip in it.")),
    "altimeter-old": Mistake(
        "an old altimeter setting, on both sides", True,
        altimeter(both_sides, ALTIMETER_OLD, "the altimeter setting is an old one.")),
    "altimeter-step": Mistake(
        "an altimeter setting one step off, on one side", True,
        altimeter(one_side, ALTIMETER_STEP, "the altimeter setting is one step off.")),
}

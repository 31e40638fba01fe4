"""Sequence drills: an approach runs, and the crew says when something is wrong, what it is, and what to do now.

Each kind changes one thing of an approach that is flown as it should be; `lpv.simulate` flies it with the modes of the
type, so that only what can happen in the type is shown.  Nothing of the answer is written down: the first sign is the
first sample in which a predicate of SEEN holds, and what to do about it is `lpv.decide.remedy`.  DomainError where the
type does not let it happen, or where something else would be wrong first.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lpv.aircraft.record import Aircraft
from lpv.approach.coded_leg import CodedLeg
from lpv.approach.record import Approach
from lpv.core.text import feet, quantity
from lpv.core.units import degrees_360
from lpv.decide.final_path import altimeter_at_pfaf_ft, altimeter_ft, has_glidepath, pfaf_distance_nm
from lpv.decide.last_mile import reading_allowances_ft, together_ft
from lpv.decide.minimum import minimum
from lpv.decide.remedy import remedy
from lpv.drill.base import REPORTED, announced_levels
from lpv.drill.case import Pick
from lpv.drill.planted import needs
from lpv.drill.whole_procedure import begins, begins_ft, hold_legs, initial_legs
from lpv.modes.machine import run, step
from lpv.modes.rules import Rules
from lpv.modes.state import State, followed_source, vertical_source
from lpv.modes.ways import flown_on_sbas, set_up_events
from lpv.setup.checks import altimeter_error_ft
from lpv.setup.expected import Expected
from lpv.simulate.records import Sample
from lpv.simulate.scenario import Event, Ils, Scenario, Start, Story
from lpv.simulate.simulation import simulate

STANDARD_C, FASTEST_KT = 15.0, 160.0
BEGIN_NM, ARM_NM, ACTIVATE_NM = 8.0, 7.0, 7.5  # before the PFAF
ACROSS_NM, INTERCEPT_DEG = 1.2, 25.0
ARMED_LATE_NM, ESTABLISHED_DOTS = 1.0, 0.5
LEVEL_STAYS = "stays, flagged"
EACH_S, AFTER_SIGN_S = 5.0, 45.0
LOST_INSIDE_NM = (1.0, 1.6, 2.2)  # behind the PFAF
ABOVE_FT = (900.0, 1200.0)
SLIPS = {"inHg": (-0.3, -0.2, 0.2, 0.3), "hPa": (-10.0, -8.0, 8.0, 10.0)}
AN_ILS = Ils(offset_deg=1.5, antenna_beyond_ft=11_000.0, antenna_right_ft=0.0, glide_slope_deg=3.0, tch_ft=52.0)
IN_DOUBT = ("clock: the time has jumped", "position: does not agree with the ground aids")


@dataclass(frozen=True)
class Moment:
    """One line of the timeline.

    words: all that is announced;  shown_ft: on the altimeter;  inside: whether the PFAF is passed
    course_dots, path_dots: shown, two dots full scale; None where nothing is shown
    """

    time_s: float
    along_nm: float
    shown_ft: float
    course_dots: float | None
    path_dots: float | None
    words: tuple[str, ...]
    inside: bool


@dataclass(frozen=True)
class Run:
    """A sequence ready to run.

    briefed: what the crew expects, in words;  timeline: what is shown
    sign:    one of `lpv.decide.remedy.SIGNS`, "" where nothing is wrong;  at: its place in the timeline, None likewise
    remedy:  what to do then, one of REMEDIES
    """

    briefed: str
    timeline: tuple[Moment, ...]
    sign: str
    at: int | None
    remedy: str


@dataclass(frozen=True)
class Plot:
    """What is changed in an approach as it should be.

    begin:  of its start;  before: events of the set-up, instead of the usual ones
    earlier, more: events on the way, before and after the arming
    armed, path_armed: whether the crew arms the approach and, where that is a control of its own, the path
    legs:   coded legs that are flown in the FMS lateral mode from their first fix; none: joined near the course
    error_ft: how much more the altimeter shows than it should;  doubt_nm: where the position becomes doubtful
    """

    sign: str
    begin: Mapping[str, float] | None = None
    before: tuple[str, ...] | None = None
    earlier: tuple[Event, ...] = ()
    more: tuple[Event, ...] = ()
    armed: bool = True
    path_armed: bool = True
    legs: tuple[CodedLeg, ...] = ()
    ils: bool = False
    error_ft: float = 0.0
    doubt_nm: float | None = None


@dataclass(frozen=True)
class Kind:
    """A kind of sequence: what happens, in words, and the function (approach, type, pick) -> Plot."""

    what: str
    plot: Callable[[Approach, Aircraft, Pick], Plot]


def make(kind: str, approach: Approach, flown: Aircraft, pick: Pick) -> Run:
    """The sequence of a kind on an approach in a type."""
    needs(has_glidepath(approach) and Expected(approach, flown).best_level == "LPV", "the approach has no LPV")
    needs(announced_levels(Expected(approach, flown))[:1] == ["LPV"], "the type does not annunciate LPV")
    plot = KINDS[kind].plot(approach, flown, pick)
    moments, signs = _flown(plot, approach, flown)
    at = next((place for place, sign in enumerate(signs) if sign), None)
    needs((at is None) == (not plot.sign), "it does not happen in this type")
    if at is None:
        return Run(_briefed(approach, flown), moments, "", None, remedy("", False))
    needs(signs[at] == plot.sign, f"something else would be wrong first: {signs[at]}")
    needs(at > 0, "it would be wrong from the beginning")
    shown = tuple(moment for moment in moments if moment.time_s <= moments[at].time_s + AFTER_SIGN_S)
    return Run(_briefed(approach, flown), shown, plot.sign, at, remedy(plot.sign, moments[at].inside))


def _briefed(approach: Approach, flown: Aircraft) -> str:
    expected = Expected(approach, flown)
    needed = minimum(approach, "LPV", flown.type.category, flown.operator)
    assert needed is not None  # `announced_levels` has looked
    allowed_ft = together_ft(list(reading_allowances_ft(approach).values()))
    return (f"{expected.best_level}, {needed.kind} {feet(needed.altitude_ft)}; on the glidepath at "
            f"{approach.pfaf.name}, {quantity(pfaf_distance_nm(approach), 'NM', 0.1)} before the threshold, "
            f"the altimeter shows {feet(altimeter_at_pfaf_ft(approach, STANDARD_C))}, give or take {feet(allowed_ft)}")


def _flown(plot: Plot, approach: Approach, flown: Aircraft) -> tuple[tuple[Moment, ...], list[str]]:
    """The timeline of a plot, and what can be seen to be wrong in each of its moments."""
    flight = simulate(_scenario(plot, approach, flown), approach, flown)
    above_ft = _minimum_ft(approach, flown)
    moments, signs, before = [], [], None
    for sample in flight.samples:
        if sample.indicated_ft < above_ft and sample.state.phase != "missed":
            break
        if before is None or sample.time_s % EACH_S == 0.0 or sample.words != before.words:
            moments.append(_moment(sample, plot))
            look = _Look(sample, plot, approach, flown)
            signs.append(_first_sign(look))
        before = sample
    return tuple(moments), signs


def _first_sign(look: "_Look") -> str:
    """What is seen to be wrong: of several at once what the sequence is about, else the first of SEEN."""
    signs = [name for name, shows in SEEN.items() if shows(look)]
    return look.plot.sign if look.plot.sign in signs else [*signs, ""][0]


def _minimum_ft(approach: Approach, flown: Aircraft) -> float:
    line_minimum = minimum(approach, "LPV", flown.type.category, flown.operator)
    return line_minimum.altitude_ft if line_minimum else 0.0


def _in_doubt(sample: Sample, plot: Plot) -> bool:
    return plot.doubt_nm is not None and sample.along_nm <= plot.doubt_nm


def _moment(sample: Sample, plot: Plot) -> Moment:
    return Moment(
        sample.time_s, sample.along_nm, sample.indicated_ft + plot.error_ft, sample.shown_course_dots,
        sample.shown_path_dots, sample.words + (IN_DOUBT if _in_doubt(sample, plot) else ()),
        sample.state.phase in ("inside", "missed"),
    )


def _scenario(plot: Plot, approach: Approach, flown: Aircraft) -> Scenario:
    pfaf_nm, begin = pfaf_distance_nm(approach), plot.begin or {}
    altitude_ft = (approach.pfaf.altitude_ft or 0.0) + begin.get("above_ft", 0.0) - plot.error_ft
    if plot.legs:
        begin, altitude_ft = begins(approach, plot.legs), begins_ft(approach, plot.legs)
    usual = set_up_events(flown.rules)
    arming = [Event(distance_nm=pfaf_nm + ARM_NM, does="arm approach")] if plot.armed else []
    if plot.armed and plot.path_armed and flown.rules.vertical_arms == "by its own control":
        arming.append(Event(after_s=3.0, does="arm path"))
    return Scenario(
        story=Story(
            name="a sequence", about="a sequence", kind="as it should be", approach=approach.slug, aircraft=flown.slug,
            invented=True, weight_lb=flown.landing.max_weight_lb, temperature_c=STANDARD_C, activation="procedure",
            minimum_ft=None, longest_s=900.0, afterwards=()),
        start=Start(
            distance_nm=begin.get("along_nm", pfaf_nm + BEGIN_NM), across_nm=begin.get("across_nm", -ACROSS_NM),
            heading_deg=degrees_360(approach.chart.course_deg + begin.get("turned_deg", INTERCEPT_DEG)),
            altitude_ft=altitude_ft, speed_kt=FASTEST_KT,
            set_up=usual if plot.before is None else plot.before),
        winds=(), events=(*plot.earlier, *arming, *plot.more),
        ils=AN_ILS if plot.ils else None, legs=plot.legs, slug="sequence")


# What can be seen to be wrong


@dataclass(frozen=True)
class _Look:
    """A sample, and what one needs to judge it."""

    sample: Sample
    plot: Plot
    approach: Approach
    flown: Aircraft

    @property
    def state(self) -> State:
        return self.sample.state

    @property
    def rules(self) -> Rules:
        return self.flown.rules


def _course_lost(look: _Look) -> bool:
    return look.state.phase == "inside" and not followed_source(look.state, look.rules)


def _path_lost(look: _Look) -> bool:
    state = look.state
    return state.phase == "inside" and followed_source(state, look.rules) == "SBAS" and (
        vertical_source(state, look.rules) != "SBAS")


def _level(look: _Look) -> bool:
    """Before the PFAF, and inside it in a sequence about that: what else is lost there is seen as well."""
    where = ("outside", "inside") if look.plot.sign == "level" else ("outside",)
    return look.state.active and look.state.phase in where and look.state.level not in ("LPV", "none")


def _source(look: _Look) -> bool:
    state = look.state
    return state.approach == "SBAS" and state.lateral == "captured" and followed_source(state, look.rules) == "ILS"


def _path_not_armed(look: _Look) -> bool:
    """On the course, outside the PFAF; while it is still being captured the path may be armed yet."""
    established = abs(look.sample.course_dots) <= ESTABLISHED_DOTS
    return established and look.state.phase == "outside" and look.state.lateral == "captured" and (
        look.state.vertical == "inactive")


def _not_captured(look: _Look) -> bool:
    return look.state.phase == "inside" and look.state.vertical in ("inactive", "armed")


def _not_followed(look: _Look) -> bool:
    return look.state.phase == "missed" and not look.state.fms and look.state.lateral != "captured"


def _altimeter(look: _Look) -> bool:
    """The check at the PFAF: what is shown there on the path, against what is expected there."""
    if look.state.phase != "inside" or look.state.vertical != "captured":
        return False
    expected_ft = altimeter_ft(look.approach, look.sample.along_nm, STANDARD_C)
    shown_ft = look.sample.indicated_ft + look.plot.error_ft
    return abs(shown_ft - expected_ft) > together_ft(list(reading_allowances_ft(look.approach).values()))


def _position(look: _Look) -> bool:
    return _in_doubt(look.sample, look.plot)


# Sign -> whether it is seen in a sample; of two at once the first in this list counts.
SEEN: dict[str, Callable[[_Look], bool]] = {
    "position": _position, "source": _source, "level": _level, "course lost": _course_lost, "path lost": _path_lost,
    "not followed": _not_followed, "path not armed": _path_not_armed, "not captured": _not_captured,
    "altimeter": _altimeter,
}


# The kinds


def _clean(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    return Plot("")


def _lost(event: str, sign: str) -> Callable[[Approach, Aircraft, Pick], Plot]:
    def plot(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
        at_nm = pfaf_distance_nm(approach) - pick.choose("lost", LOST_INSIDE_NM)
        return Plot(sign, more=(Event(distance_nm=at_nm, does=event),))
    return plot


def _level_at_activation(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    usual = set_up_events(flown.rules)
    at = usual.index("activate approach")
    activated = Event(distance_nm=pfaf_distance_nm(approach) + ACTIVATE_NM, does=usual[at])
    later = [Event(after_s=1.0, does=event) for event in usual[at + 1:]]
    falls = pick.choose("signal", ("signal falls to LNAV/VNAV", "vertical guidance lost"))
    return Plot("level", before=(*usual[:at], falls), earlier=(activated, *later))


def _wrong_source(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    return Plot("source", before=("take off", "load SBAS approach", "activate approach", "tune localizer"), ils=True)


def _not_armed(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    return Plot("path not armed", path_armed=False)


def _from_above(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    needs(flown.rules.path_from_above == "stays armed", "the type captures the path from above")
    late_nm, low_ft = pfaf_distance_nm(approach) + ARMED_LATE_NM, approach.chart.touchdown_zone_ft + 600.0
    steps = [Event(distance_nm=late_nm, does="arm approach", level_ft=low_ft, rate_fpm=1500.0)]
    if flown.rules.vertical_arms == "by its own control":
        steps.append(Event(after_s=3.0, does="arm path"))
    return Plot("not captured", begin={"above_ft": pick.choose("above", ABOVE_FT), "across_nm": 0.0, "turned_deg": 0.0},
                more=tuple(steps), armed=False)


def _go_around(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    above_ft = pick.choose("above the minimum", (30.0, 150.0, 400.0))
    return Plot("not followed", more=(Event(altitude_ft=_minimum_ft(approach, flown) + above_ft, does="go around"),))


def _level_inside(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    needs(flown.rules.level_falls_inside != LEVEL_STAYS, "the type keeps the level and flags it")
    at_nm = pfaf_distance_nm(approach) - pick.choose("lost", LOST_INSIDE_NM)
    falls = pick.choose("signal", ("signal falls to LNAV/VNAV", "vertical guidance lost"))
    return Plot("level", more=(Event(distance_nm=at_nm, does=falls),))


def _missed_left(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    rules = flown.rules
    needs(step(flown_on_sbas(rules), "go around", rules).fms, "the go-around of the type follows nothing")
    around = Event(altitude_ft=_minimum_ft(approach, flown) + pick.choose("above the minimum", (30.0, 150.0, 400.0)),
                   does="go around")
    return Plot("not followed", more=(around, Event(after_s=pick.choose("later", (10.0, 20.0)), does="heading mode")))


def _fms_set_up(flown: Aircraft) -> tuple[str, ...]:
    usual = set_up_events(flown.rules)
    events = usual if "FMS lateral mode" in usual else (*usual, "FMS lateral mode")
    needs(run(events, flown.rules).fms, "the FMS lateral mode of the type does not fly with the source set up")
    return events


def _flies_on(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    return Plot("not captured", before=_fms_set_up(flown), armed=False, legs=initial_legs(approach))


def _level_in_the_hold(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    needs(flown.rules.level_falls_outside != LEVEL_STAYS, "the type keeps the level and flags it")
    at_s = pick.choose("at", (130.0, 160.0, 190.0))
    falls = Event(time_s=at_s, does=pick.choose("signal", ("signal falls to LNAV/VNAV", "vertical guidance lost")))
    return Plot("level", before=_fms_set_up(flown), armed=False, legs=hold_legs(approach), more=(falls,))


def _wrong_setting(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    unit = "inHg" if approach.identity.rule == "FAA" else "hPa"
    reported = pick.choose("reported", REPORTED[unit])
    error_ft = altimeter_error_ft(round(reported + pick.choose("slip", SLIPS[unit]), 2), reported, unit)
    return Plot("altimeter", begin={"above_ft": 500.0}, error_ft=error_ft)


def _interference(approach: Approach, flown: Aircraft, pick: Pick) -> Plot:
    return Plot("position", doubt_nm=pfaf_distance_nm(approach) + pick.choose("doubt", (2.0, 0.8, -1.2)))


KINDS = {
    "as-it-should-be": Kind("nothing is wrong", _clean),
    "path-lost-inside": Kind("the glidepath is lost inside the FAF", _lost("vertical guidance lost", "path lost")),
    "course-lost-inside": Kind("the course is lost inside the FAF", _lost("lateral guidance lost", "course lost")),
    "level-at-activation": Kind("a lower level is annunciated at activation", _level_at_activation),
    "wrong-source": Kind("an ILS is captured on an SBAS approach", _wrong_source),
    "path-not-armed": Kind("the glidepath is never armed", _not_armed),
    "from-above": Kind("the glidepath is met from above and not captured", _from_above),
    "go-around-mode": Kind("the go-around does not follow the missed approach", _go_around),
    "level-falls-inside": Kind("the level annunciated falls inside the FAF", _level_inside),
    "missed-left": Kind("the missed approach is left for a heading", _missed_left),
    "fms-flies-on": Kind("from the initial fix past the FAF with nothing armed", _flies_on),
    "level-in-the-hold": Kind("a lower level is annunciated in a hold in lieu of a procedure turn", _level_in_the_hold),
    "wrong-setting": Kind("a wrong altimeter setting, seen at the check at the fix", _wrong_setting),
    "interference": Kind("the position is in doubt", _interference),
}

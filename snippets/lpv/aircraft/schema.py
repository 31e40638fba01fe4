"""What an aircraft file holds, table by table; `lpv.aircraft.record` says how it is read and gives an example.

Weights in lb, speeds in knots of indicated airspeed, deviations in dots of a two-dot scale.
"""


from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, ClassVar

from lpv.approach.schema import FaultRow
from lpv.core.text import trimmed_quantity
from lpv.decide.additive import Rule
from lpv.decide.category import CATEGORIES
from lpv.decide.stabilised import DONE
from lpv.facts import fact
from lpv.files import schema
from lpv.modes.rules import (
    BY_HAND,
    CONDITIONS,
    FMS,
    FOR_FMS,
    LISTS,
    REMOVED_BY,
    RULES,
    SELECTED_BY,
    SOURCES,
)

APPROVED = ("not approved", "approved")
BEGINNINGS = ("within a deviation", "by turn lead")
WIND_NOT_COUNTED = "does not count it"
LEAD_WINDS = ("counts it", WIND_NOT_COUNTED)
LEVEL_OF_CLASS = {number: str(fact(f"sbas_class_{number}_level").value) for number in (1, 2, 3, 4)}


DISTANCES = ("final course", "PFAF", "airport")


def _rule(key: str, required: bool = True) -> Any:
    return schema.choice(*RULES[key], required=required)


def _words(key: str) -> Any:
    return schema.choices(*LISTS[key])


@dataclass(frozen=True, kw_only=True)
class Type:
    """Which type of aircraft it is."""

    name: str = schema.text("name of the type, as the department calls it")
    about: str = schema.text("what kind of aircraft it is, in a few words", longest=200)
    category: str = schema.choice("approach category", tuple(CATEGORIES))
    invented: bool = schema.flag("whether the type is made up")


@dataclass(frozen=True, kw_only=True)
class Reference:
    """VREF at one weight in one configuration."""

    configuration: str = schema.text("landing configuration")
    weight_lb: float = schema.number("weight", "lb", 1000, 1_500_000)
    vref_kt: float = schema.number("reference speed", "kt", 40, 220)


@dataclass(frozen=True, kw_only=True)
class Landing:
    """Weights and reference speeds for landing."""

    configuration: str = schema.text("the usual landing configuration")
    max_weight_lb: float = schema.number("maximum landing weight", "lb", 1000, 1_500_000)
    vref: tuple[Reference, ...] = schema.tables(Reference, "reference speeds, lightest first", least=1)

    def faults(self) -> Iterator[FaultRow]:
        """Rows rise with the weight, and reach the maximum in the usual configuration."""
        for name in dict.fromkeys(row.configuration for row in self.vref):
            rows = [row for row in self.vref if row.configuration == name]
            for lighter, heavier in pairwise(rows):
                if heavier.weight_lb <= lighter.weight_lb or heavier.vref_kt < lighter.vref_kt:
                    yield ("vref", f"{trimmed_quantity(heavier.vref_kt, 'kt')} at "
                                   f"{trimmed_quantity(heavier.weight_lb, 'lb')} after "
                                   f"{trimmed_quantity(lighter.vref_kt, 'kt')} "
                           f"at {trimmed_quantity(lighter.weight_lb, 'lb')} ({name})",
                           "heavier and not slower from row to row",
                           "Correct the rows or their order.")
        heaviest = max((row.weight_lb for row in self.vref if row.configuration == self.configuration), default=0.0)
        if heaviest < self.max_weight_lb:
            yield ("vref", f"rows up to {trimmed_quantity(heaviest, 'lb')} for {self.configuration}",
                   f"a row at or above {trimmed_quantity(self.max_weight_lb, 'lb')}",
                   "Add the row for the maximum landing weight.")


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step of the configuration and speed schedule of an approach."""

    label: str = schema.text("what is set, in the words of the type", example="Flaps half")
    before_pfaf_nm: float = schema.number("where it begins: NM before the FAF, negative after", "NM", -10, 30)
    speed_kt: float | None = schema.number("target speed", "kt", 60, 300, required=False)
    above_vref_kt: float | None = schema.number("target speed above VREF", "kt", 0, 60, required=False)
    limit_kt: float | None = schema.number("highest speed to set it at", "kt", 60, 350, required=False)
    takes_s: float = schema.number("time that it takes to move", "s", 0, 60)

    def faults(self) -> Iterator[FaultRow]:
        """One target speed, and not above the limit."""
        if (self.speed_kt is None) == (self.above_vref_kt is None):
            count = "none" if self.speed_kt is None else "two"
            yield "", f"{count} of speed_kt and above_vref_kt", "one of them", "Give one target speed."
        elif self.speed_kt is not None and self.limit_kt is not None and self.speed_kt > self.limit_kt:
            allowed = f"at most limit_kt, {trimmed_quantity(self.limit_kt, 'kt')}"
            yield "speed_kt", trimmed_quantity(self.speed_kt, "kt"), allowed, "Correct one."


@dataclass(frozen=True, kw_only=True)
class Flying:
    """How it turns, coupled, what thrust it has, and its limits."""

    RENAMED: ClassVar[dict[str, str]] = {
        "deceleration_kt_per_s": "level_idle_kt_per_s of each [[drag]]",
        "path_deceleration_kt_per_s": "level_idle_kt_per_s of each [[drag]]; the path is computed",
    }
    bank_limit_deg: float = schema.number("bank limit when coupled", "deg", 5, 45)
    roll_rate_deg_per_s: float = schema.number("roll rate when coupled", "deg/s", 1, 20)
    thrust_kt_per_s: float = schema.number(
        "acceleration in level flight with the thrust of a go-around, landing configuration", "kt/s", 0.2, 8)
    spool_up_s: float = schema.number("time from idle to that thrust", "s", 0, 15)
    tailwind_limit_kt: float = schema.number("highest tailwind for landing", "kt", 0, 30)
    autopilot_lowest_ft: float | None = schema.number(
        "lowest height above the runway with the autopilot engaged on an approach, by the flight manual",
        "ft", 0, 1000, required=False)


@dataclass(frozen=True, kw_only=True)
class Drag:
    """How fast the true airspeed falls in level flight at idle, in one configuration at one indicated airspeed.

    On a path it falls by that less g sin(angle); see `lpv.motion.energy`.
    """

    configuration: str = schema.text('"clean", or the label of the step of the schedule that has been set last',
                                     example="clean")
    speed_kt: float = schema.number("indicated airspeed", "kt", 50, 350)
    level_idle_kt_per_s: float = schema.number("deceleration in level flight, power idle", "kt/s", 0.2, 6)


@dataclass(frozen=True, kw_only=True)
class SpeedBrake:
    """Drag that can be added; absent where the type has none, or none that is used on an approach."""

    adds_kt_per_s: float = schema.number("deceleration that it adds", "kt/s", 0.1, 3)
    lowest_ft: float = schema.number("height above the airport at which it is stowed at the latest", "ft", 0, 10000)


@dataclass(frozen=True, kw_only=True)
class Capture:
    """When guidance that is armed is captured, and from where the approach arms."""

    lateral: str = schema.choice("how the capture of the course begins", BEGINNINGS)
    lateral_dots: float | None = schema.number(
        "deviation within which the course is captured", "dots", 0.1, 2.5, required=False)
    vertical_dots: float = schema.number("deviation within which the path is captured", "dots", 0.05, 2.0)
    largest_intercept_deg: float = schema.number("largest angle at which the course is captured", "deg", 10, 120)
    vertical_lateral_dots: float | None = schema.number(
        "course deviation within which the path is captured, in types that capture it on its own", "dots", 0.1, 2.0,
        required=False)
    lead_wind: str | None = schema.choice(
        "whether a turn lead counts the wind, in types that capture by it; counted if not said", LEAD_WINDS,
        required=False)
    lag_s: float | None = schema.number(
        "time from the place of the capture to the first roll; none if not said", "s", 0, 10, required=False)
    arms_within_nm: float | None = schema.number(
        "the arming distance, in types that have one", "NM", 0.5, 60, required=False)
    arms_within_of: str | None = schema.choice("what the arming distance counts from", DISTANCES, required=False)
    arms_within_deg: float | None = schema.number(
        "largest angle between track and final course for the arming distance to count as reached", "deg", 5, 180,
        required=False)

    def faults(self) -> Iterator[FaultRow]:
        """A capture by deviation needs the deviation, one by turn lead has none; a distance counts from something."""
        if self.lead_wind is not None and self.lateral != "by turn lead":
            yield ("lead_wind", f'"{self.lead_wind}" in a type that does not capture by turn lead', "nothing there",
                   "Remove it, or correct lateral.")
        if (self.arms_within_nm is None) != (self.arms_within_of is None):
            yield ("arms_within_of", "nothing" if self.arms_within_of is None else f'"{self.arms_within_of}"',
                   "given with arms_within_nm, not without it", "Add the other, or remove it.")
        if self.arms_within_deg is not None and self.arms_within_nm is None:
            actual = trimmed_quantity(self.arms_within_deg, "deg")
            yield "arms_within_deg", actual, "nothing without arms_within_nm", "Remove it."
        if (self.lateral == BEGINNINGS[0]) != (self.lateral_dots is not None):
            actual = "nothing" if self.lateral_dots is None else trimmed_quantity(self.lateral_dots, "dots")
            yield ("lateral_dots", actual, f'a number with lateral = "{BEGINNINGS[0]}", nothing otherwise',
                   "Add it or remove it.")


@dataclass(frozen=True, kw_only=True)
class Cockpit:
    """Where eyes and antenna are, and what hides the ground."""

    eye_above_wheels_ft: float = schema.number("eyes above the main wheels, approach attitude", "ft", 3, 50)
    antenna_above_wheels_ft: float = schema.number("antenna above the main wheels, approach attitude", "ft", 2, 50)
    cutoff_deg: float = schema.number("lowest line of sight, below the horizontal, approach attitude", "deg", 5, 40)


@dataclass(frozen=True, kw_only=True)
class GoAround:
    """How fast a go-around becomes a climb."""

    reaction_s: float = schema.number("from the decision to the first change of path", "s", 0, 10)
    acceleration_g: float = schema.number("vertical acceleration while rotating", "g", 0.02, 1.0)
    climb_rate_fpm: float = schema.number("climb rate, all engines", "ft/min", 200, 8000)
    climb_rate_one_out_fpm: float = schema.number("climb rate, one engine out", "ft/min", 50, 5000)

    def faults(self) -> Iterator[FaultRow]:
        """With one engine out it climbs no better than with all: there is less thrust, and more drag."""
        if self.climb_rate_one_out_fpm > self.climb_rate_fpm:
            yield ("climb_rate_one_out_fpm", trimmed_quantity(self.climb_rate_one_out_fpm, "ft/min"),
                   f"at most climb_rate_fpm, {trimmed_quantity(self.climb_rate_fpm, 'ft/min')}: an engine out takes "
                   "thrust away and adds drag", "Correct one of them.")


DUTIES = (
    "approach armed", "course captured", "path captured", "FAF", "gate", "minimum", "go-around", "mode lost")


@dataclass(frozen=True, kw_only=True)
class CallOut:
    """A call on the way to the minimum."""

    minimum: str = schema.choice("kind of minimum that it is for", ("DA", "MDA"))
    above_ft: float = schema.number("height above the minimum", "ft", 0, 1500)
    words: str = schema.text("what is called")


@dataclass(frozen=True, kw_only=True)
class Duty:
    """What each pilot does and calls at one point of the approach."""

    at: str = schema.choice("when", DUTIES)
    flying: str = schema.text("what the pilot flying does and calls")
    monitoring: str = schema.text("what the pilot monitoring does and calls")


@dataclass(frozen=True, kw_only=True)
class Operator:
    """What the operator allows."""

    lowest_da_above_tdze_ft: float = schema.number("lowest DA above the touchdown zone", "ft", 100, 1000)
    lowest_visibility_sm: float = schema.number("lowest visibility", "SM", 0.25, 5)
    above_mda_ft: float = schema.number("added to an MDA for the decision to go around", "ft", 0, 200)
    arm_within_nm: float | None = schema.number(
        "distance from the final course within which the operator has the approach armed", "NM", 0.5, 60,
        required=False)
    cold_from_c: float | None = schema.number(
        "temperature at and below which the operator corrects altitudes for cold, if it has such a rule", "deg C",
        -80, 20, required=False)
    gust_share: float | None = schema.number(
        "part of the gust over the steady wind that is added to VREF, if the operator adds any", "", 0, 1,
        required=False)
    headwind_share: float | None = schema.number(
        "part of the steady headwind that is added to VREF, if the operator adds any", "", 0, 1, required=False)
    least_added_kt: float | None = schema.number("least additive in any wind", "kt", 0, 30, required=False)
    most_added_kt: float | None = schema.number("most additive for wind and gusts", "kt", 0, 30, required=False)
    call_outs: tuple[CallOut, ...] = schema.tables(CallOut, "calls, highest first", key="call_out")
    duties: tuple[Duty, ...] = schema.tables(Duty, "who flies and who monitors, in order", key="duty", unique="at")

    def faults(self) -> Iterator[FaultRow]:
        """A part of the gust and the most that is added go together."""
        if (self.gust_share is None) != (self.most_added_kt is None):
            yield "most_added_kt", "one of gust_share and most_added_kt", "both or neither", "Add the other."
        for key in ("headwind_share", "least_added_kt"):
            if self.gust_share is None and getattr(self, key) is not None:
                yield key, "no gust_share", "with gust_share and most_added_kt", "Add them, or remove it."
        if (self.least_added_kt or 0.0) > (30.0 if self.most_added_kt is None else self.most_added_kt):
            yield "least_added_kt", trimmed_quantity(self.least_added_kt or 0.0, "kt"), "at most most_added_kt", (
                "Correct one.")

    def rule_of_additive(self) -> Rule | None:
        """What is added to VREF for wind and gust, None without such a rule."""
        if self.gust_share is None or self.most_added_kt is None:
            return None
        return Rule(self.headwind_share or 0.0, self.gust_share, self.least_added_kt or 0.0, self.most_added_kt)


@dataclass(frozen=True, kw_only=True)
class OperatorGate:
    """One gate of the operator by which to be stabilised (see `lpv.decide.stabilised.Gate`)."""

    name: str = schema.text("name of the gate")
    height_ft: float = schema.number("height", "ft", 100, 3000)
    above: str = schema.choice("what the height counts from", ("airport elevation", "threshold"))
    slowest_kt: float | None = schema.number("least speed over the target", "kt", -30, 30, required=False)
    fastest_kt: float | None = schema.number("most speed over the target", "kt", -30, 50, required=False)
    sink_rate_fpm: float | None = schema.number("highest rate of descent", "ft/min", 300, 3000, required=False)
    lateral_dots: float | None = schema.number("most course deviation", "dots", 0.1, 2, required=False)
    vertical_dots: float | None = schema.number("most path deviation", "dots", 0.1, 2, required=False)
    bank_deg: float | None = schema.number("most bank", "deg", 1, 45, required=False)
    required: tuple[str, ...] = schema.texts("what has to be done by then: " + ", ".join(f'"{word}"' for word in DONE))

    def faults(self) -> Iterator[FaultRow]:
        """A gate limits something, its speeds are in order, and what has to be done is known."""
        for word in self.required:
            if word not in DONE:
                yield "required", f'"{word}"', ", ".join(DONE), "Correct the words."
        if self.slowest_kt is not None and self.fastest_kt is not None and self.slowest_kt > self.fastest_kt:
            allowed = f"at least {trimmed_quantity(self.slowest_kt, 'kt')}"
            yield "fastest_kt", trimmed_quantity(self.fastest_kt, "kt"), allowed, "Correct one."


@dataclass(frozen=True, kw_only=True)
class Equipment:
    """What the type is equipped and approved for."""

    sbas_class: int | None = schema.whole("operational class of the SBAS receiver", "", 1, 4, required=False)
    best_level: str = _rule("best_level")
    lp: str = schema.choice("LP minima: whether the flight manual says so and the operator allows it", APPROVED)
    baro_vnav: str = _rule("baro_vnav")
    receivers: int | None = schema.whole(
        "independent receivers of that class, or of GPS where there is no SBAS", "", 1, 3, required=False)
    fde: str | None = schema.choice(
        "whether a receiver without SBAS detects and excludes faulty satellites", ("yes", "no"), required=False)

    def faults(self) -> Iterator[FaultRow]:
        """No better level than the receiver's class serves; without SBAS, none but LNAV."""
        levels = RULES["best_level"][1]
        best = LEVEL_OF_CLASS[self.sbas_class] if self.sbas_class else "LNAV"
        if levels.index(self.best_level) < levels.index(best):
            what = f"a receiver of class {self.sbas_class}" if self.sbas_class else "no SBAS receiver (no sbas_class)"
            yield "best_level", self.best_level, f"{best} or less with {what}", "Correct the level or the class."
        if self.lp == "approved" and best != "LPV":
            what = f"a receiver of class {self.sbas_class}" if self.sbas_class else "no SBAS receiver (no sbas_class)"
            yield ("lp", self.lp, f"not approved with {what}: LP takes the data block that LPV takes",
                   "Correct the approval or the class.")


@dataclass(frozen=True, kw_only=True)
class SourceRow:
    """One guidance source: when it is offered, what selects it, what takes it away.

    The order of the rows is the order of precedence; see `lpv.modes.rules.Source`.
    """

    name: str = schema.choice("which source", SOURCES)
    offered: tuple[str, ...] = schema.choices("what must hold for it to be selected; nothing: always", CONDITIONS)
    guides_while: tuple[str, ...] = schema.choices("what must hold besides for it to guide", CONDITIONS)
    selected_by: tuple[str, ...] = schema.choices("what selects it", SELECTED_BY)
    removed_by: tuple[str, ...] = schema.choices("what takes it away, besides selecting another", REMOVED_BY)

    def faults(self) -> Iterator[FaultRow]:
        """Something selects it; nothing stands there that its kind cannot do."""
        if not self.selected_by:
            yield ("selected_by", "nothing", ", ".join(SELECTED_BY), "State what selects it, or leave the source out.")
        odd = [word for word in self.selected_by if self.name == FMS and word not in FOR_FMS]
        if odd:
            yield ("selected_by", f'"{odd[0]}"', f"for {FMS}: {', '.join(FOR_FMS)}",
                   "It has no approach of its own that is loaded, armed or captured.")


@dataclass(frozen=True, kw_only=True)
class Modes:
    """The behaviour of the modes: one choice for every rule of `lpv.modes.rules`, and its lists."""

    RENAMED: ClassVar[dict[str, str]] = {
        "selector": "source_control",
        "selector_after_landing": "removed_by of each [[source]]",
        "selector_after_go_around": "removed_by of each [[source]]",
        "selector_after_power": "removed_by of each [[source]]",
        "selector_off_shows": "selected_by of each [[source]]",
        "localizer_with_selector_on": "guides_while and offered of each [[source]]",
        "arming": "arming_needs",
        "arming_inside_pfaf": 'arming_needs, with "before the PFAF" for refused',
        "vertical_first": "vertical_arms and vertical_capture",
        "when_source_lost": "when_lateral_lost and when_vertical_lost",
        "level_after_loss": "level_returns_outside and level_returns_inside",
    }
    source_control: str = _rule("source_control")
    approach_after_landing: str = _rule("approach_after_landing")
    approach_after_power: str = _rule("approach_after_power")
    tuning_after_power: str = _rule("tuning_after_power")
    armed_by: tuple[str, ...] = _words("armed_by")
    arming_needs: tuple[str, ...] = _words("arming_needs")
    arming_too_early: str | None = _rule("arming_too_early", required=False)
    captures_from: str = _rule("captures_from")
    vertical_arms: str = _rule("vertical_arms")
    vertical_capture: str = _rule("vertical_capture")
    path_from_above: str = _rule("path_from_above")
    fms_lateral: str = _rule("fms_lateral")
    when_lateral_lost: str = _rule("when_lateral_lost")
    when_vertical_lost: str = _rule("when_vertical_lost")
    recapture: str = _rule("recapture")
    autopilot_after_loss: str = _rule("autopilot_after_loss")
    autopilot_at_level_change: str | None = _rule("autopilot_at_level_change", required=False)
    autopilot_at_go_around: str | None = _rule("autopilot_at_go_around", required=False)
    localizer_tuning: str | None = _rule("localizer_tuning", required=False)
    level_falls_outside: str = _rule("level_falls_outside")
    level_falls_inside: str = _rule("level_falls_inside")
    level_returns_outside: str = _rule("level_returns_outside")
    level_returns_inside: str = _rule("level_returns_inside")
    go_around: str = _rule("go_around")
    go_around_roll: str = _rule("go_around_roll")
    go_around_pitch: str = _rule("go_around_pitch")
    announced: tuple[str, ...] = _words("announced")

    def faults(self) -> Iterator[FaultRow]:
        """Something arms the approach; what waits outside the arming distance is said where there is one; nothing is
        said of the autopilot at the selection of a go-around where none can be selected."""
        if not self.armed_by:
            yield "armed_by", "nothing", ", ".join(LISTS["armed_by"][1]), "Say what arms the approach."
        if (self.arming_too_early is not None) != ("the arming distance" in self.arming_needs):
            yield ("arming_too_early", f'"{self.arming_too_early}"' if self.arming_too_early else "nothing",
                   'one of its choices with "the arming distance" in arming_needs, nothing otherwise',
                   "Add it or remove it.")
        if self.go_around == BY_HAND and self.autopilot_at_go_around is not None:
            yield ("autopilot_at_go_around", f'"{self.autopilot_at_go_around}"',
                   f'nothing with go_around = "{BY_HAND}": there is no go-around mode whose selection could keep or '
                   "disconnect the autopilot, the crew does it", "Remove it, or correct go_around.")
        if "the FMS lateral mode" in (*self.armed_by, *self.arming_needs) and self.fms_lateral == "none":
            yield ("fms_lateral", '"none"', "another choice where the FMS lateral mode arms or is needed",
                   "Correct one of them.")
        if self.captures_from == "FMS lateral only" and self.fms_lateral == "none":
            yield "captures_from", '"FMS lateral only"', "another choice with fms_lateral = \"none\"", "Correct one."

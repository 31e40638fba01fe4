"""Aircraft files: one TOML file per type, read strictly, and its modes proven.

    [type]              # name, approach category
    [landing]           # weights;  [[landing.vref]]  reference speeds
    [flying]            # bank, roll, thrust, tailwind
    [[drag]]            # how fast it slows down, by configuration;  [speed_brake]  what can be added
    [[schedule]]        # configuration and speed on an approach, in order
    [capture]           # when armed guidance is captured
    [cockpit]           # eyes, antenna, cut-off angle
    [go_around]         # reaction, rotation, climb
    [operator]          # minima;  [[operator.call_out]]  calls
    [[gate]]            # the operator's own gates, if it has any
    [equipment]         # SBAS receiver, best level, baro-VNAV
    [[source]]          # guidance sources, in order of precedence
    [modes]             # behaviour, one choice of words for every rule
    [labels]            # what the type's own cockpit calls things

Every key, with its unit, range and meaning, stands in `lpv.aircraft.schema`; the rules of the modes in
`lpv.modes.rules`, their words in `lpv.modes.meanings`.  A type whose modes break one of the properties of
`lpv.modes.properties`, which are those of a regulation, is a fault of the file: it names a shortest sequence of
events that shows it.  Any other design is described, with the traps that it has (`lpv.modes.traps`).
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import dataclasses
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from pathlib import Path

from lpv.aircraft.schema import (
    DISTANCES,
    Capture,
    Cockpit,
    Drag,
    Equipment,
    Flying,
    GoAround,
    Landing,
    Modes,
    Operator,
    OperatorGate,
    SourceRow,
    SpeedBrake,
    Step,
    Type,
)
from lpv.approach.schema import FaultRow
from lpv.core.errors import DomainError, in_range
from lpv.core.text import degrees, exact, quantity, trimmed_quantity
from lpv.core.units import FPM_PER_KT
from lpv.decide.category import category_for_vref
from lpv.decide.stabilised import Gate
from lpv.files import named_file, schema
from lpv.files import toml_reader as tomlfile
from lpv.modes.exploration import Exploration, explore, faults_of
from lpv.modes.machine import has_distance
from lpv.modes.rules import RULES, TAKEN_AWAY, Rules, Source, selection_fields
from lpv.motion import energy
from lpv.motion.energy import gravity_kt_per_s, level_deceleration_kt_per_s

CLEAN = "clean"
USUAL_ANGLE_DEG = 3.0
NO_LIMIT_KT = 999.0


def _kt_per_s(rate: float) -> str:
    return trimmed_quantity(rate, "kt/s", 0.001)


def _label(neutral: str) -> str:
    field: str = schema.text(f"the cockpit's label for: {neutral}", longest=40, required=False)
    return field


@dataclass(frozen=True, kw_only=True)
class Labels:
    """What the type's own cockpit calls things; None where the neutral word is used."""

    source_selector: str | None = _label("source selector")
    sbas: str | None = _label("SBAS as guidance source")
    ils: str | None = _label("ILS as guidance source")
    fms: str | None = _label("FMS lateral navigation")
    arm: str | None = _label("arm approach")
    lateral_armed: str | None = _label("lateral armed")
    lateral_captured: str | None = _label("lateral captured")
    vertical_armed: str | None = _label("vertical armed")
    vertical_captured: str | None = _label("vertical captured")
    go_around: str | None = _label("go-around")


@dataclass(frozen=True, kw_only=True)
class Aircraft:
    """One type of aircraft.  slug is the file's name."""

    # The phone gets the rules that the modes make, and reads nothing of the others.
    NOT_SENT = ("labels", "modes", "sources", "schedule", "drag", "speed_brake", "capture", "cockpit")

    type: Type = schema.table(Type, "which type it is")
    landing: Landing = schema.table(Landing, "weights and reference speeds")
    flying: Flying = schema.table(Flying, "how it turns, and what thrust it has")
    drag: tuple[Drag, ...] = schema.tables(
        Drag, "drag by configuration: how fast it slows down in level flight at idle; between rows a straight line "
        "holds, outside them the nearest row", least=2)
    speed_brake: SpeedBrake | None = schema.table(SpeedBrake, "drag that can be added", required=False)
    schedule: tuple[Step, ...] = schema.tables(
        Step, "configuration and speed on an approach, in order", least=1, unique="label")
    capture: Capture = schema.table(Capture, "when armed guidance is captured")
    cockpit: Cockpit = schema.table(Cockpit, "eyes, antenna and cut-off angle")
    go_around: GoAround = schema.table(GoAround, "how fast a go-around becomes a climb")
    operator: Operator = schema.table(Operator, "what the operator allows")
    gates: tuple[OperatorGate, ...] = schema.tables(OperatorGate, "gates", unique="name", key="gate")
    equipment: Equipment = schema.table(Equipment, "what it is equipped and approved for")
    sources: tuple[SourceRow, ...] = schema.tables(
        SourceRow, "guidance sources, in order of precedence", least=1, most=3, unique="name", key="source")
    modes: Modes = schema.table(Modes, "how the modes behave")
    labels: Labels | None = schema.table(Labels, "the cockpit's own labels", required=False)
    slug: str = ""

    def faults(self) -> Iterator[FaultRow]:
        """Category and speeds agree, the schedule is in order, and the modes keep their properties."""
        yield from self._type_faults()
        amiss = list(self._schedule_faults())
        yield from amiss
        if not amiss:
            yield from self._drag_faults()
            yield from self._climb_faults()
        amiss = list(self._source_faults())
        yield from amiss
        if not amiss:
            yield from self._distance_faults()
            for fault in faults_of(self.exploration, ""):
                yield fault.key, fault.found, fault.allowed, fault.action

    def _drag_faults(self) -> Iterator[FaultRow]:
        """Drag is given for "clean" and for every step of the schedule, speeds rising; whatever is extended adds to
        it, and in landing configuration idle slows the type down on a 3 degree path."""
        names = [CLEAN, *[step.label for step in self.schedule]]
        configurations = list(dict.fromkeys(row.configuration for row in self.drag))
        for name in configurations:
            if name not in names:
                yield ("drag", f'configuration "{name}"', ", ".join(names), "Correct the label.")
        for name in names:
            if name not in configurations:
                yield "drag", f'none for "{name}"', "at least one row", "Add the row."
        if set(configurations) == set(names):
            yield from self._drag_values_faults(names)

    def _climb_faults(self) -> Iterator[FaultRow]:
        """The climb of a go-around at the last target speed is what the thrust gives: g sin of its angle is no more
        than the acceleration in level flight."""
        thrust, speed_kt = self.flying.thrust_kt_per_s, self.target_speeds_kt(self.landing.max_weight_lb)[-1]
        climb_fpm = self.go_around.climb_rate_fpm
        sine = min(1.0, climb_fpm / (speed_kt * FPM_PER_KT))
        if energy.GRAVITY_KT_PER_S * sine > thrust:
            most_fpm = thrust / energy.GRAVITY_KT_PER_S * speed_kt * FPM_PER_KT
            yield ("go_around.climb_rate_fpm", f"{quantity(climb_fpm, 'ft/min')} at {quantity(speed_kt, 'kt')}",
                   f"at most {quantity(most_fpm, 'ft/min')} with flying.thrust_kt_per_s = {exact(thrust)}",
                   "Correct one of them.")

    def _drag_values_faults(self, names: list[str]) -> Iterator[FaultRow]:
        for name in names:
            speeds = [kt for kt, _ in self.drag_rows(name)]
            if any(fast <= slow for slow, fast in pairwise(speeds)):
                yield "drag", f'speeds {speeds} of "{name}"', "rising from row to row", "Reorder the rows."
                return
        for cleaner, other in pairwise(names):
            for kt, rate in self.drag_rows(other):
                less = level_deceleration_kt_per_s(self.drag_rows(cleaner), kt)
                if rate < less:
                    yield ("drag", f'{_kt_per_s(rate)} for "{other}" at {quantity(kt, "kt")}, '
                           f'{_kt_per_s(less)} for "{cleaner}"',
                           "more drag with more extended", "Correct one of them.")
        needed = gravity_kt_per_s(USUAL_ANGLE_DEG)
        target_kt = self.target_speeds_kt(self.landing.max_weight_lb)[names.index(self.landing.configuration) - 1]
        rate_kt_per_s = level_deceleration_kt_per_s(self.drag_rows(self.landing.configuration), target_kt)
        if rate_kt_per_s <= needed:
            landing, angle = self.landing.configuration, degrees(USUAL_ANGLE_DEG, 1)
            yield ("drag", f'{_kt_per_s(rate_kt_per_s)} for "{landing}" at {quantity(target_kt, "kt")}',
                   f"more than {_kt_per_s(needed)}, which gravity adds on a path of {angle}: with less "
                   "it gains speed there at idle and cannot hold its target", "Correct it.")

    def drag_rows(self, configuration: str) -> list[tuple[float, float]]:
        """(airspeed kt, deceleration in level flight at idle kt/s) of a configuration, for `lpv.motion.energy`."""
        return [(row.speed_kt, row.level_idle_kt_per_s) for row in self.drag if row.configuration == configuration]

    def energy_steps(self, weight_lb: float, pfaf_nm: float) -> list[energy.Step]:
        """The schedule for `lpv.motion.energy`, at a weight and with the PFAF so far from the threshold.

        DomainError as `vref_kt`.
        """
        return [
            energy.Step(
                pfaf_nm + step.before_pfaf_nm, speed_kt, step.limit_kt or NO_LIMIT_KT, step.takes_s,
                self.drag_rows(step.label))
            for step, speed_kt in zip(self.schedule, self.target_speeds_kt(weight_lb), strict=True)
        ]

    def _source_faults(self) -> Iterator[FaultRow]:
        """The sources go together with each other, with their control and with the best level."""
        if not any(TAKEN_AWAY in row.selected_by and not row.offered for row in self.sources):
            yield ("source", "no source that is always there",
                   f'one without `offered` and with "{TAKEN_AWAY}" in selected_by', "Say what is shown when no other "
                   "source is selected.")
        controlled = [row.name for row in self.sources if "its control" in (*row.selected_by, *row.removed_by)]
        if (self.modes.source_control == "none") == bool(controlled):
            yield ("modes.source_control", f'"{self.modes.source_control}"',
                   '"none" where no [[source]] has "its control", another choice where one has',
                   "Correct the control or the sources.")
        if self.equipment.best_level != "LNAV" and "SBAS" not in [row.name for row in self.sources]:
            yield ("source", "no source SBAS", f"one, with best_level = \"{self.equipment.best_level}\"",
                   "Add the source, or correct the level.")

    def _distance_faults(self) -> Iterator[FaultRow]:
        """The arming distance is there where something depends on it, and the lateral bound of the path likewise."""
        if has_distance(self.rules) != (self.capture.arms_within_nm is not None):
            yield ("capture.arms_within_nm", "nothing" if self.capture.arms_within_nm is None else "a distance",
                   "a number where the arming distance stands in arming_needs, armed_by or a selected_by, nothing "
                   "otherwise", "Add it or remove it.")
        alone = self.modes.vertical_capture == "on its own"
        if alone != (self.capture.vertical_lateral_dots is not None):
            yield ("capture.vertical_lateral_dots", "nothing" if alone else "a number",
                   'a number with vertical_capture = "on its own": a path counts near its course only; nothing '
                   "otherwise", "Add it or remove it.")

    def _type_faults(self) -> Iterator[FaultRow]:
        """The approach category is that of VREF at the maximum landing weight (14 CFR 97.3)."""
        category = category_for_vref(self.vref_kt(self.landing.max_weight_lb))
        if category != self.type.category:
            yield ("type.category", self.type.category,
                   f"{category}, by VREF at the maximum landing weight (14 CFR 97.3)",
                   "Correct the category or the speeds.")

    def _schedule_faults(self) -> Iterator[FaultRow]:
        """The schedule is in the order flown, its speeds do not rise and are within limits, and one of its steps is
        the usual landing configuration."""
        speeds = self.target_speeds_kt(self.landing.max_weight_lb)
        for number, step in enumerate(self.schedule, 1):
            if step.limit_kt is not None and speeds[number - 1] > step.limit_kt:
                yield (f"schedule[{number}]",
                       f"{trimmed_quantity(speeds[number - 1], 'kt')} at the maximum landing weight",
                       f"at most limit_kt, {trimmed_quantity(step.limit_kt, 'kt')}", "Correct one of them.")
            if number > 1 and step.before_pfaf_nm > self.schedule[number - 2].before_pfaf_nm:
                yield (f"schedule[{number}].before_pfaf_nm",
                       f"{trimmed_quantity(step.before_pfaf_nm, 'NM')}, before the step above it",
                       "steps in the order flown", "Reorder the steps.")
            if number > 1 and speeds[number - 1] > speeds[number - 2]:
                yield (f"schedule[{number}]", f"{trimmed_quantity(speeds[number - 1], 'kt')} after "
                       f"{trimmed_quantity(speeds[number - 2], 'kt')}",
                       "a speed that does not rise", "Correct the speeds or their order.")
        if self.landing.configuration not in [step.label for step in self.schedule]:
            yield ("landing.configuration", self.landing.configuration, "the label of a step of the schedule",
                   "Correct the label, or add the step.")

    @cached_property
    def rules(self) -> Rules:
        """The rules of its modes, for `lpv.modes.machine`."""
        chosen = {field.name: getattr(self.modes, field.name) for field in dataclasses.fields(self.modes)}
        for key in ("arming_too_early", "autopilot_at_level_change", "autopilot_at_go_around", "localizer_tuning"):
            chosen[key] = chosen[key] or RULES[key][1][0]
        sources = tuple(
            Source(row.name, row.offered, row.guides_while, row.selected_by, row.removed_by) for row in self.sources)
        return Rules(
            best_level=self.equipment.best_level, baro_vnav=self.equipment.baro_vnav, sources=sources, **chosen)

    def derived_fields(self) -> dict[str, object]:
        """What the phone needs of the rules of its modes, and the distance within which it arms."""
        return {"rules": selection_fields(self.rules), "arm_within_nm": self.arm_within_nm}

    @property
    def exploration(self) -> Exploration:
        """All that its modes can get into, and what is proven of them."""
        return explore(self.rules)

    def vref_kt(self, weight_lb: float, configuration: str = "") -> float:
        """VREF at a weight, between the rows of the file by a straight line; not rounded.

        configuration: the usual one unless given.  DomainError outside the rows, or if there are none.
        """
        name = configuration or self.landing.configuration
        rows = [row for row in self.landing.vref if row.configuration == name]
        if not rows:
            raise DomainError(f"landing configuration: found {name}; allowed: those with reference speeds.")
        in_range("landing weight", weight_lb, rows[0].weight_lb, rows[-1].weight_lb, "lb")
        for light, heavy in pairwise(rows):
            if weight_lb <= heavy.weight_lb:
                share = (weight_lb - light.weight_lb) / (heavy.weight_lb - light.weight_lb)
                return light.vref_kt + share * (heavy.vref_kt - light.vref_kt)
        return rows[0].vref_kt

    def target_speeds_kt(self, weight_lb: float) -> tuple[float, ...]:
        """The target speed of each step of the schedule at a weight; DomainError as `vref_kt`."""
        vref_kt = self.vref_kt(weight_lb)
        return tuple(
            vref_kt + step.above_vref_kt if step.above_vref_kt is not None else step.speed_kt or 0.0
            for step in self.schedule
        )

    @property
    def arm_within_nm(self) -> float | None:
        """Distance from the final course within which the approach is armed: the type's or, closer, the operator's.

        None where neither has such a rule; an arming distance from the PFAF or the airport is no distance from the
        course.
        """
        of_type = self.capture.arms_within_nm if self.capture.arms_within_of == DISTANCES[0] else None
        known = [nm for nm in (of_type, self.operator.arm_within_nm) if nm is not None]
        return min(known) if known else None

    def operator_gates(self) -> list[Gate]:
        """The operator's own gates, for `lpv.decide.stabilised`."""
        return [Gate(**dataclasses.asdict(gate)) for gate in self.gates]

    def label(self, key: str, neutral: str) -> str:
        """The cockpit's own label of this name (a field of Labels), else the neutral word.  Not escaped."""
        label: str | None = getattr(self.labels, key) if self.labels else None
        return label or neutral


# What no single key shows, for the page that lists it: each begins with one sentence that says what must hold.
CHECKS: tuple[Callable[..., Iterator[FaultRow]], ...] = (
    Landing.faults, Step.faults, Capture.faults, GoAround.faults, OperatorGate.faults, Equipment.faults,
    SourceRow.faults, Modes.faults,
    Aircraft._type_faults, Aircraft._schedule_faults, Aircraft._drag_faults, Aircraft._climb_faults,
    Aircraft._source_faults, Aircraft._distance_faults,
)


def read(path: Path | str) -> Aircraft:
    """The type in a file; DataError with every fault found in it."""
    return named_file.read(Path(path), Aircraft)


def read_text(text: str, name: str = "text") -> Aircraft:
    """The type in the text of a file; faults name the file `name`.  DataError with every fault."""
    return named_file.read_text(text, name, Aircraft)


def read_all(folder: Path | str) -> list[Aircraft]:
    """All types of a folder in the order of file names; DataError with every fault of every file."""
    return tomlfile.read_folder(Path(folder), read)

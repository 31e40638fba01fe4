"""The schedule of speed and configuration of a type on one approach, worked out by `lpv.motion.energy`.

Flown as planned: from the limit speed of the first step, true airspeed as at the altitude of the PFAF on a standard
day, level to the PFAF and then down the glidepath.  `lpv.intercept.planned` makes it of the records.
"""

from lpv.air.atmosphere import isa_temperature_c, true_airspeed_kt
from lpv.core.errors import above
from lpv.facts import value
from lpv.motion import energy
from lpv.path.profile import straight_path_distance_nm, straight_path_height_ft

FASTEST_KT = 300.0  # beyond which nobody meets a PFAF


class Descent:
    """Where the glidepath of an approach is: altitudes in ft, the PFAF so many NM before the threshold."""

    def __init__(
        self, pfaf_nm: float, pfaf_ft: float, airport_ft: float, threshold_ft: float, tch_ft: float, angle_deg: float,
    ) -> None:
        self.pfaf_nm, self.pfaf_ft, self.airport_ft = pfaf_nm, pfaf_ft, airport_ft
        self.threshold_ft, self.tch_ft, self.angle_deg = threshold_ft, tch_ft, angle_deg

    def above_airport_nm(self, height_ft: float) -> float:
        """Where the path is so high above the airport."""
        return straight_path_distance_nm(
            self.airport_ft + height_ft, self.threshold_ft, self.tch_ft, self.angle_deg)

    def height_ft(self, distance_nm: float) -> float:
        """Height above the airport that is flown: level at the altitude of the PFAF, then on the path."""
        path_ft = straight_path_height_ft(distance_nm, self.threshold_ft, self.tch_ft, self.angle_deg)
        return min(self.pfaf_ft, path_ft) - self.airport_ft


class Slowed:
    """How a type slows down.

    labels: what each step sets;  steps: as it plans them, distances before the PFAF
    first_kt: the speed at which the first begins;  rows: drag before it
    spool_up_s: from idle to thrust;  brake_kt_per_s, brake_lowest_ft: what the speed brake adds, 0 for a type without
    one, and the height above the airport at which it is stowed
    """

    def __init__(
        self, labels: "list[str]", steps: "list[energy.Step]", first_kt: float, rows: "list[tuple[float, float]]",
        spool_up_s: float, brake_kt_per_s: float, brake_lowest_ft: float,
    ) -> None:
        self.labels, self.steps, self.first_kt, self.rows = labels, steps, first_kt, rows
        self.spool_up_s, self.brake_kt_per_s, self.brake_lowest_ft = spool_up_s, brake_kt_per_s, brake_lowest_ft


class Schedule:
    """What a schedule comes to on an approach.

    pfaf_nm, gate_nm: before the threshold; the gate is that for instrument conditions (fact gate_imc_ft)
    labels: what each step sets;  rows, steps, course: as `lpv.motion.energy.slow_down` takes them
    from_nm, first_kt: where and how fast it begins
    settled_s: for how long the last speed is held at the gate: what the thrust takes to come up from idle
    brake_kt_per_s, stowed_nm: what the speed brake adds, 0 for a type without one, and where it is stowed
    """

    def __init__(
        self, descent: Descent, of: Slowed, tailwind_kt: float = 0.0, late_nm: float = 0.0,
        step_nm: float = energy.STEP_NM,
    ) -> None:
        """late_nm: every step so much nearer to the threshold than planned.  DomainError as the modules used."""
        self.descent, self.pfaf_ft, self.pfaf_nm = descent, descent.pfaf_ft, descent.pfaf_nm
        self.gate_nm = descent.above_airport_nm(value("gate_imc_ft"))
        self.labels, self.first_kt, self.rows, self.settled_s = of.labels, of.first_kt, of.rows, of.spool_up_s
        planned = [step.later(-self.pfaf_nm) for step in of.steps]
        self.steps = [step.later(late_nm) for step in planned]
        self.from_nm = max(planned[0].begins_nm, self.steps[0].begins_nm)
        self.brake_kt_per_s = of.brake_kt_per_s
        self.stowed_nm = descent.above_airport_nm(of.brake_lowest_ft) if of.brake_kt_per_s else self.gate_nm
        factor = true_airspeed_kt(self.first_kt, self.pfaf_ft, isa_temperature_c(self.pfaf_ft)) / self.first_kt
        self.course = energy.Course(self.pfaf_nm, descent.angle_deg, factor, tailwind_kt, step_nm, self.gate_nm)

    def flown(self) -> "list[energy.Moment]":
        """The way from the first step to the threshold."""
        return energy.slow_down(self.rows, self.steps, self.from_nm, self.first_kt, self.course)

    def flown_with_brake(self) -> "list[energy.Moment]":
        """The same with the speed brake out until it must be stowed."""
        return energy.slow_down(
            self.rows, self.steps, self.from_nm, self.first_kt, self.course, self.brake_kt_per_s,
            max(self.stowed_nm, self.gate_nm))

    def ready(self, moments: "list[energy.Moment]") -> bool:
        """Whether the aircraft is ready at the gate: all is set, at the last speed, and the thrust is up."""
        return energy.ready(moments, self.steps, self.gate_nm, self.settled_s)

    def ready_from_nm(self, moments: "list[energy.Moment]") -> float:
        """The place from which all is set, at the last speed, on the way to the gate; the gate itself if not before."""
        since_nm = self.gate_nm
        for moment in reversed(moments):
            if moment.distance_nm >= self.gate_nm - energy.NEAR_NM:
                if not energy.is_ready(moment, self.steps):
                    break
                since_nm = moment.distance_nm
        return since_nm

    def path_rate_kt_per_s(self, moment: "energy.Moment") -> float:
        """What idle takes off each second, kt/s, with what is set at a moment, were it on the path."""
        rows = self.steps[moment.moved - 1].rows if moment.moved else self.rows
        level = energy.level_deceleration_kt_per_s(rows, moment.airspeed_kt)
        return level - self.course.gravity_kt_per_s(self.pfaf_nm, moment.airspeed_kt)

    def energy_ft(self, moment: "energy.Moment") -> float:
        """Energy height above the airport at a moment: its height, and what its speed is worth."""
        true_kt = moment.airspeed_kt * self.course.true_per_indicated
        return energy.energy_height_ft(self.descent.height_ft(moment.distance_nm), true_kt)

    def latest_last_step_nm(self) -> "float | None":
        """The last place of the last step for which the aircraft is ready at the gate; None if there is none."""
        return energy.latest_last_step_nm(
            self.rows, self.steps, self.from_nm, self.first_kt, self.course, self.gate_nm, self.settled_s)

    def latest_shift_nm(self) -> "float | None":
        """How much later the whole schedule may begin and still be ready at the gate; None if not even far sooner."""
        return energy.latest_shift_nm(
            self.rows, self.steps, self.from_nm, self.first_kt, self.course, self.gate_nm, self.settled_s)

    def fastest_at_pfaf_kt(self, moved: int) -> "float | None":
        """The highest speed at the PFAF, with so many steps moved, from which it is ready at the gate.

        From there idle, every lever as soon as its limit allows.  At most the limit of the last step that has moved;
        None if there is no such speed.
        """
        return self._fastest_kt(moved, 0.0)

    def fastest_at_pfaf_with_brake_kt(self, moved: int) -> "float | None":
        """The same with the type's speed brake, out to the lowest height for it; DomainError for a type without."""
        above("speed brake", self.brake_kt_per_s, 0.0, "kt/s")
        return self._fastest_kt(moved, self.brake_kt_per_s)

    def _fastest_kt(self, moved: int, extra_kt_per_s: float) -> "float | None":
        last_kt = self.steps[-1].target_kt
        left = [
            energy.Step(self.pfaf_nm, last_kt, step.limit_kt, step.takes_s, step.rows) for step in self.steps[moved:]]
        rows, highest_kt = self.rows, FASTEST_KT
        if moved:
            rows, highest_kt = self.steps[moved - 1].rows, min(FASTEST_KT, self.steps[moved - 1].limit_kt)
        if not left:  # all set: what is left is to slow down
            left = [energy.Step(self.pfaf_nm, last_kt, highest_kt, 0.0, rows)]
        return energy.fastest_kt(
            rows, left, self.pfaf_nm, highest_kt, self.course, self.gate_nm, self.settled_s, extra_kt_per_s,
            max(self.stowed_nm, self.gate_nm))


class Slowing:
    """Whether a configuration slows down on the path.

    label:  what is set;  airspeed_kt: the speed that it is flown at
    level_kt_per_s, path_kt_per_s: deceleration at idle in level flight and on the path; negative: it gains speed
    held_deg: the steepest path on which idle holds the speed
    """

    def __init__(
        self, label: str, airspeed_kt: float, level_kt_per_s: float, path_kt_per_s: float, held_deg: float,
    ) -> None:
        self.label, self.airspeed_kt = label, airspeed_kt
        self.level_kt_per_s, self.path_kt_per_s, self.held_deg = level_kt_per_s, path_kt_per_s, held_deg

    def on_path(self) -> str:
        """Whether it gains or loses speed on the path, in words; holding it counts as losing none."""
        return "gains" if self.path_kt_per_s < 0.0 else "loses"

    def path_kt_per_nm(self) -> float:
        """What it loses on the path in each mile through the air."""
        return self.path_kt_per_s * 3600.0 / self.airspeed_kt


def slowing(schedule: Schedule) -> "list[Slowing]":
    """Each configuration at the speed that it is slowed down from, clean first, on the path of the approach."""
    speeds = [schedule.first_kt] + [step.target_kt for step in schedule.steps]
    named = [("clean", schedule.rows)] + [
        (label, step.rows) for label, step in zip(schedule.labels, schedule.steps)]  # noqa: B905
    stages = []
    for (label, rows), airspeed_kt in zip(named, speeds):  # noqa: B905
        level = energy.level_deceleration_kt_per_s(rows, airspeed_kt)
        angle_deg = schedule.course.air_angle_deg(schedule.pfaf_nm, airspeed_kt)
        stages.append(Slowing(
            label, airspeed_kt, level, energy.path_deceleration_kt_per_s(level, angle_deg),
            energy.steepest_held_deg(level)))
    return stages

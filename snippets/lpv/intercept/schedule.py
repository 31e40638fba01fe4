"""The schedule of speed and configuration of a type on one approach, worked out by `lpv.motion.energy`.

`approach` and `aircraft` are the records.  Flown as planned: from the limit speed of the first step, at the weight
given, true airspeed as at the altitude of the PFAF on a standard day, level to the PFAF and then down the glidepath.
"""

from lpv.air.atmosphere import isa_temperature_c, true_airspeed_kt
from lpv.core.errors import DomainError, above
from lpv.decide.final_path import descent_altitude_ft, distance_at_altitude_nm, glidepath, pfaf_distance_nm
from lpv.facts import value
from lpv.motion import energy

FASTEST_KT = 300.0  # beyond which nobody meets a PFAF

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.aircraft.record import Aircraft
    from lpv.approach.record import Approach


class Schedule:
    """What a schedule comes to on an approach.

    pfaf_nm, gate_nm: before the threshold; the gate is that for instrument conditions (fact gate_imc_ft)
    rows, steps, course: as `lpv.motion.energy.slow_down` takes them;  from_nm, first_kt: where and how fast it begins
    settled_s: for how long the last speed is held at the gate: what the thrust takes to come up from idle
    brake_kt_per_s, stowed_nm: what the speed brake adds, 0 for a type without one, and where it is stowed
    """

    def __init__(
        self, approach: "Approach", aircraft: "Aircraft", weight_lb: float, tailwind_kt: float = 0.0,
        late_nm: float = 0.0,
    ) -> None:
        """late_nm: every step so much nearer to the threshold than the file says.  DomainError as the modules used."""
        pfaf_ft = approach.pfaf.altitude_ft
        if pfaf_ft is None:
            raise DomainError("altitude of the FAF: found none; allowed: a number.")
        self.approach, self.aircraft, self.pfaf_ft = approach, aircraft, pfaf_ft
        self.pfaf_nm = pfaf_distance_nm(approach)
        self.gate_nm = self._above_airport_nm(value("gate_imc_ft"))
        planned = aircraft.energy_steps(weight_lb, self.pfaf_nm)
        first_limit_kt = aircraft.schedule[0].limit_kt
        self.first_kt = planned[0].target_kt if first_limit_kt is None else first_limit_kt
        self.from_nm = planned[0].begins_nm
        self.steps = [step.later(late_nm) for step in planned]
        self.rows, self.settled_s = aircraft.drag_rows("clean"), aircraft.flying.spool_up_s
        brake = aircraft.speed_brake
        self.brake_kt_per_s = 0.0 if brake is None else brake.adds_kt_per_s
        self.stowed_nm = self.gate_nm if brake is None else self._above_airport_nm(brake.lowest_ft)
        factor = true_airspeed_kt(self.first_kt, pfaf_ft, isa_temperature_c(pfaf_ft)) / self.first_kt
        self.course = energy.Course(self.pfaf_nm, glidepath(approach)[2], factor, tailwind_kt)

    def _above_airport_nm(self, height_ft: float) -> float:
        """Where the path is so high above the airport."""
        return distance_at_altitude_nm(self.approach, self.approach.chart.airport_elevation_ft + height_ft)

    def flown(self) -> "list[energy.Moment]":
        """The way from the first step to the threshold."""
        return energy.slow_down(self.rows, self.steps, self.from_nm, self.first_kt, self.course)

    def height_ft(self, distance_nm: float) -> float:
        """Height above the airport that is flown: level at the altitude of the PFAF, then on the path."""
        path_ft = descent_altitude_ft(self.approach, distance_nm)
        return min(self.pfaf_ft, path_ft) - self.approach.chart.airport_elevation_ft

    def energy_ft(self, moment: "energy.Moment") -> float:
        """Energy height above the airport at a moment: its height, and what its speed is worth."""
        true_kt = moment.airspeed_kt * self.course.true_per_indicated
        return energy.energy_height_ft(self.height_ft(moment.distance_nm), true_kt)

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

    def path_kt_per_nm(self) -> float:
        """What it loses on the path in each mile through the air."""
        return self.path_kt_per_s * 3600.0 / self.airspeed_kt


def slowing(schedule: Schedule) -> "list[Slowing]":
    """Each configuration at the speed that it is slowed down from, clean first, on the path of the approach."""
    speeds = [schedule.first_kt, *[step.target_kt for step in schedule.steps]]
    named = [("clean", schedule.rows)] + [
        (step.label, steps.rows) for step, steps in zip(schedule.aircraft.schedule, schedule.steps)]  # noqa: B905
    found = []
    for (label, rows), airspeed_kt in zip(named, speeds):  # noqa: B905
        level = energy.level_deceleration_kt_per_s(rows, airspeed_kt)
        angle_deg = schedule.course.air_angle_deg(schedule.pfaf_nm, airspeed_kt)
        found.append(Slowing(
            label, airspeed_kt, level, energy.path_deceleration_kt_per_s(level, angle_deg),
            energy.steepest_held_deg(level)))
    return found

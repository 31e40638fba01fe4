"""A scenario while it is flown: what happens changes the modes, and the modes change what is flown.

`Run` keeps what changes only when something happens.  When that is, `lpv.simulate.watch` says.
"""

from dataclasses import replace

from lpv.aircraft.record import CLEAN
from lpv.core.spoken import spoken
from lpv.core.text import course, course_digits, feet, quantity, trimmed_quantity
from lpv.core.units import FPS_PER_KT, FT_PER_NM, degrees_360
from lpv.decide.stabilised import Gate
from lpv.modes.annunciation import changes
from lpv.modes.autopilot import ENGAGED, OFF, lets_go, lost_guidance
from lpv.modes.machine import run, step
from lpv.modes.state import State, lateral_source
from lpv.simulate.descent import Bound, Descent, descent_along, off_bound
from lpv.simulate.legs import Leg
from lpv.simulate.log import annunciated, judged, sample
from lpv.simulate.point_mass import GRAVITY_FPS2, Orders
from lpv.simulate.records import JudgedGate, Moment, Sample
from lpv.simulate.route import Route
from lpv.simulate.scenario import Event
from lpv.simulate.setting import Setting

USUAL_RATE_FPS = 1000.0 / 60.0
LANDED_WITHIN_NM = 0.6  # behind the threshold
LANDED_BESIDE_FT = 75.0  # half of a runway 150 ft wide


class Run:
    """One flight while it is flown.

    time_s, point, state, orders: now
    pending: events to come;  happened_s: when the last one happened
    rotation_s: when the rotation of a go-around begins, None without one
    passed:  names of what happens once and has happened;  gates_left: gates to come, highest first
    route:   the coded legs that the FMS flies, None where it flies none
    descent: the descent along them, None where none is flown;  own_level: whether the crew flies an altitude of its own
    autopilot: engaged or off; "" where the scenario tells nothing of it
    sides:   on which side (-1 or 1) of something the waiting for it began; kept by `lpv.simulate.watch`
    """

    def __init__(self, setting: Setting) -> None:
        begin = setting.scenario.start
        self.setting, self.rules = setting, setting.aircraft.rules
        self.time_s, self.point = 0.0, setting.start()
        self.autopilot = begin.autopilot or ""
        self.state = run(begin.set_up, self.rules)
        self.orders = Orders(
            self.point.heading, self.point.altitude_ft, USUAL_RATE_FPS, begin.speed_kt,
            drag=tuple(setting.aircraft.drag_rows(CLEAN)))
        self.moments: list[Moment] = []
        self.gates: list[JudgedGate] = []
        self.passed: set[str] = set()
        self.sides: dict[str, float] = {}
        self.gates_left = self._gates_ahead()
        self.pending: list[Event] = list(setting.scenario.events)
        self.happened_s = 0.0
        self.rotation_s: float | None = None
        self.next_speed = 0
        self.set_at_s: list[float] = []
        self.moved = 0
        self.ending = ""
        self.route = self._route(setting.procedure.joining)
        self.descent: Descent | None = None
        self.own_level = False
        self._order(self.state)
        self.note("start", "The flight begins")

    def _gates_ahead(self) -> list[Gate]:
        altitude_ft = self.setting.gate_altitude_ft
        ahead = [gate for gate in self.setting.gates if altitude_ft(gate) < self.setting.scenario.start.altitude_ft]
        return sorted(ahead, key=altitude_ft, reverse=True)

    def _route(self, legs: tuple[Leg, ...]) -> Route | None:
        return Route(legs, self.setting.air, self.setting.limits) if legs else None

    @property
    def leg(self) -> Leg | None:
        """The coded leg that the FMS lateral mode flies now."""
        return self.route.active if self.route and self.state.fms else None

    def sample(self) -> Sample:
        """The sample of this moment."""
        active = self.route.active if self.route else None
        return sample(self.setting, self.time_s, self.point, self.state, self.orders, self.configuration(),
                      self.autopilot, active.guide if active else None)

    def configuration(self) -> str:
        """The last step of the schedule that has finished moving, "" before the first."""
        done = [row.label for row, at in zip(self.setting.steps, self.set_at_s, strict=False) if at <= self.time_s]
        return done[-1] if done else ""

    def note(self, key: str, what: str, changed: tuple[str, ...] = ()) -> None:
        """Add a moment."""
        self.moments.append(
            Moment(key, what, changed, annunciated(self.state, self.rules, self.autopilot), self.state, self.sample()))

    # What can happen.

    def apply(self, event: str) -> None:
        """An event of the modes."""
        before = self.state
        self.state = step(before, event, self.rules)
        self._order(before)
        if event.startswith("path reached"):
            self.sides.pop("path", None)
        refused = self._why_not(event) if self.state == before else ""
        words = spoken(event)
        self.note(event, words[0].upper() + words[1:] + refused, changes(before, self.state, self.rules))
        self._let_go(before, event)
        self._fail_gates(before)
        self._tell_scale(before)

    def _let_go(self, before: State, event: str) -> None:
        """An engaged autopilot that disconnects with what happened, as the type's does."""
        why = lets_go(before, event, self.state, self.rules) if self.autopilot == ENGAGED else ""
        if why:
            self._switch_autopilot(OFF, f"The autopilot disconnects: {why}")

    def _switch_autopilot(self, to: str, what: str) -> None:
        """The autopilot engaged or off, how high above the runway, and the type's lowest height for it."""
        was, self.autopilot = self.autopilot or OFF, to
        above_ft = self.point.altitude_ft - self.setting.approach.chart.threshold_elevation_ft
        lowest_ft = self.setting.aircraft.flying.autopilot_lowest_ft
        limit = "" if lowest_ft is None else f"; lowest for this type {feet(lowest_ft)}"
        changed = () if was == to else (f"autopilot: from {was} to {to}",)
        self.note("autopilot", f"{what}, {feet(above_ft)} above the runway{limit}", changed)

    def autopilot_too_low(self) -> None:
        """The lowest height for the autopilot, passed with it engaged on the approach."""
        lowest_ft = self.setting.aircraft.flying.autopilot_lowest_ft or 0.0
        self.once("autopilot low", f"The autopilot is still engaged below {feet(lowest_ft)} above the runway, the "
                  "lowest for this type: not allowed")

    def _fail_gates(self, before: State) -> None:
        """Guidance that was captured and is not any more, other than by a go-around, fails the gates already passed."""
        if self.state.phase in ("missed", "ground"):
            return
        lost = lost_guidance(before, self.state)
        failed = [gate.gate.name for gate in self.gates if lost and gate.stable]
        if failed:
            at = self.sample()
            self.gates = [replace(gate, lost=(f"{lost} lost", at)) if gate.stable else gate for gate in self.gates]
            self.note("gate lost", f"{lost[0].upper()}{lost[1:]} lost below the gate: no longer stabilized at "
                      + ", ".join(failed))

    def _tell_scale(self, before: State) -> None:
        """A full scale of the course deviation that changes at once with the modes."""
        nm = self.point.along_ft / FT_PER_NM
        guides = self.setting.shown(before), self.setting.shown(self.state)
        old, new = (feet(guide.course_scale_ft(nm)) if guide else None for guide in guides)
        if old is not None and new is not None and old != new and self.state.phase != "ground":
            self.note("scale", f"Full scale of the course deviation changes from {old} to {new}")

    def _why_not(self, event: str) -> str:
        """Why an event had no effect, as far as it is the type's arming distance."""
        capture = self.setting.aircraft.capture
        if event != "arm approach" or capture.arms_within_nm is None or self.state.near:
            return ", without effect"
        within = trimmed_quantity(capture.arms_within_nm, "NM")
        return f", without effect: farther than {within} from the {capture.arms_within_of}"

    def happen(self) -> None:
        """The next event of the scenario."""
        event = self.pending.pop(0)
        self.happened_s = self.time_s
        if event.heading_deg is not None:
            self.orders = replace(self.orders, heading=self.setting.heading(event.heading_deg))
            self.note("crew", f"Turn to heading {course_digits(event.heading_deg)}")
        if event.level_ft is not None and event.rate_fpm is not None:
            self.descent, self.own_level = None, True
            self.orders = replace(
                self.orders, altitude_ft=self.setting.air.true_ft(event.level_ft), rate_fps=event.rate_fpm / 60.0,
                climb_fps=None, descent=None)
            self.note("crew", f"Fly to {feet(event.level_ft)} at {quantity(event.rate_fpm, 'ft/min')}")
        if event.autopilot is not None:
            done = "engaged" if event.autopilot == ENGAGED else "disconnected"
            self._switch_autopilot(event.autopilot, f"Autopilot {done} by the crew")
        if event.does is not None:
            self.apply(event.does)

    def set_speed(self) -> None:
        """The target speed of the next step of the schedule."""
        speed_kt = self.setting.speeds_kt[self.next_speed]
        self.next_speed += 1
        self.orders = replace(self.orders, speed_kt=min(speed_kt, self.orders.speed_kt))

    def configure(self) -> None:
        """The configuration of the next step of the schedule, on its way."""
        row = self.setting.steps[len(self.set_at_s)]
        self.set_at_s.append(max([self.time_s, *self.set_at_s[-1:]]) + row.takes_s)
        self.note("configuration", row.label)

    def rotate(self) -> None:
        """The climb of a go-around, once the reaction time is over."""
        climb, chart = self.setting.aircraft.go_around, self.setting.approach.chart
        self.rotation_s = None
        top_ft = chart.missed.altitude_ft if chart.missed else self.setting.scenario.start.altitude_ft
        self.orders = replace(
            self.orders, climb_fps=None, altitude_ft=self.setting.air.true_ft(top_ft),
            rate_fps=climb.climb_rate_fpm / 60.0, acceleration_fps2=climb.acceleration_g * GRAVITY_FPS2)

    def judge(self) -> None:
        """The next gate, as it is passed."""
        gate = self.gates_left.pop(0)
        judgement = judged(self.setting, gate, self.sample(), self._configured())
        self.gates.append(judgement)
        missed = ", ".join(f"{item.item} {item.actual} ({item.limit})" for item in judgement.items if not item.met)
        self.note("gate", f"Gate {gate.name}: " + ("stabilized" if judgement.stable else f"not stabilized: {missed}"))

    def _configured(self) -> bool:
        labels = [row.label for row in self.setting.steps]
        needed = labels.index(self.setting.aircraft.landing.configuration)
        return len(self.set_at_s) > needed and self.set_at_s[needed] <= self.time_s

    def have_moved(self) -> None:
        """The configuration of the next step that was on its way is there, and its drag."""
        row = self.setting.steps[self.moved]
        self.moved += 1
        self.orders = replace(self.orders, drag=tuple(self.setting.aircraft.drag_rows(row.label)))

    def once(self, key: str, what: str) -> None:
        """A moment that comes once and changes nothing."""
        self.passed.add(key)
        self.note(key, what)

    def pass_through(self) -> None:
        """The final course, flown through without being captured."""
        self.sides.pop("course", None)
        self.note("through the course", "Through the final course")

    def level_off(self) -> None:
        """The missed approach altitude; where its legs are flown, the flight goes on to the hold."""
        if self.leg:
            self.once("level", "Missed approach altitude reached")
        else:
            self.ending = "missed approach altitude reached"

    def sequence(self) -> None:
        """The next coded leg."""
        if self.route is None:
            return
        before = self.route.active
        self.route.go_on(self.point)
        leg = self.route.active
        if leg is not None and leg.circuit is not None and before is not None and before.circuit is None:
            self.descent = None  # planned anew, with the legs of the hold
        self._order(self.state)
        if leg is None:
            self.route = None
        elif self.route.held:
            self.ending = "in the hold"
        else:
            self.note("leg", f"Next leg: {leg.name}{self._circuit_words(leg)}")

    def _circuit_words(self, leg: Leg) -> str:
        """The heading and the time of an outbound leg."""
        if leg.circuit is None or not leg.name.endswith("outbound"):
            return ""
        heading_deg = degrees_360(leg.circuit.outbound_heading_deg + self.setting.course_deg)
        return (f", heading {course(heading_deg)} for {quantity(leg.circuit.outbound_s, 's')}, "
                f"so that inbound takes {quantity(leg.circuit.inbound_s, 's')}")

    def slow_for(self, bound: Bound) -> None:
        """The speed limit at a coming fix becomes the target."""
        self.orders = replace(self.orders, speed_kt=bound.speed_kt or self.orders.speed_kt)
        self.note("speed", f"Slow down to {quantity(self.orders.speed_kt, 'kt')}, the limit at {bound.name}")

    def pass_fix(self) -> None:
        """A fix of the coded legs: told if it is passed outside its altitudes or over its speed."""
        if self.descent is None:
            return
        bound = self.descent.passed()
        off = off_bound(bound, self.setting.air.indicated_ft(self.point.altitude_ft), self.point.airspeed_kt)
        if off and bound.name != self.setting.approach.pfaf.name:
            self.note("restriction", f"Over {bound.name} {off}")

    def begin_missed(self) -> None:
        """The missed approach waypoint: the first leg of the missed approach begins."""
        self.once("missed approach point", "Missed approach waypoint: the first leg of the missed approach begins")
        self.route = self._route(self.setting.procedure.missed)
        self._order(self.state)

    def land(self) -> None:
        """The aircraft is down at the level of the threshold."""
        along_nm, beside_ft = self.point.along_ft / FT_PER_NM, abs(self.point.across_ft)
        self._judge_tailwind()
        on_runway = -LANDED_WITHIN_NM <= along_nm <= 0.0 and beside_ft <= LANDED_BESIDE_FT
        self.apply("land")
        self.ending = "landed" if on_runway else "on the ground beside or before the runway"

    def _judge_tailwind(self) -> None:
        """The tailwind at the runway against the type's limit for landing."""
        limit_kt = self.setting.aircraft.flying.tailwind_limit_kt
        tail_kt = self.setting.air.wind_fps(self.point.altitude_ft)[0] / FPS_PER_KT
        if tail_kt > limit_kt:
            self.note("tailwind", f"Landed with {quantity(tail_kt, 'kt')} of tailwind: more than the type's limit of "
                      f"{quantity(limit_kt, 'kt')}")

    # What follows from the modes.

    def _order(self, before: State) -> None:
        """Fly what the modes now say, and keep what was flown where they have let go of it."""
        if self.state.phase == "missed":
            self._go_around(before)
            return
        course = path = None
        if self.state.lateral == "captured":
            course = self.setting.guides[lateral_source(self.state, self.rules)]
            self._hand_over(before)
        elif self.state.fms:
            course = self.leg.guide if self.leg else self.setting.guides["FMS"]
        if self.state.vertical == "captured":
            path = self.setting.path_guide(self.state)
        if course is None and self.orders.course is not None:
            self.orders = replace(self.orders, heading=self.point.heading)
        if path is not None:
            self.orders = replace(self.orders, climb_fps=None)
        elif self.orders.path is not None:
            self.orders = replace(self.orders, climb_fps=self.point.climb_fps)
        self.orders = replace(self.orders, course=course, path=path, turn=self.leg.turn if self.leg else 0)
        self._descend(path is not None)

    def _hand_over(self, before: State) -> None:
        """From the coded legs to the final course: the descent goes on, its distance counted along that."""
        if self.route is None:
            return
        pfaf_ft = self.setting.pfaf_nm * FT_PER_NM
        if self.descent is not None and before.fms and not any(leg.hold for leg in self.route.legs):
            route, final = self.route, self.setting.guides["FMS"]
            self.descent.to_go_ft = lambda point: point.along_ft - pfaf_ft + route.turning_ft(point, final)
        else:
            self.descent = None
        self.route = None

    def _descend(self, on_path: bool) -> None:
        """Fly the descent along the coded legs, as long as they or the final course after them lead, and no path."""
        along = self.leg is not None or (self.state.lateral == "captured" and self.descent is not None)
        if on_path or not along:
            if self.orders.descent is not None and not on_path:
                self.orders = replace(self.orders, altitude_ft=self.point.altitude_ft)
            self.descent = None
        elif self.descent is None and not self.own_level and self.orders.climb_fps is None and self.route is not None:
            self.descent = descent_along(self.route, self.point, self.orders)
        self.orders = replace(self.orders, descent=self.descent.wanted_fps if self.descent else None)

    def _go_around(self, before: State) -> None:
        """Along the missed approach or on the heading, as the type does; the descent goes on for the reaction time."""
        if before.phase != "missed":
            self.route = self.descent = None
            self.orders = replace(self.orders, descent=None)
        course = self.setting.guides["missed"] if self.state.fms else None
        course = self.leg.guide if self.leg else course
        self.orders = replace(self.orders, course=course, path=None, turn=self.leg.turn if self.leg else 0)
        if course is None and (before.phase != "missed" or before.fms):
            self.orders = replace(self.orders, heading=self.point.heading)
        if before.phase != "missed":
            self.orders = replace(self.orders, climb_fps=self.point.climb_fps, speed_kt=self.point.airspeed_kt)
            self.rotation_s = self.time_s + self.setting.aircraft.go_around.reaction_s

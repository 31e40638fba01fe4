"""Fast-time simulation of an approach: a scenario flown by a type to an approach, second by second.

    flight = simulate(scenario.read(...), approach.read(...), aircraft.read(...))
    for moment in timeline(flight): ...

The modes are those of `lpv.modes.machine` with the rules of the aircraft file; what they capture is tracked on the
approach's own segment.  SIMPLIFICATIONS says what is left out.  Nothing is random: the same files give the
same flight.
"""

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.core.errors import in_range
from lpv.core.spoken import spoken
from lpv.core.text import quantity
from lpv.modes.annunciation import announce, changes
from lpv.modes.machine import step as next_state
from lpv.simulate.descent import PER_NM_FT
from lpv.simulate.point_mass import Point, step
from lpv.simulate.records import Flight, Moment, Sample
from lpv.simulate.report import summary, timeline
from lpv.simulate.run import Run
from lpv.simulate.scenario import Scenario
from lpv.simulate.setting import make_setting
from lpv.simulate.watch import SAME_TIME_S, Watch, next_timer_s, watches

__all__ = ["SIMPLIFICATIONS", "STEP_S", "simulate", "summary", "timeline"]

STEP_S = 0.25
SAMPLE_S = 1.0
HALVINGS = 20  # of a step, to find when something happened
SIMPLIFICATIONS = (
    "A point mass in coordinated flight; bank, vertical speed and airspeed follow their commands with a short lag.",
    "The aircraft knows the wind and moves with it at once, except for the turn lead of a type that ignores it. A wind "
    "that changes with height changes the airspeed first, then the thrust.",
    "The pressure at sea level is standard; the altimeter is set right unless the scenario says otherwise; airspeed "
    "is indicated without error.",
    "A gate also requires captured guidance; guidance lost below a gate fails it.",
    "The deviation from the standard atmosphere is the same at every height as at the airport.",
    "Without captured guidance, the aircraft holds heading, and altitude or vertical speed.",
    "Speed and configuration follow the schedule by distance. Thrust holds the target as far as it can, and spools "
    "up at a constant rate; drag changes once the flaps or gear have finished moving.",
    "In a go-around the descent continues for the reaction time, then the aircraft rotates at a constant vertical "
    "acceleration. It follows the missed approach or holds the heading, as the type does, at its present speed.",
    "Coded legs are flown without navigation error: a turn starts where the bank limit brings it onto the next leg, "
    "an arc follows the ground track, a hold is planned for the wind there.",
    "The descent along coded legs is planned back from level flight before the FAF, at "
    f"{quantity(PER_NM_FT, 'ft/NM')}, level or steeper "
    "where an altitude requires it, with level flight to slow down before a speed limit; a limit applies from its "
    "fix on. No mode is annunciated for it: crew or FMS may fly it.",
    "The autopilot is shown only where the scenario states it; engaged or off, the flight follows the modes alike.",
    "There is no flare: the flight ends at the level of the threshold.",
    "Guidance has no position error: the receiver computes exactly where the aircraft is.",
)


def simulate(scenario: Scenario, approach: Approach, aircraft: Aircraft, step_s: float = STEP_S) -> Flight:
    """The scenario, flown; see `lpv.simulate.records.Flight`.

    step_s: longest step of time, 0.01 to 1 s.  Steps are shortened to end where something happens.
    DomainError if the three files do not go together, and outside of what the modules used allow.
    """
    in_range("step", step_s, 0.01, 1.0, "s")
    run = Run(make_setting(scenario, approach, aircraft))
    samples: list[Sample] = []
    watched = watches(run)
    while not run.ending:
        watched = _act(run, watched)
        if run.time_s >= len(samples) * SAMPLE_S - SAME_TIME_S or run.ending:
            samples.append(run.sample())
        if run.time_s >= scenario.story.longest_s - SAME_TIME_S and not run.ending:
            run.ending = "time over"
        if not run.ending:
            until_s = min(len(samples) * SAMPLE_S, next_timer_s(run), scenario.story.longest_s)
            _advance(run, watched, min(step_s, until_s - run.time_s))
    run.note("end", f"The flight ends: {run.ending}")
    return Flight(
        scenario, tuple(samples), (*run.moments, *_afterwards(run)), tuple(run.gates),
        run.setting.minimum_ft, run.ending, run.setting.procedure,
    )


def _act(run: Run, watched: list[Watch]) -> list[Watch]:
    """Everything that is due now, one after the other; what can happen then."""
    while not run.ending:
        due = next((watch for watch in watched if watch.margin(run.point) >= 0.0), None)
        if due is None:
            break
        due.act()
        watched = watches(run)
    return watched


def _advance(run: Run, watched: list[Watch], step_s: float) -> None:
    """One step of time, or less if something happens within it."""
    after = _stepped(run, step_s)
    due = [watch for watch in watched if watch.margin(after) >= 0.0]
    if due:
        step_s = min(_when(run, watch, step_s) for watch in due)
        after = _stepped(run, step_s)
    run.point = after
    run.time_s += step_s


def _stepped(run: Run, step_s: float) -> Point:
    return step(run.point, run.orders, run.setting.air, run.setting.limits, step_s)


def _when(run: Run, watch: Watch, step_s: float) -> float:
    """When within a step the margin reaches zero: by bisection, on the side on which it has."""
    early_s, late_s = 0.0, step_s
    for _ in range(HALVINGS):
        middle_s = (early_s + late_s) / 2.0
        if watch.margin(_stepped(run, middle_s)) >= 0.0:
            late_s = middle_s
        else:
            early_s = middle_s
    return late_s


def _afterwards(run: Run) -> list[Moment]:
    """What happens to the modes after the flight."""
    moments, state = [], run.state
    for event in run.setting.scenario.story.afterwards:
        before, state = state, next_state(state, event, run.rules)
        said = spoken(event)
        what = said[0].upper() + said[1:] + (", without effect" if state == before else "")
        moments.append(Moment(
            "later", what, changes(before, state, run.rules), announce(state, run.rules), state, None))
    return moments

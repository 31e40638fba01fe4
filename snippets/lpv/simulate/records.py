"""What a simulated flight leaves: samples, moments, judged gates."""

from dataclasses import dataclass

from lpv.decide.stabilised import Gate, Item, stable
from lpv.modes.state import State
from lpv.simulate.procedure import Procedure
from lpv.simulate.scenario import Scenario


@dataclass(frozen=True)
class Sample:
    """One moment of the flight.

    along_nm, across_ft:   before the threshold, and right of the final course
    altitude_ft:           true, above mean sea level;  indicated_ft: on the altimeter
    heading_deg, track_deg: in the chart's reference
    bank_deg:              to the right positive;  climb_fpm: upwards positive
    airspeed_kt:           indicated;  target_kt: the schedule's
    true_airspeed_kt:      through the air;  thrust_kt_per_s, drag_kt_per_s: thrust above idle, and the deceleration in
                           level flight at idle, as accelerations of the true airspeed
    path_ft:               above the SBAS path
    course_dots, path_dots: deviation from the SBAS course and path, two dots full scale, right and above positive,
                           on the scale of the SBAS approach; cut to 100
    shown_course_dots, shown_path_dots: what the flying side shows; None where nothing is shown
    shown_scale_ft:        full scale of the course deviation that is shown; None likewise
    source:                what the flying side's deviations come from
    configuration:         what is set, the last step that has finished moving, "" before the first
    autopilot:             engaged or off; "" where the scenario tells nothing of it
    state, words:          the modes, and what is announced of them and of the autopilot
    """

    time_s: float
    along_nm: float
    across_ft: float
    altitude_ft: float
    indicated_ft: float
    heading_deg: float
    track_deg: float
    bank_deg: float
    airspeed_kt: float
    target_kt: float
    ground_speed_kt: float
    climb_fpm: float
    true_airspeed_kt: float
    thrust_kt_per_s: float
    drag_kt_per_s: float
    path_ft: float
    course_dots: float
    path_dots: float
    shown_course_dots: float | None
    shown_path_dots: float | None
    shown_scale_ft: float | None
    source: str
    configuration: str
    autopilot: str
    state: State
    words: tuple[str, ...]


@dataclass(frozen=True)
class Moment:
    """Something that happened.

    key:     what kind of moment: an event of the modes, or "start", "crew", "speed", "configuration", "through the
             course", "gate", "gate lost", "tailwind", "minimum", "lowest", "missed approach point", "leg",
             "restriction", "level", "scale", "autopilot", "autopilot low", "end", "later"
    what:    what happened, in words
    changes: what is announced differently
    words:   what is announced then
    sample:  where and how the aircraft is; None for what happens after the flight
    """

    key: str
    what: str
    changes: tuple[str, ...]
    words: tuple[str, ...]
    state: State
    sample: Sample | None

    @property
    def time_s(self) -> float | None:
        """Seconds since the start; None for what happens after the flight."""
        return self.sample.time_s if self.sample else None


@dataclass(frozen=True)
class JudgedGate:
    """A gate, judged by what was shown when the altimeter showed its height.

    items: as `lpv.decide.stabilised.evaluate`, and whether guidance was captured
    lost:  what guidance was lost below it, before the ground or a go-around, with the moment's sample; None: nothing
    """

    gate: Gate
    sample: Sample
    items: tuple[Item, ...]
    lost: tuple[str, Sample] | None = None

    @property
    def stable(self) -> bool:
        """Whether every judged item is met, and guidance stayed captured below it."""
        return self.lost is None and stable(list(self.items))


@dataclass(frozen=True)
class Flight:
    """A flown scenario: a sample for every second and the last moment, what happened, gates; minimum_ft: the DA used.

    procedure: the coded legs that the FMS can fly
    ending: "landed", "missed approach altitude reached", "in the hold" or "time over"
    """

    scenario: Scenario
    samples: tuple[Sample, ...]
    moments: tuple[Moment, ...]
    gates: tuple[JudgedGate, ...]
    minimum_ft: float
    ending: str
    procedure: Procedure

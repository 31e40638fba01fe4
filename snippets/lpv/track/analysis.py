"""A recorded flight against an approach, in pieces, so that a browser can answer its reader in between."""

from lpv.core.errors import DataError, in_range
from lpv.core.units import FT_PER_NM
from lpv.decide.stabilised import GATES
from lpv.facts import value
from lpv.track.against import Against, By, minimum_ft
from lpv.track.clean import clean
from lpv.track.flown import Debrief, Flown, Moment
from lpv.track.levels import levels_of, position_uncertainty_ft
from lpv.track.moments import FINDERS, in_order, of_gates
from lpv.track.points import Point, approaches, places, scales_of, with_rates
from lpv.track.records import Conditions, Reading, Recording, Remark, refuse
from lpv.track.reference import doubt
from lpv.track.verdicts import GateFound, feet, judge, tenths, whole

STANDARD = Conditions()
FEWEST_DECIMALS = 5  # of a degree: two feet
MINIMUM_FT = (-1500.0, 20000.0)  # as in a file of a recorded flight
ROWS = 200  # samples of one piece


class Analysis:
    """What a recording tells of an approach, worked out one piece after the other by `step`.

    DataError from it if the recording holds no such approach; DomainError for an approach without a path (LP), for
    pressure altitudes without a setting, and for an aircraft to which the approach offers no LPV minimum.
    """

    def __init__(
        self, recording: Recording, approach: Against, aircraft: "By | None" = None, given: Conditions = STANDARD,
    ) -> None:
        self.recording, self.approach, self.aircraft, self.given = recording, approach, aircraft, given
        self.levels = levels_of(recording, approach, given)
        self.scales = scales_of(approach, given.joined)
        self.debrief: Debrief | None = None
        self.parts: tuple[tuple[Reading, ...], ...] = ()
        self.remarks: tuple[Remark, ...] = ()
        self._number = self._count = self._first = self._end = 0
        self._everywhere: list[Point] = []
        self._rated: list[Point] = []
        self._stage = 0
        self._at = (0, 0)  # part and sample that come next
        self._flown: Flown | None = None
        self._gates: list[GateFound] = []
        self._moments: list[Moment] = []

    @property
    def done(self) -> int:
        """How many samples were looked at."""
        number, begin = self._at
        return sum([len(part) for part in self.parts[:number]]) + begin

    def step(self) -> bool:
        """One piece; whether there are more of them.  The last one sets `debrief`."""
        if self._stage == 0:
            self.parts, self.remarks = clean(self.recording)
            self._stage = 1
        elif self._stage == 1:
            self._place()
        elif self._stage == 2:
            self._rate()
        else:
            self._tell()
        return self.debrief is None

    def _place(self) -> None:
        """Where the next samples of a part are; after the last of them, which of them are the approach."""
        number, begin = self._at
        if number == len(self.parts):
            self._choose()
            return
        rows = self.parts[number][begin : begin + ROWS]
        self._everywhere.extend(places((rows,), self.approach, self.levels, self.scales, number))
        self._at = (number, begin + ROWS) if begin + ROWS < len(self.parts[number]) else (number + 1, 0)

    def _choose(self) -> None:
        found = approaches(tuple(self._everywhere), self.scales)
        if not found:
            raise nothing_near(self.recording, self._everywhere)
        given, self._count = self.given.number, len(found)
        self._number = len(found) if given is None else int(in_range("approach number", given, 1, len(found)))
        first, end = found[self._number - 1]
        self._everywhere = self._everywhere[first:end]
        self._stage = 2

    def _rate(self) -> None:
        begin = len(self._rated)
        self._rated.extend(with_rates(self._everywhere, begin, begin + ROWS))
        if len(self._rated) == len(self._everywhere):
            self._stage = 3

    def _tell(self) -> None:
        """What follows from the samples: first of the altitudes, then the gates, then one kind of moment a piece."""
        if self._flown is None:
            self._flown = self._believed()
        elif self._stage == 3:
            self._gates = gates_of(self._flown)
            self._stage = 4
        elif self._stage - 4 < len(FINDERS):
            self._moments.extend(FINDERS[self._stage - 4](self._flown))
            self._stage += 1
        else:
            found = in_order(self._moments + of_gates(self._gates))
            self.debrief = Debrief(self.recording, self._flown, self.remarks, tuple(found), tuple(self._gates),
                                   self._number, self._count)

    def _believed(self) -> Flown:
        """The approach, with how far its altitudes can be believed."""
        given, recording = self.given, self.recording
        stated = given.minimum_ft is not None
        least_ft = minimum_ft(self.approach, self.aircraft)
        if given.minimum_ft is not None:
            least_ft = in_range("minimum used", given.minimum_ft, *MINIMUM_FT, "ft")
        flown = Flown(self.approach, self.aircraft, self.levels, self.scales, tuple(self._rated), least_ft,
                      position_uncertainty_ft(recording), stated)
        readings: dict[float, Reading] = {}
        for part in self.parts:
            readings.update({reading.time_s: reading for reading in part})
        doubtful = doubt(flown.coming_in, readings, self.levels, self.scales)
        remarks = [doubtful.remark] if doubtful else []
        remarks += list(recording.remarks) + list(self.remarks)
        remarks += conditions(recording, given, self.levels.temperature_c, self._number, self._count)
        remarks += not_judged(flown)
        self.remarks = tuple(remarks)
        if doubtful:
            flown.doubt_ft = doubtful.by_ft
        return flown


def analyse(
    recording: Recording, approach: Against, aircraft: "By | None" = None, given: Conditions = STANDARD,
) -> Debrief:
    """What the recording tells of an approach, worked out at once; errors as `Analysis`."""
    work = Analysis(recording, approach, aircraft, given)
    while work.debrief is None:
        work.step()
    return work.debrief


def gates_of(flown: Flown) -> "list[GateFound]":
    """Every gate, highest first, judged where the altimeter passed it on the way down."""
    every = list(GATES) + (flown.aircraft.gates if flown.aircraft else [])
    levels, found = flown.levels, []
    for _, place in sorted([(-gate.height_ft, place) for place, gate in enumerate(every)]):
        gate = every[place]
        base_ft = levels.threshold_ft if gate.above == "threshold" else levels.airport_ft
        passed = flown.passed_altitude(base_ft + gate.height_ft)
        at = passed.at if passed else flown.lowest
        found.append(judge(gate, base_ft + gate.height_ft, passed, flown.course_uncertainty_dots(at),
                           flown.path_uncertainty_dots(at)))
    return found


def nothing_near(recording: Recording, points: "list[Point]") -> DataError:
    """What there is instead of an approach."""
    if points:
        near = min(points, key=lambda one: abs(one.along_nm) + abs(one.across_ft) / FT_PER_NM)
        found = (f"nothing nearer than {tenths(near.along_nm)} NM before and {tenths(near.across_ft / FT_PER_NM)} NM "
                 "right of it")
    else:
        found = f"no sample within {whole(value('recording_farthest_nm'))} NM of the threshold"
    return refuse(recording.name, found, "an approach down the final course",
                  "Is it this approach, and are the positions right?")


def not_judged(flown: Flown) -> "list[Remark]":
    """That nothing is told of a minimum which was stated, where the altimeter does not pass it on the way down."""
    lowest_ft, stated_ft = flown.lowest.indicated_ft, flown.minimum_ft
    if not flown.minimum_stated or stated_ft is None or lowest_ft is None or flown.minimum is not None:
        return []
    if lowest_ft > stated_ft:
        why = f"never comes down to the minimum stated, {feet(stated_ft)}: its lowest is {feet(lowest_ft)}"
    else:
        why = f"does not come down through the minimum stated, {feet(stated_ft)}: it begins below"
    return [Remark("minimum", f"The recording {why}. Nothing could be judged about the minimum.")]


def conditions(
    recording: Recording, given: Conditions, temperature_c: float, number: int, count: int,
) -> "list[Remark]":
    """What had to be taken, and what was chosen."""
    found = []
    if given.temperature_c is None:
        found.append(Remark("temperature", f"Temperature at the airport not stated: {whole(temperature_c)} °C taken, "
                            "which is standard. Every altitude on the altimeter depends on it."))
    if recording.decimals < FEWEST_DECIMALS:
        right_ft = 0.5 / float(10**recording.decimals) * 60.0 * FT_PER_NM
        found.append(Remark("rounded", f"Positions are given to {recording.decimals} decimals of a degree: right to "
                            f"{whole(right_ft)} ft only."))
    if count > 1:
        found.append(Remark("several", f"{count} approaches in the recording; this is number {number}."))
    return found

"""A recorded flight against an approach, in pieces, so that a browser can answer its reader in between."""

from lpv.core.errors import DataError, in_range
from lpv.core.text import feet, nautical_miles, quantity
from lpv.core.units import FT_PER_NM
from lpv.decide.stabilised import gate_altitude_ft
from lpv.facts import value
from lpv.track.clean import clean
from lpv.track.ending import FINDERS as ENDING
from lpv.track.flown import Debrief, FlownApproach, Moment
from lpv.track.levels import levels_of, position_uncertainty_ft
from lpv.track.moments import FINDERS, in_order, of_gates
from lpv.track.noise import QUIET, rounding
from lpv.track.points import Point, approaches, noise_of, places, smoothed
from lpv.track.procedure import FINDERS as LEGS
from lpv.track.records import Conditions, Reading, Recording, Remark, refuse
from lpv.track.reference import doubt
from lpv.track.target import Target
from lpv.track.verdicts import JudgedGate, judge

STANDARD = Conditions()
FEWEST_DECIMALS = 5  # of a degree: two feet
MINIMUM_FT = (-1500.0, 20000.0)  # as in a file of a recorded flight
ROWS = 200  # samples of one piece
EVERY = FINDERS + LEGS + ENDING


class Analysis:
    """What a recording tells of an approach, worked out one piece after the other by `step`.

    DataError from it if the recording holds no such approach; DomainError for pressure altitudes without a setting,
    and for a level or a type for which the approach has no minimum.
    """

    def __init__(self, recording: Recording, target: Target, stated: Conditions = STANDARD) -> None:
        self.recording, self.target, self.given = usable(recording, stated), target, stated
        self.levels = levels_of(self.recording, target, stated)
        self.noise = QUIET
        self.debrief: Debrief | None = None
        self.parts: tuple[tuple[Reading, ...], ...] = ()
        self.remarks: tuple[Remark, ...] = ()
        self._number = self._count = 0
        self._others: list[str] = []
        self._everywhere: list[Point] = []
        self._earlier: list[Point] = []
        self._smoothed: list[Point] = []
        self._stage = 0
        self._at = (0, 0)  # part and sample that come next
        self._flown: FlownApproach | None = None
        self._gates: list[JudgedGate] = []
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
            self._smooth()
        else:
            self._judge()
        return self.debrief is None

    def _place(self) -> None:
        """Where the next samples of a part are; after the last of them, which of them are the approach."""
        number, begin = self._at
        if number == len(self.parts):
            self._choose()
            return
        rows = self.parts[number][begin : begin + ROWS]
        self._everywhere.extend(places((rows,), self.target, self.levels, number))
        self._at = (number, begin + ROWS) if begin + ROWS < len(self.parts[number]) else (number + 1, 0)

    def _choose(self) -> None:
        extents = approaches(self._everywhere, self.target)
        if not extents:
            raise nothing_near(self.recording, self._everywhere)
        number, self._count = self.given.number, len(extents)
        self._number = len(extents) if number is None else int(in_range("approach number", number, 1, len(extents)))
        self._others = [other(number, self._everywhere[first:end], self.target)
                        for number, (first, end) in enumerate(extents, 1)]
        first, end = extents[self._number - 1]
        after = extents[self._number - 2][1] if self._number > 1 else 0
        self._earlier, self._everywhere = self._everywhere[after:first], self._everywhere[first:end]
        readings = [reading for part in self.parts for reading in part]
        self.noise = noise_of(
            self._everywhere,
            rounding([point.geometric_ft for point in readings if point.geometric_ft is not None]),
            rounding([point.barometric_ft for point in readings if point.barometric_ft is not None]))
        self._stage = 2

    def _smooth(self) -> None:
        begin = len(self._smoothed)
        self._smoothed.extend(smoothed(self._everywhere, self.noise, self.target, begin, begin + ROWS))
        if len(self._smoothed) == len(self._everywhere):
            self._stage = 3
            if self.recording.steady:
                for point in self._smoothed:
                    point.sink_fpm = point.ground_speed_kt = None

    def _judge(self) -> None:
        """What follows from the samples: first of the altitudes, then the gates, then one kind of moment a piece."""
        if self._flown is None:
            self._flown = self._believed()
        elif self._stage == 3:
            self._gates = gates_of(self._flown)
            self._stage = 4
        elif self._stage - 4 < len(EVERY):
            self._moments.extend(EVERY[self._stage - 4](self._flown))
            self._stage += 1
        else:
            moments = in_order(self._moments + of_gates(self._gates))
            self.debrief = Debrief(self.recording, self._flown, self.remarks, tuple(moments), tuple(self._gates),
                                   self._number, self._count, tuple(self._others))

    def _believed(self) -> FlownApproach:
        """The approach, with how far its altitudes can be believed."""
        stated, recording = self.given, self.recording
        least_ft = self.target.minimum_ft()
        if stated.minimum_ft is not None:
            least_ft = in_range("minimum used", stated.minimum_ft, *MINIMUM_FT, "ft")
        flown = FlownApproach(self.target, stated, self.levels, tuple(self._smoothed), self.noise, least_ft,
                              position_uncertainty_ft(recording))
        flown.earlier = tuple(self._earlier)
        readings: dict[float, Reading] = {}
        for part in self.parts:
            readings.update({reading.time_s: reading for reading in part})
        doubtful = doubt(flown.coming_in, readings, self.levels, self.target, flown.ground)
        remarks = [doubtful.remark] if doubtful else []
        remarks += list(recording.remarks) + list(self.remarks)
        remarks += conditions(recording, stated, self.levels.temperature_c, self._number, self._count)
        remarks += minimum_not_passed(flown)
        self.remarks = tuple(remarks)
        if doubtful:
            flown.doubt_ft = doubtful.by_ft
        return flown


def usable(recording: Recording, stated: Conditions) -> Recording:
    """The recording without its pressure altitudes, where it has others and no setting is stated for them."""
    if recording.barometric != "pressure" or not recording.geometric or stated.qnh_hpa is not None:
        return recording
    readings = [Reading(reading.line, reading.time_s, reading.latitude_deg, reading.longitude_deg, reading.geometric_ft,
                        None, reading.begins) for reading in recording.readings]
    remark = Remark("setting", "The pressure altitudes are not used: no altimeter setting is stated.")
    remarks = recording.remarks + (remark,)  # noqa: RUF005
    return Recording(recording.name, recording.geometric, "", tuple(readings), recording.decimals, remarks,
                     recording.steady)


def analyse(recording: Recording, target: Target, stated: Conditions = STANDARD) -> Debrief:
    """What the recording tells of an approach, worked out at once; errors as `Analysis`."""
    work = Analysis(recording, target, stated)
    while work.debrief is None:
        work.step()
    return work.debrief


def gates_of(flown: FlownApproach) -> "list[JudgedGate]":
    """Every gate, highest first, judged where the altimeter passed it on the way down."""
    levels, judged = flown.levels, []
    for gate in flown.target.gates():
        altitude_ft = gate_altitude_ft(gate, levels.airport_ft, levels.threshold_ft)
        passed = flown.passed_altitude(altitude_ft)
        at = passed.at if passed else flown.lowest
        judged.append(judge(gate, altitude_ft, passed, flown.unsure(at)))
    return judged


def other(number: int, points: "list[Point]", target: Target) -> str:
    """One line about an approach of the recording, to choose it by: when it ends, how low, what came then."""
    known = [point for point in points if point.indicated_ft is not None]
    minutes = quantity((points[-1].time_s - points[0].time_s) / 60.0, "min")
    if not known:
        return f"{number}: {minutes}, no altitudes"
    low = min(known, key=lambda point: point.indicated_ft or 0.0)
    after_ft = [point.indicated_ft or 0.0 for point in known if point.time_s >= low.time_s]
    up_ft = max(after_ft) - (low.indicated_ft or 0.0)
    then = "then climbs" if up_ft >= value("recording_climb_ft") else "then ends"
    return f"{number}: {minutes}, lowest {feet(low.indicated_ft or 0.0)}, {then}"


def nothing_near(recording: Recording, points: "list[Point]") -> DataError:
    """What there is instead of an approach."""
    if points:
        near = min(points, key=lambda point: abs(point.along_nm) + abs(point.across_ft) / FT_PER_NM)
        nearest_words = (f"nothing nearer than {nautical_miles(near.along_nm)} before and "
                         f"{nautical_miles(near.across_ft / FT_PER_NM)} right of it")
    else:
        nearest_words = f"no sample within {nautical_miles(value('recording_farthest_nm'), 1)} of the threshold"
    return refuse(recording.name, nearest_words, "an approach down the final course",
                  "Check the approach chosen and the positions.")


def minimum_not_passed(flown: FlownApproach) -> "list[Remark]":
    """That nothing is judged of a minimum which was stated, where the altimeter does not pass it on the way down."""
    lowest_ft, stated_ft = flown.lowest.indicated_ft, flown.minimum_ft
    if not flown.minimum_stated or stated_ft is None or lowest_ft is None or flown.minimum is not None:
        return []
    if lowest_ft > stated_ft:
        why = f"never comes down to the minimum stated, {feet(stated_ft)}: its lowest is {feet(lowest_ft)}"
    else:
        why = f"does not come down through the minimum stated, {feet(stated_ft)}: it begins below"
    return [Remark("minimum", f"The recording {why}. Nothing could be judged about the minimum.")]


def conditions(
    recording: Recording, stated: Conditions, temperature_c: float, number: int, count: int,
) -> "list[Remark]":
    """What had to be taken, and what was chosen."""
    remarks = []
    if stated.temperature_c is None:
        remarks.append(Remark("temperature", "Temperature at the airport not stated: "
                              f"{quantity(temperature_c, '°C')} taken, which is standard. "
                              "Every altitude on the altimeter depends on it."))
    if recording.decimals < FEWEST_DECIMALS:
        right_ft = 0.5 / float(10**recording.decimals) * 60.0 * FT_PER_NM
        remarks.append(Remark("rounded", f"Positions are given to {recording.decimals} decimals of a degree: right to "
                              f"{feet(right_ft)} only."))
    if count > 1:
        remarks.append(Remark("several", f"{count} approaches in the recording; this is number {number}."))
    return remarks

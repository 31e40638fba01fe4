"""A simulated flight as the player of flights takes it (`lpv.figures.replay`)."""

from lpv.figures import replay
from lpv.simulate.records import Flight, Sample

MAX_SAMPLES = 120
TURNING_DEG = 5.0  # of bank, from which samples are taken twice as often
GONE = ""  # words of what is annunciated no more


def replay_text(flight: Flight) -> str:
    """The flight in one line: where it was every few seconds and at each event, what happened, what was annunciated."""
    times_s = {moment.sample.time_s: moment.sample for moment in flight.moments if moment.sample}
    every = max(1, len(flight.samples) // MAX_SAMPLES)
    turning = [sample for sample in flight.samples[::max(1, every // 2)] if abs(sample.bank_deg) > TURNING_DEG]
    times_s |= {sample.time_s: sample for sample in (*flight.samples[::every], *turning, flight.samples[-1])}
    samples = [_sample(times_s[time_s]) for time_s in sorted(times_s)]
    events = [(moment.sample.time_s, moment.what) for moment in flight.moments if moment.sample]
    return replay.written(replay.Flight(samples, events, _modes(flight)))


def _sample(sample: Sample) -> replay.Sample:
    above_ft = sample.path_ft if sample.along_nm >= 0.0 else None
    return replay.Sample(
        sample.time_s, sample.along_nm, sample.across_ft, sample.indicated_ft, above_ft, sample.ground_speed_kt)


def _modes(flight: Flight) -> list[tuple[float, str, str]]:
    """What is annunciated, each thing when its words change; the moments tell when to the fraction of a second."""
    reported = [(moment.sample.time_s, moment.words) for moment in flight.moments if moment.sample]
    reported += [(sample.time_s, sample.words) for sample in flight.samples]
    changes: list[tuple[float, str, str]] = []
    now: dict[str, str] = {}
    for time_s, lines in sorted(reported, key=lambda row: row[0]):
        words = dict.fromkeys(now, GONE) | {row: text for row, _, text in (line.partition(": ") for line in lines)}
        changes += [(time_s, row, text) for row, text in words.items() if now.get(row) != text]
        now = words
    return changes

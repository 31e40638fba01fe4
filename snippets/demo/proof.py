"""Flies many simulated approaches, records them badly, and counts the wrong verdicts of their debriefs.

    python -m demo.proof

writes tests/reference/recorded-flights.json, from which the validation page prints; a test runs some of the flights
anew.  The truth comes from the samples of the simulation, by functions of their own: lowest altitude, deviations at
the PFAF, the gates and the minimum, the highest rate of descent, the height over the threshold.  Everything that is
drawn comes from the number of the flight, so that each can be flown again.
"""

import json
import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

from demo import proof_endings
from lpv.aircraft import record as aircraft
from lpv.aircraft.record import Aircraft
from lpv.approach import record as approach
from lpv.approach.record import Approach
from lpv.core.units import M_PER_FT
from lpv.decide.missed import height_loss_ft
from lpv.decide.stabilised import COURSE, GLIDEPATH
from lpv.simulate import scenario
from lpv.simulate.records import Flight, Sample
from lpv.simulate.report import place
from lpv.simulate.simulation import simulate
from lpv.track import command, files
from lpv.track.flown import Debrief, FlownApproach
from lpv.track.records import Conditions
from lpv.track.verdicts import NOT_JUDGED, OUTSIDE, TOO_CLOSE, WITHIN, Comparison

ROOT = Path(__file__).resolve().parents[2]
RESULT = ROOT / "tests" / "reference" / "recorded-flights.json"
FLIGHTS, FIRST = 330, 240  # from the second number on with the endings of `demo.proof_endings`
GNSS_SIGMA_FT = 13.0 / M_PER_FT / 1.96  # the offset of a receiver without SBAS, where 13 m hold 95 times in 100
DA_FT, AIRPORT_FT = 224.0, 31.0
ENDINGS = ("landed", "go-around", "go-around below the minimum", "steep by hand")
COLUMNS = ("altitude_msl_ft", "altitude_indicated_ft")
NOISE_FT = (0.0, 3.0, 8.0, 15.0, 20.0)
INTERVALS_S = (1, 1, 1, 2, 4, 5, 10)
STORY = """
[scenario]
name = "Drawn"
about = "Drawn by chance."
kind = "as it should be"
approach = "zzak-rnav-09"
aircraft = "{aircraft}"
invented = true
weight_lb = {weight}
temperature_c = {temperature}
activation = "procedure"
longest_s = 900
[start]
distance_nm = 12
across_nm = {across}
heading_deg = {heading}
altitude_ft = {altitude}
speed_kt = 180
set_up = ["take off", "load SBAS approach", "activate approach", "select SBAS"]
[[wind]]
height_ft = 0
from_deg = {wind_from}
speed_kt = {wind}
[[wind]]
height_ft = 3000
from_deg = {wind_from}
speed_kt = {aloft}
[[event]]
distance_nm = 11.8
does = "arm approach"
"""


@dataclass(frozen=True)
class Drawn:
    """One flight and its recording, as drawn."""

    number: int
    story: str
    ending: str
    column: str
    noise_ft: float
    offset_ft: float
    interval_s: int
    gap: bool
    temperature_c: float


def drawn(number: int) -> Drawn:
    """What is drawn for a number."""
    rng = random.Random(f"flight of the second draw {number}")
    ending, across = rng.choice(ENDINGS), rng.choice((-0.8, -0.3, 0.0, 0.3, 0.8))
    if number >= FIRST:
        ending = proof_endings.ENDINGS[number % len(proof_endings.ENDINGS)]
    jet = rng.choice(("light-jet", "large-jet"))
    if ending == proof_endings.PROCEDURE:
        jet = "large-jet"  # the one of the two that follows coded legs with SBAS selected
    temperature_c = float(rng.randint(-5, 35))
    story = STORY.format(
        aircraft=jet, weight=10_000 if jet == "light-jet" else 55_000, temperature=temperature_c, across=across,
        altitude=3000 if ending == "steep by hand" else 2000,
        heading=93.4 - 17.0 * across, wind_from=rng.randint(0, 359), wind=rng.randint(0, 12), aloft=rng.randint(0, 25))
    story += _events(ending, rng) if number < FIRST else proof_endings.events(ending, rng)
    if ending == proof_endings.PROCEDURE:
        story = _from_the_iaf(story)
    column = rng.choice(COLUMNS)
    offset_ft = rng.gauss(0.0, GNSS_SIGMA_FT) if column == COLUMNS[0] else 0.0
    return Drawn(number, story, ending, column, rng.choice(NOISE_FT), offset_ft, rng.choice(INTERVALS_S),
                 rng.random() < 0.15, temperature_c)


def _from_the_iaf(story: str) -> str:
    """The same begun before the initial fix, in the FMS lateral mode, armed on the way."""
    _, _, from_wind = story.partition("[[wind]]")
    head, _, _ = story.partition("[start]")
    from_wind = from_wind.replace('[[event]]\ndistance_nm = 11.8\ndoes = "arm approach"\n', "")
    return (head + '[start]\ndistance_nm = 11.5\nacross_nm = -8\nheading_deg = 181.6\naltitude_ft = 3000\n'
            'speed_kt = 190\nset_up = ["take off", "load SBAS approach", "activate approach", "select SBAS", '
            '"FMS lateral mode"]\n[[wind]]' + from_wind + proof_endings.LEGS)


def _events(ending: str, rng: random.Random) -> str:
    """How the flight ends: nothing more, or a go-around from somewhere, or a descent by hand before it."""
    if ending == "landed":
        return ""
    lowest_ft = rng.uniform(70.0, 210.0) if ending == "go-around below the minimum" else rng.uniform(220.0, 330.0)
    by_hand = ""
    if ending == "steep by hand":
        by_hand = (f"[[event]]\ndistance_nm = {rng.uniform(5.2, 6.2):.2f}\nlevel_ft = 60\n"
                   f"rate_fpm = {rng.randint(800, 1500)}\n")
    return f'{by_hand}[[event]]\naltitude_ft = {lowest_ft:.0f}\ndoes = "go around"\n'


@cache
def _files(jet: str) -> tuple[Approach, Aircraft]:
    docs = ROOT / "docs"
    return (approach.read(docs / "approaches" / "zzak-rnav-09.toml"), aircraft.read(docs / "aircraft" / f"{jet}.toml"))


def recording(case: Drawn, flight: Flight, to: Approach) -> str:
    """The flight as a recorder writes it: every so many seconds, with noise, an offset, and perhaps a gap."""
    rng = random.Random(f"recording of the second draw {case.number}")
    begin_s = rng.uniform(60.0, 240.0) if case.gap else -99.0
    rows = [f"time_s,latitude_deg,longitude_deg,{case.column}"]
    for sample in flight.samples[:: case.interval_s]:
        if begin_s <= sample.time_s <= begin_s + 35.0:
            continue
        at = place(sample, to)
        altitude_ft = sample.altitude_ft if case.column == COLUMNS[0] else sample.indicated_ft
        noisy_ft = altitude_ft + case.offset_ft + rng.gauss(0.0, case.noise_ft)
        rows.append(f"{sample.time_s:.2f},{at.latitude_deg:.6f},{at.longitude_deg:.6f},{noisy_ft:.1f}")
    return "\n".join(rows) + "\n"


# The truth


def _between(samples: tuple[Sample, ...], attribute: str, value: float) -> dict[str, float] | None:
    """The figures of the flight where one of them first comes down to a value, by a straight line."""
    for before, after in pairwise(samples):
        high, low = getattr(before, attribute), getattr(after, attribute)
        if high > value >= low:
            share = (high - value) / (high - low)
            return {name: getattr(before, name) + share * (getattr(after, name) - getattr(before, name)) for name in (
                "along_nm", "course_dots", "path_dots", "altitude_ft", "indicated_ft", "time_s")}
    return None


def _sink_fpm(samples: tuple[Sample, ...], time_s: float, window_s: float) -> float | None:
    """Rate of descent over a window around a time, from the altitudes at its ends."""
    inside = [sample for sample in samples if abs(sample.time_s - time_s) <= window_s / 2.0 + 0.01]
    if len(inside) < 3 or inside[-1].time_s - inside[0].time_s < 0.8 * window_s:
        return None
    middle_s = sum(sample.time_s for sample in inside) / len(inside)
    middle_ft = sum(sample.altitude_ft for sample in inside) / len(inside)
    over = sum((sample.time_s - middle_s) * (sample.altitude_ft - middle_ft) for sample in inside)
    return -60.0 * over / sum((sample.time_s - middle_s) ** 2 for sample in inside)


def truths(flight: Flight, debrief: Debrief) -> Iterator[tuple[str, Comparison, float, float | None, float | None]]:
    """(kind, comparison, true value, low, high) of every comparison whose truth the simulation knows."""
    flown, samples = debrief.flown, flight.samples
    low_at = min(range(len(samples)), key=lambda place: samples[place].indicated_ft)
    down = samples[: low_at + 1]
    for moment in debrief.moments:
        for row in moment.compared:
            value, low, high = None, row.low, row.high
            if moment.key.startswith("PFAF"):
                value = _deviation(_between(down, "along_nm", flown.target.pfaf_nm), row.item)
            elif moment.key.startswith("minimum"):
                value = _deviation(_between(down, "indicated_ft", flown.minimum_ft or 0.0), row.item)
            elif moment.key == "threshold":
                at = _between(samples, "along_nm", 0.0)
                value = None if at is None else at["altitude_ft"] - flown.target.threshold_ft
            elif moment.key == "go-around":
                value, low = samples[low_at].indicated_ft, _lowest_allowed_ft(flight, flown.minimum_ft or 0.0, low_at)
            elif moment.key == "gate" and moment.at is not None:
                at = _between(down, "indicated_ft", round(moment.at.indicated_ft or 0.0))
                value = _deviation(at, row.item)
                if row.item == "rate of descent" and at is not None:
                    value = _sink_fpm(samples, at["time_s"], flown.noise.window_s)
            elif moment.key in ("sink", "sink below the minimum"):
                value = _highest_sink(samples, down, moment.key, flown)
            if value is not None:
                yield moment.key.partition(",")[0], row, value, low, high
    for key, row, value in proof_endings.truths(flight, debrief, low_at, abs(samples[0].across_ft) > 30000.0):
        yield key, row, value, row.low, row.high


def _deviation(at: dict[str, float] | None, item: str) -> float | None:
    names = {COURSE: "course_dots", GLIDEPATH: "path_dots"}
    return None if at is None or item not in names else at[names[item]]


def _lowest_allowed_ft(flight: Flight, minimum_ft: float, low_at: int) -> float:
    """The minimum less what the type loses from the descent before the lowest point."""
    _, jet = _files(flight.scenario.story.aircraft)
    before = flight.samples[max(0, low_at - 20) : low_at + 1]
    sink_fpm = max(0.0, *(-sample.climb_fpm for sample in before))
    return minimum_ft - height_loss_ft(min(3000.0, sink_fpm), jet.go_around.reaction_s, jet.go_around.acceleration_g)


def _highest_sink(
    samples: tuple[Sample, ...], down: tuple[Sample, ...], key: str, flown: FlownApproach,
) -> float | None:
    """The highest rate of descent above the minimum, or below it."""
    window_s = flown.noise.window_s
    high_ft, low_ft = (AIRPORT_FT + 1000.0, DA_FT) if key == "sink" else (DA_FT, -999.0)
    rates = [_sink_fpm(samples, sample.time_s, window_s) for sample in down if low_ft <= sample.indicated_ft <= high_ft]
    known = [rate for rate in rates if rate is not None]
    return max(known) if known else None


# The count


def flown_again(number: int) -> list[dict[str, object]]:
    """The comparisons of one flight, each with its verdict and what is wrong about it."""
    case = drawn(number)
    story = scenario.read_text(case.story, "drawn.toml")
    to, jet = _files(story.story.aircraft)
    flight = proof_endings.ran_on(simulate(story, to, jet)) if number >= FIRST else simulate(story, to, jet)
    conditions = Conditions(case.temperature_c, minimum_ft=DA_FT)
    debrief = command.analyse(files.read_bytes(recording(case, flight, to).encode(), "drawn.csv"), to, jet, conditions)
    return [_counted(key, row, value, low, high) for key, row, value, low, high in truths(flight, debrief)]


def _counted(key: str, row: Comparison, value: float, low: float | None, high: float | None) -> dict[str, object]:
    beyond = max([0.0] + ([low - value] if low is not None else []) + ([value - high] if high is not None else []))
    judged = row.verdict != NOT_JUDGED
    return {
        "kind": f"{key}: {row.item}", "verdict": row.verdict, "true": beyond > 0.0,
        "false alarm": row.verdict == OUTSIDE and beyond == 0.0,
        "false assurance": row.verdict == WITHIN and beyond > 0.0,
        "missed": judged and row.verdict != OUTSIDE and beyond > 2.0 * row.uncertainty,
    }


def summary(rows: list[dict[str, object]]) -> dict[str, dict[str, int]]:
    """Counts by kind of comparison, in the order of the alphabet, and of all together."""
    kinds = sorted({str(row["kind"]) for row in rows})
    counts = {kind: _counts([row for row in rows if row["kind"] == kind]) for kind in kinds}
    return counts | {"all": _counts(rows)}


def _counts(rows: list[dict[str, object]]) -> dict[str, int]:
    counts = {word: sum(row["verdict"] == word for row in rows) for word in (WITHIN, OUTSIDE, TOO_CLOSE, NOT_JUDGED)}
    counts["truly within"] = sum(not row["true"] and row["verdict"] != NOT_JUDGED for row in rows)
    counts["truly outside"] = sum(bool(row["true"]) and row["verdict"] != NOT_JUDGED for row in rows)
    wrong = ("false alarm", "false assurance", "missed")
    return counts | {word: sum(bool(row[word]) for row in rows) for word in wrong}


def main() -> None:
    """Fly them all and write what came of it."""
    rows = [row for number in range(FLIGHTS) for row in flown_again(number)]
    RESULT.write_text(json.dumps({"flights": FLIGHTS, "kinds": summary(rows)}, indent=1) + "\n", "utf-8", newline="\n")


if __name__ == "__main__":
    main()

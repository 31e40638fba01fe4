"""More flights for the proof of debriefs: level at the minimum, go-arounds flown badly, whole procedures; their truth.

The truth is worked out from the samples of the simulation, by functions of their own.
"""

import math
import random
from collections.abc import Iterator
from dataclasses import replace

from lpv.core.units import FT_PER_NM
from lpv.simulate.records import Flight, Sample
from lpv.track.flown import Debrief, FlownApproach
from lpv.track.level_flight import compare_level, longest_level
from lpv.track.target import Fix
from lpv.track.verdicts import Comparison

LEVEL, MISSED, PROCEDURE = "level at the minimum", "missed approach", "whole procedure"
ENDINGS = (LEVEL, MISSED, PROCEDURE)
DA_FT, MISSED_FT, LEVEL_ABOVE_FT, LEVEL_FPM = 224.0, 3000.0, 60.0, 200.0
RUNWAY_FT, RAN_ON_S, CORNER_NM, OFF_FT = 22.0, 60, 2.0, 100.0
LEGS = """
[[leg]]
part = "transition"
transition = "BRYNA"
sequence = "010"
terminator = "IF"
fix = "BRYNA"
[[leg]]
part = "transition"
transition = "BRYNA"
sequence = "020"
terminator = "TF"
fix = "SWELO"
[[leg]]
part = "final"
sequence = "020"
terminator = "TF"
fix = "GULLY"
role = "PFAF"
"""


def events(ending: str, rng: random.Random) -> str:
    """What happens on such a flight, as rows of its scenario."""
    if ending == LEVEL:
        return _level(rng)
    return _missed(rng) if ending == MISSED else _off_the_legs(rng)


def _level(rng: random.Random) -> str:
    level_ft, lasts_s = DA_FT + rng.uniform(-70.0, 100.0), rng.choice((0.5, 6.0, 12.0, 20.0, 30.0))
    return (f'[[event]]\naltitude_ft = {DA_FT + 200.0:.0f}\ndoes = "disarm approach"\n'
            f"[[event]]\nafter_s = 0.5\nlevel_ft = {level_ft:.0f}\nrate_fpm = 650\n"
            f"[[event]]\naltitude_ft = {level_ft + 12.0:.0f}\nheading_deg = 94\n"
            f'[[event]]\nafter_s = {lasts_s}\ndoes = "go around"\n')


def _missed(rng: random.Random) -> str:
    top_ft = MISSED_FT + rng.choice((-400.0, -200.0, -150.0, -80.0, 0.0, 0.0, 80.0, 150.0, 300.0))
    turned_deg = rng.choice((0.0, 0.0, 5.0, -5.0, 15.0, -15.0))
    return (f'[[event]]\naltitude_ft = {rng.uniform(300.0, 1100.0):.0f}\ndoes = "go around"\n'
            f"[[event]]\nafter_s = 4\nheading_deg = {93.4 + turned_deg:.1f}\nlevel_ft = {top_ft:.0f}\n"
            f"rate_fpm = {rng.choice((300, 400, 500, 800, 1500, 2200))}\n")


def _off_the_legs(rng: random.Random) -> str:
    turned_deg, low_ft = rng.choice((0.0, 8.0, -8.0, 20.0, -20.0)), rng.choice((None, 2600.0, 2350.0, 2200.0, 2050.0))
    rows = '[[event]]\nacross_nm = -5.4\ndoes = "heading mode"\n'
    rows += f"[[event]]\nafter_s = 0.5\nheading_deg = {181.6 + turned_deg:.1f}\n"
    if low_ft:
        rows += f"[[event]]\nafter_s = 1\nlevel_ft = {low_ft:.0f}\nrate_fpm = 1200\n"
    rows += '[[event]]\nafter_s = 35\ndoes = "FMS lateral mode"\n'
    rows += '[[event]]\nacross_nm = -1.9\ndoes = "arm approach"\n'
    return rows + "[[event]]\ndistance_nm = 9\nlevel_ft = 2000\nrate_fpm = 800\n"


def ran_on(flight: Flight) -> Flight:
    """The flight with a minute of level flight after its end, where it was still in the air."""
    last = flight.samples[-1]
    if last.indicated_ft < DA_FT:
        return flight
    away_nm = last.ground_speed_kt / 3600.0
    more = [replace(last, time_s=last.time_s + n, along_nm=last.along_nm - n * away_nm, climb_fpm=0.0)
            for n in range(1, RAN_ON_S + 1)]
    return replace(flight, samples=(*flight.samples, *more))


# The truth


def truths(flight: Flight, debrief: Debrief, low_at: int, is_whole: bool) -> Iterator[tuple[str, Comparison, float]]:
    """(kind, comparison, true value) of what the debrief compares, and of level flight whether told or not.

    whole: whether it was flown from the initial fix; the others begin too low, so that their fixes prove little
    """
    flown, after = debrief.flown, flight.samples[low_at:]
    for moment in debrief.moments:
        for row in moment.compared:
            truth = None
            if moment.key == "gradient":
                truth = _gradient(after)
            elif moment.key == "missed course":
                before = [sample.across_ft for sample in after if sample.along_nm >= 0.0]
                truth = max(before, key=abs) if before else None
            elif moment.key == "missed altitude":
                truth = max(sample.indicated_ft for sample in after)
            elif is_whole and moment.key in ("fix", "leg"):
                truth = _before_the_faf(flight.samples, moment.what, row.item, flown)
            if truth is not None:
                yield moment.key, row, truth
    if flown.target.kind == "DA":
        yield "level at the minimum", compare_level(flown, longest_level(flown)), level_s(flight.samples)


def level_s(samples: tuple[Sample, ...]) -> float:
    """The longest level flight at or below the DA, before the threshold, off the ground."""
    longest, begin_s = 0.0, None
    for sample in samples:
        level = abs(sample.climb_fpm) <= LEVEL_FPM and sample.indicated_ft <= DA_FT + LEVEL_ABOVE_FT
        if level and sample.along_nm > 0.0 and sample.altitude_ft > RUNWAY_FT + 30.0:
            begin_s = sample.time_s if begin_s is None else begin_s
            longest = max(longest, sample.time_s - begin_s)
        else:
            begin_s = None
    return longest


def _gradient(after: tuple[Sample, ...]) -> float | None:
    top_ft = min(max(sample.indicated_ft for sample in after), MISSED_FT) - OFF_FT
    flown_nm, last = 0.0, after[0]
    for sample in after[1:]:
        flown_nm += math.hypot(sample.along_nm - last.along_nm, (sample.across_ft - last.across_ft) / FT_PER_NM)
        last = sample
        if sample.indicated_ft >= top_ft:
            break
    return (last.altitude_ft - after[0].altitude_ft) / flown_nm if flown_nm > 0.0 else None


def _before_the_faf(samples: tuple[Sample, ...], what: str, item: str, flown: FlownApproach) -> float | None:
    """The altitude over a fix, or how far off and how low on a leg, by the words of the moment."""
    named = [fix for fix in flown.target.fixes if fix.name in what]
    if item.startswith("altitude at"):
        return min(samples, key=lambda sample: _away_nm(sample, named[0])).indicated_ft
    begin, end = (min(range(len(samples)), key=lambda n: _away_nm(samples[n], fix)) for fix in named[:2])
    rows = samples[begin:end + 1]
    if item == "lowest on the leg":
        return min(row.indicated_ft for row in rows)
    first, last = named[:2]
    course = math.atan2(last.across_nm - first.across_nm, first.along_nm - last.along_nm)
    aside = []
    for row in rows:
        if min(_away_nm(row, first), _away_nm(row, last)) >= CORNER_NM:
            right, ahead = row.across_ft / FT_PER_NM - first.across_nm, first.along_nm - row.along_nm
            aside.append(right * math.cos(course) - ahead * math.sin(course))
    return max(aside, key=abs) if aside else None


def _away_nm(sample: Sample, fix: Fix) -> float:
    return math.hypot(sample.along_nm - fix.along_nm, sample.across_ft / FT_PER_NM - fix.across_nm)

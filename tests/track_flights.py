"""Approaches drawn by hand, as recordings: heights over distance, samples with noise, offsets and gaps, a seed."""

import math
import random
from dataclasses import dataclass, field, replace

from flight_files import files
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.geodesy import earth
from lpv.track import command as track
from lpv.track import files as track_files
from lpv.track.records import Conditions

AK, JET = files("normal")[1:]
DA_FT, THRESHOLD_FT, TCH_FT, GPA_DEG = 224.0, 22.0, 52.0, 3.0
PER_NM_FT = math.tan(math.radians(GPA_DEG)) * FT_PER_NM


def path_ft(along_nm):
    """Altitude on the straight path, flat earth: right to a foot within three miles."""
    return THRESHOLD_FT + TCH_FT + along_nm * PER_NM_FT + 0.88 * along_nm**2  # the earth falls away


@dataclass(frozen=True)
class Drawn:
    """A flight: (NM before the threshold, true altitude in ft) in the order flown, a straight line between two.

    across_ft:  right of the course, at each of the distances;  speed_kt: over the ground
    """

    heights: tuple
    across_ft: tuple = ()
    speed_kt: float = 120.0
    step_s: float = 1.0
    noise_ft: float = 0.0
    offset_ft: float = 0.0
    seed: str = "1"
    column: str = "altitude_msl_ft"
    gaps_s: tuple = ()
    decimals: int = 1
    temperature_c: float = 14.956  # standard at the airport
    more: dict = field(default_factory=dict)

    def samples(self):
        """(time, along, across, altitude) without noise."""
        rows, time_s = [], 0.0
        steps = list(zip(self.heights, self.heights[1:], strict=False))
        length_s = [abs(a[0] - b[0]) / self.speed_kt * 3600.0 for a, b in steps]
        total_s = sum(length_s)
        while time_s <= total_s + 1e-9:
            left_s, number = time_s, 0
            while number < len(steps) - 1 and left_s > length_s[number]:
                left_s -= length_s[number]
                number += 1
            share = min(1.0, left_s / length_s[number])
            (nm, ft), (to_nm, to_ft) = steps[number]
            sides = self.across_ft or (0.0,) * len(self.heights)
            rows.append((time_s, nm + share * (to_nm - nm),
                         sides[number] + share * (sides[number + 1] - sides[number]), ft + share * (to_ft - ft)))
            time_s += self.step_s
        return [row for row in rows if not any(a < row[0] < b for a, b in self.gaps_s)]

    def text(self):
        """The recording as CSV."""
        rng = random.Random(self.seed)
        rows = [f"time_s,latitude_deg,longitude_deg,{self.column}"]
        unit = M_PER_FT if self.column.endswith("_m") else 1.0
        for time_s, along_nm, across_ft, altitude_ft in self.samples():
            north, east = position(along_nm, across_ft)
            noisy_ft = altitude_ft + self.offset_ft + rng.gauss(0.0, self.noise_ft)
            rows.append(f"{time_s:.1f},{north:.6f},{east:.6f},{noisy_ft * unit:.{self.decimals}f}")
        return "\n".join(rows) + "\n"

    def debrief(self, aircraft=JET, **given):
        """What its recording tells."""
        conditions = Conditions(**{"temperature_c": 14.956, "minimum_ft": DA_FT} | self.more | given)
        return track.analyse(track_files.read_bytes(self.text().encode(), "drawn.csv"), AK, aircraft, conditions)

    def but(self, **changes):
        """The same with changes."""
        return replace(self, **changes)


def position(along_nm, across_ft):
    """A place by its distance before the threshold and right of the course."""
    held = AK.segment
    foot = earth.destination(held.ltp_latitude_deg, held.ltp_longitude_deg, AK.true_course_deg, -along_nm)
    ahead = earth.destination(held.ltp_latitude_deg, held.ltp_longitude_deg, AK.true_course_deg, 1.0 - along_nm)
    course_deg = earth.inverse(*foot, *ahead).course_deg
    return earth.destination(*foot, (course_deg + 90.0) % 360.0, across_ft / FT_PER_NM)


def on_path(down_to_nm, *then):
    """Heights on the path from 7 NM down to a distance, then others."""
    steps = [7.0 - 0.25 * n for n in range(int((7.0 - down_to_nm) / 0.25) + 1)]
    points = [(nm, path_ft(nm)) for nm in steps if nm > down_to_nm + 1e-9] + [(down_to_nm, path_ft(down_to_nm))]
    return (*points, *then)


def landing(*then):
    """On the path to the threshold, a touchdown 1000 ft beyond, and the runway."""
    return on_path(0.0, (-1000.0 / FT_PER_NM, THRESHOLD_FT), (-0.9, THRESHOLD_FT), *then)


def go_around_from(lowest_ft, climb_ft_per_nm=500.0):
    """On the path down to an altitude, and up again straight ahead to 2500 ft."""
    at_nm = 0.0
    for _ in range(30):
        at_nm += (lowest_ft - path_ft(at_nm)) / PER_NM_FT
    far_nm = at_nm - (2500.0 - lowest_ft) / climb_ft_per_nm
    return on_path(at_nm, (far_nm, 2500.0), (far_nm - 0.5, 2500.0))


def verdicts(debrief):
    """Kind of moment -> its verdict, the last of a kind."""
    return {moment.key: moment.verdict for moment in debrief.moments if moment.verdict}


def outside(debrief):
    """The kinds of moments outside limits."""
    return {moment.key for moment in debrief.moments if moment.verdict == "outside"}


def comparison(debrief, key, item=""):
    """A comparison of the first moment of a kind."""
    moment = next(moment for moment in debrief.moments if moment.key == key)
    return next(row for row in moment.compared if item in row.item)

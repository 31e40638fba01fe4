"""Makes the demo's recorded flights: simulated, then written as recorders write them, mistakes included.

    python -m demo.flights

writes docs/debrief/flights/*.csv and *.gpx; the .toml files beside them are written by hand.  A test compares the
committed files with what this script gives.  Every flight and every place in it is invented.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path

from lpv.air.atmosphere import pressure_altitude_from_setting_ft
from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.simulate import scenario
from lpv.simulate.report import place
from lpv.simulate.simulation import simulate

DOCS = Path(__file__).resolve().parents[2] / "docs"
FOLDER = DOCS / "debrief" / "flights"
FIRST = datetime(2026, 12, 1, 10, tzinfo=UTC)

SET_UP = 'set_up = ["take off", "load SBAS approach", "activate approach", "select SBAS"]'
STABLE = f"""
[scenario]
name = "Stable"
about = "Joined by the procedure, established early, stable, landed."
kind = "as it should be"
approach = "zzak-rnav-09"
aircraft = "large-jet"
invented = true
weight_lb = 55000
temperature_c = 5
activation = "procedure"
longest_s = 900
[start]
distance_nm = 12
across_nm = -0.8
heading_deg = 107
altitude_ft = 2500
speed_kt = 190
{SET_UP}
[[wind]]
height_ft = 0
from_deg = 110
speed_kt = 12
[[wind]]
height_ft = 3000
from_deg = 130
speed_kt = 24
[[event]]
distance_nm = 11.8
does = "arm approach"
[[event]]
distance_nm = 11.0
level_ft = 2000
rate_fpm = 500
"""
LATE = f"""
[scenario]
name = "Late"
about = "On vectors with the wind behind: through the course, high, steep by hand, below the path near the minimum."
kind = "course"
approach = "zzak-rnav-09"
aircraft = "light-jet"
invented = true
weight_lb = 10000
temperature_c = 15
activation = "vectors"
longest_s = 900
[start]
distance_nm = 12
across_nm = -3
heading_deg = 131.6
altitude_ft = 3000
speed_kt = 180
{SET_UP}
[[wind]]
height_ft = 0
from_deg = 300
speed_kt = 6
[[wind]]
height_ft = 3000
from_deg = 310
speed_kt = 22
[[event]]
across_nm = 0.1
does = "arm approach"
[[event]]
distance_nm = 6.2
level_ft = 200
rate_fpm = 1450
[[event]]
altitude_ft = 600
level_ft = 200
rate_fpm = 700
[[event]]
altitude_ft = 255
does = "go around"
"""
PATCHY = f"""
[scenario]
name = "Patchy"
about = "Flown well; the recorder was not well."
kind = "as it should be"
approach = "zzeg-rnp-24"
aircraft = "light-jet"
invented = true
weight_lb = 9500
temperature_c = 8
activation = "procedure"
longest_s = 900
[start]
distance_nm = 13
across_nm = 0.5
heading_deg = 231
altitude_ft = 3000
speed_kt = 170
{SET_UP}
[[event]]
distance_nm = 12.9
does = "arm approach"
[[event]]
altitude_ft = 400
does = "go around"
"""
COLD = f"""
[scenario]
name = "Cold"
about = "Very cold air, altitudes not corrected."
kind = "cold"
approach = "zzhc-rnav-33"
aircraft = "large-jet"
invented = true
weight_lb = 55000
temperature_c = -30
activation = "procedure"
longest_s = 900
[start]
distance_nm = 12
across_nm = 0
heading_deg = 331.2
altitude_ft = 9400
speed_kt = 200
{SET_UP}
[[event]]
distance_nm = 11.3
level_ft = 8700
rate_fpm = 800
[[event]]
distance_nm = 10
does = "arm approach"
"""
COLD_QNH = 1002.0
TENTH_S = 0.1


@dataclass(frozen=True)
class Sample:
    """What a recorder sees at one moment."""

    time_s: float
    latitude_deg: float
    longitude_deg: float
    msl_ft: float
    ellipsoid_m: float
    indicated_ft: float


@cache
def samples(text: str) -> tuple[Sample, ...]:
    """The samples of a scenario given as text, flown."""
    flight = scenario.read_text(text, "flight.toml")
    to = approach.read(DOCS / "approaches" / f"{flight.story.approach}.toml")
    jet = aircraft.read(DOCS / "aircraft" / f"{flight.story.aircraft}.toml")
    flown = simulate(flight, to, jet).samples
    if flown[-1].time_s - flown[-2].time_s < TENTH_S:  # a recorder that writes tenths has one sample there
        flown = flown[:-1]
    return tuple(
        Sample(sample.time_s, at.latitude_deg, at.longitude_deg, sample.altitude_ft, at.ellipsoid_height_m,
               sample.indicated_ft)
        for sample in flown for at in [place(sample, to)]
    )


def utc(time_s: float) -> str:
    """A time of the recording as ISO 8601."""
    return (FIRST + timedelta(seconds=round(time_s, 1))).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def stable_csv() -> str:
    """Once a second, GNSS and altimeter, altitudes in whole feet."""
    rows = ["# Invented for the demo.", "time_utc,latitude_deg,longitude_deg,altitude_msl_ft,altitude_indicated_ft"]
    rows += [f"{utc(sample.time_s)},{sample.latitude_deg:.6f},{sample.longitude_deg:.6f},{sample.msl_ft:.0f},"
             f"{sample.indicated_ft:.0f}" for sample in samples(STABLE)]
    return "\n".join(rows) + "\n"


def late_csv() -> str:
    """Every second second, GNSS only, with a column that nobody reads."""
    rows = ["# Invented for the demo.", "time_s,latitude_deg,longitude_deg,altitude_msl_ft,satellites"]
    rows += [f"{sample.time_s:.1f},{sample.latitude_deg:.6f},{sample.longitude_deg:.6f},{sample.msl_ft:.0f},11"
             for sample in samples(LATE)[::2]]
    return "\n".join(rows) + "\n"


def cold_csv() -> str:
    """A pressure altitude in steps of 25 ft, as transponders send it, beside heights above the ellipsoid."""
    rows = ["# Invented for the demo.", "time_s,latitude_deg,longitude_deg,altitude_ellipsoid_m,altitude_pressure_ft"]
    for sample in samples(COLD):
        pressure_ft = 25 * round(pressure_altitude_from_setting_ft(sample.indicated_ft, COLD_QNH) / 25)
        rows.append(f"{sample.time_s:.1f},{sample.latitude_deg:.6f},{sample.longitude_deg:.6f},{sample.ellipsoid_m:.1f},{pressure_ft}")
    return "\n".join(rows) + "\n"


def patchy_gpx() -> str:
    """Heights above the ellipsoid, handed on as if above mean sea level; with gaps, jumps and clock errors."""
    points = [
        f'   <trkpt lat="{lat:.6f}" lon="{sample.longitude_deg:.6f}"><ele>{sample.ellipsoid_m:.1f}</ele>'
        f"<time>{utc(time_s)}</time></trkpt>"
        for sample, time_s, lat in _spoilt(samples(PATCHY))
    ]
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n<!-- Invented for the demo. -->\n'
        '<gpx version="1.1" creator="LPV handbook" xmlns="http://www.topografix.com/GPX/1/1">\n'
        " <trk>\n  <trkseg>\n" + "\n".join(points) + "\n  </trkseg>\n </trk>\n</gpx>\n"
    )


def _spoilt(flown: Iterable[Sample]) -> Iterator[tuple[Sample, float, float]]:
    """(sample, recorded time, recorded latitude): irregular, 40 s missing, a jump, a time twice, a clock gone wrong."""
    for number, sample in enumerate(flown):
        if number % 7 == 3 or 150 <= number < 190:
            continue
        time_s = sample.time_s - 3600.0 if number == 60 else sample.time_s
        yield sample, time_s, sample.latitude_deg + (0.05 if number in (99, 100, 102) else 0.0)
        if number == 120:
            yield sample, sample.time_s, sample.latitude_deg


def flights() -> dict[str, str]:
    """Name of the file -> text of every recording."""
    return {"stable.csv": stable_csv(), "late.csv": late_csv(), "cold.csv": cold_csv(), "patchy.gpx": patchy_gpx()}


def main() -> None:
    """Write them all."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name, text in flights().items():
        (FOLDER / name).write_text(text, "utf-8", newline="\n")


if __name__ == "__main__":
    main()

"""Simulated flights as recordings, for the tests of what is read back from them."""

import functools

from flight_files import files, flown
from lpv.simulate.report import place
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track.records import Conditions

DECIMALS, M_DECIMALS = 6, 1  # of a degree, of a metre
HEADER = "time_s,latitude_deg,longitude_deg,altitude_ellipsoid_m"


def csv_of(samples, approach, header=HEADER):
    """A recording of simulated samples: positions and heights rounded as recorders round them."""
    rows = [header]
    for sample in samples:
        at = place(sample, approach)
        rows.append(f"{sample.time_s:.3f},{at.latitude_deg:.{DECIMALS}f},{at.longitude_deg:.{DECIMALS}f},"
                    f"{at.ellipsoid_height_m:.{M_DECIMALS}f}")
    return "\n".join(rows) + "\n"


@functools.cache
def debrief_of(name):
    """What the recording of one of the demo's scenarios tells."""
    scenario, approach, aircraft = files(name)
    recording = track_reader.read_bytes(csv_of(flown(name).samples, approach).encode(), "flight.csv")
    story = scenario.story
    given = Conditions(story.temperature_c, None, story.activation, story.minimum_ft)
    return track.analyse(recording, approach, aircraft, given)

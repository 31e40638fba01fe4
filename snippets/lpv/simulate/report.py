"""What a simulated flight amounts to: its timeline and its headline numbers."""

from dataclasses import dataclass

from lpv.approach.record import Approach
from lpv.core.units import FT_PER_NM, M_PER_FT, degrees_360
from lpv.geodesy import earth
from lpv.path.sbas_scale import ESTABLISHED_DOTS
from lpv.simulate.records import Flight, Moment, Sample


@dataclass(frozen=True)
class Summary:
    """Headline numbers of a flight; None for what did not happen.

    course_captured, path_captured: first capture;  pfaf, minimum, go_around, lowest: as passed
    overshoot_ft:   farthest beyond the final course before a go-around, seen from where the flight began; 0 if it
                    began on the course
    established_nm: distance before the threshold from which the SBAS course deviation stays within one dot, until
                    the flight ends or goes around
    steepest_bank_deg, highest_sink_fpm: to either side; until the flight ends
    unstable:       names of the gates at which something was not met
    """

    ending: str
    course_captured: Sample | None
    path_captured: Sample | None
    overshoot_ft: float
    established_nm: float | None
    pfaf: Sample | None
    minimum: Sample | None
    go_around: Sample | None
    lowest: Sample | None
    steepest_bank_deg: float
    highest_sink_fpm: float
    unstable: tuple[str, ...]


def timeline(flight: Flight) -> list[Moment]:
    """Everything that happened, in order: time, what in words, what is announced then (`Moment`)."""
    return list(flight.moments)


def summary(flight: Flight) -> Summary:
    """The headline numbers of a flight."""
    side = flight.samples[0].across_ft
    beyond_ft = [-sample.across_ft if side > 0.0 else sample.across_ft for sample in _to_go_around(flight)]
    return Summary(
        flight.ending,
        _first(flight, "course reached"),
        _first(flight, "path reached from below") or _first(flight, "path reached from above"),
        max(0.0, *beyond_ft) if side else 0.0,
        _established_nm(flight),
        _first(flight, "PFAF passed"), _first(flight, "minimum"), _first(flight, "go around"),
        _first(flight, "lowest"),
        max(abs(sample.bank_deg) for sample in flight.samples),
        max(-sample.climb_fpm for sample in flight.samples),
        tuple(judged.gate.name for judged in flight.gates if not judged.stable),
    )


def _first(flight: Flight, key: str) -> Sample | None:
    return next((moment.sample for moment in flight.moments if moment.key == key), None)


def _to_go_around(flight: Flight) -> list[Sample]:
    """The samples of the approach itself."""
    around = _first(flight, "go around")
    return [s for s in flight.samples if around is None or s.time_s <= around.time_s]


def _established_nm(flight: Flight) -> float | None:
    established_nm = None
    for sample in reversed(_to_go_around(flight)):
        if abs(sample.course_dots) > ESTABLISHED_DOTS:
            break
        established_nm = sample.along_nm
    return established_nm


@dataclass(frozen=True)
class Place:
    """A position on the ellipsoid and the height above it."""

    latitude_deg: float
    longitude_deg: float
    ellipsoid_height_m: float


def place(sample: Sample, approach: Approach) -> Place:
    """Where a sample is on the earth; DomainError as `lpv.geodesy.earth.destination`.

    The geoid is taken as parallel to the ellipsoid between there and the threshold.
    """
    coded, chart = approach.segment, approach.chart
    start = coded.ltp_latitude_deg, coded.ltp_longitude_deg, approach.true_course_deg
    foot, ahead = (earth.destination(*start, nm - sample.along_nm) for nm in (0.0, 1.0))
    right_deg = degrees_360(earth.inverse(*foot, *ahead).course_deg + 90.0)
    point = earth.destination(*foot, right_deg, sample.across_ft / FT_PER_NM)
    above_threshold_m = (sample.altitude_ft - chart.threshold_elevation_ft) * M_PER_FT
    return Place(*point, coded.ltp_height_m + above_threshold_m)

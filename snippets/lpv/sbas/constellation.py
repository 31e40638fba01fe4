"""Where the GPS satellites are: orbits, GPS time, the baseline constellation of 24 slots.

GPS time is counted in seconds since the start of week 0 (6 January 1980), never in a broken week.
Simplification: positions are those of the moment of reception; the signal's travel time (some
0.07 s, under 0.001 deg in the sky) is left out.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from lpv.core.errors import DomainError, above, in_range
from lpv.facts import fact, value
from lpv.facts.constellation import PLANES

WEEK_S = 604800.0
GPS_START = datetime(1980, 1, 6, tzinfo=UTC)
KEPLER_ROUNDS = 20


@dataclass(frozen=True)
class Orbit:
    """One satellite's almanac orbit, in the units of the broadcast almanac.

    name:                 what the satellite is called here ("PRN 01", "A1")
    health:               0 is good, anything else is not to be used
    node_rad:             longitude of the ascending node at the start of the week
    reference_gps_s:      time of applicability, in seconds since the start of GPS week 0
    The clock terms do not move a satellite; they are kept so that an almanac can be written again.
    """

    name: str
    health: int
    eccentricity: float
    reference_gps_s: float
    inclination_rad: float
    node_rate_rad_s: float
    root_axis_root_m: float
    node_rad: float
    perigee_rad: float
    mean_anomaly_rad: float
    clock_s: float = 0.0
    clock_rate: float = 0.0


@dataclass(frozen=True)
class Ecef:
    """A position in the earth-fixed frame, in metres."""

    x_m: float
    y_m: float
    z_m: float


def gps_seconds(week: int, time_of_week_s: float) -> float:
    """Seconds since the start of GPS week 0, from a full week (0 to 9999, not modulo 1024) and the time in it."""
    in_range("GPS week", week, 0, 9999)
    return week * WEEK_S + in_range("time of week", time_of_week_s, 0.0, WEEK_S, "s")


def mean_motion_rad_s(root_axis_root_m: float) -> float:
    """Mean motion in radians a second, from the square root of the semi-major axis (IS-GPS-200)."""
    return math.sqrt(value("gravity_constant_m3_s2")) / above("root of the axis", root_axis_root_m, 0.0) ** 3


def eccentric_anomaly_rad(mean_anomaly_rad: float, eccentricity: float) -> float:
    """Eccentric anomaly in radians for an eccentricity of 0 to 0.9: M = E - e sin E, by Newton's method."""
    in_range("eccentricity", eccentricity, 0.0, 0.9)
    mean = math.remainder(mean_anomaly_rad, 2.0 * math.pi)
    anomaly = mean + math.copysign(eccentricity, mean)
    for _ in range(KEPLER_ROUNDS):
        step = (anomaly - eccentricity * math.sin(anomaly) - mean) / (1.0 - eccentricity * math.cos(anomaly))
        anomaly -= step
        if abs(step) < 1e-14:
            break
    return anomaly


def position(orbit: Orbit, gps_s: float) -> Ecef:
    """The satellite in the earth-fixed frame at a GPS time, to week 9999 (IS-GPS-200, almanac user algorithm)."""
    earth_rate = value("earth_rotation_rad_s")
    elapsed_s = in_range("GPS time", gps_s, 0.0, 9999 * WEEK_S, "s") - orbit.reference_gps_s
    time_of_week_s = math.fmod(orbit.reference_gps_s, WEEK_S)
    axis_m = orbit.root_axis_root_m**2
    mean = orbit.mean_anomaly_rad + mean_motion_rad_s(orbit.root_axis_root_m) * elapsed_s
    eccentric = eccentric_anomaly_rad(mean, orbit.eccentricity)
    e = orbit.eccentricity
    true = math.atan2(math.sqrt(1.0 - e * e) * math.sin(eccentric), math.cos(eccentric) - e)
    latitude_argument = true + orbit.perigee_rad
    radius_m = axis_m * (1.0 - e * math.cos(eccentric))
    node = orbit.node_rad + (orbit.node_rate_rad_s - earth_rate) * elapsed_s - earth_rate * time_of_week_s
    along, across = radius_m * math.cos(latitude_argument), radius_m * math.sin(latitude_argument)
    level = across * math.cos(orbit.inclination_rad)
    return Ecef(
        along * math.cos(node) - level * math.sin(node),
        along * math.sin(node) + level * math.cos(node),
        across * math.sin(orbit.inclination_rad),
    )


def baseline() -> tuple[Orbit, ...]:
    """The 24 slots of the GPS baseline constellation, circular orbits, named A1 to F4.

    Reference time is the table's epoch (GPS week 703). The table gives right ascensions; the longitude
    of a node at the start of the week is RAAN - GHA + earth rotation x time of week. No node drift.
    """
    return tuple(
        _slot(f"{plane}{number}", node_deg, argument_deg)
        for plane, (node_deg, arguments_deg) in PLANES.items()
        for number, argument_deg in enumerate(arguments_deg, 1)
    )


def baseline_epoch_gps_s() -> float:
    """The epoch of the slot table, 0000Z 1 July 1993, in seconds since the start of GPS week 0.

    The leap seconds until then are left out.
    """
    return (datetime.fromisoformat(str(fact("slot_epoch").value)) - GPS_START) / timedelta(seconds=1)


def _slot(name: str, node_deg: float, argument_deg: float) -> Orbit:
    epoch_s = baseline_epoch_gps_s() % WEEK_S
    longitude_rad = math.radians(node_deg - value("slot_greenwich_hour_angle_deg"))
    return Orbit(
        name=name,
        health=0,
        eccentricity=0.0,
        reference_gps_s=baseline_epoch_gps_s(),
        inclination_rad=math.radians(value("slot_inclination_deg")),
        node_rate_rad_s=0.0,
        root_axis_root_m=math.sqrt(value("slot_semi_major_axis_km") * 1000.0),
        node_rad=math.remainder(longitude_rad + value("earth_rotation_rad_s") * epoch_s, 2.0 * math.pi),
        perigee_rad=0.0,
        mean_anomaly_rad=math.radians(argument_deg),
    )


def geostationary(longitude_deg: float) -> Ecef:
    """A geostationary satellite above the equator at a longitude of -180 to 180 deg.

    Its radius is where one turn takes as long as the earth's: a = (mu / earth rate^2)^(1/3) (Kepler's
    third law). DomainError outside.
    """
    longitude = math.radians(in_range("longitude", longitude_deg, -180.0, 180.0, "deg"))
    radius_m = math.cbrt(value("gravity_constant_m3_s2") / value("earth_rotation_rad_s") ** 2)
    return Ecef(radius_m * math.cos(longitude), radius_m * math.sin(longitude), 0.0)


def healthy(orbits: Sequence[Orbit]) -> tuple[Orbit, ...]:
    """The satellites whose health is 0; `unhealthy` names the others, so that a page can say so."""
    return tuple(orbit for orbit in orbits if orbit.health == 0)


def without(orbits: Sequence[Orbit], names: Collection[str]) -> tuple[Orbit, ...]:
    """The constellation with some satellites taken out; DomainError names those that are not in it."""
    unknown = sorted(set(names) - {orbit.name for orbit in orbits})
    if unknown:
        raise DomainError(f"satellites: found {', '.join(unknown)}; allowed: names of this constellation.")
    return tuple(orbit for orbit in orbits if orbit.name not in names)

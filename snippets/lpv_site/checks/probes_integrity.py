"""Adapters for check values on integrity: plain arguments in, one number or record out."""

import math
from dataclasses import replace

from lpv.sbas.almanac import read_yuma
from lpv.sbas.constellation import WEEK_S, Ecef, Orbit, baseline, gps_seconds, position
from lpv.sbas.error_model import Receiver, airborne_sigma_m, default_error_model, sigma_m, variance_m2
from lpv.sbas.integrity import Dops, ProtectionLevels, dops, protection_levels
from lpv.sbas.ionosphere import cell_variance_m2
from lpv.sbas.masks import Masks
from lpv.sbas.sky import Sight, Site, visible
from lpv_site.checks.checks import FOLDER

# The published almanac of the slot table puts right ascensions where the longitude at the start of the
# week belongs, and the epoch at this second of the week; its numbering swaps two slots.
TABLE_AS_ALMANAC_S = 344063.0
TABLE_ROOT_AXIS = 5153.620087  # the almanac's; the standard's 26 559.7 km give 5153.6104
TABLE_NUMBERS = {"E3": "20", "E4": "19"}


def almanac_position(file: str, name: str, week: int, time_s: float) -> Ecef:
    """A satellite of a retyped almanac at a GPS time."""
    orbits = read_yuma((FOLDER / "almanac" / file).read_text("ascii"), file, week)
    orbit = next(orbit for orbit in orbits if orbit.name == name)
    return position(orbit, gps_seconds(week, time_s))


def table_as_almanac() -> tuple[Orbit, ...]:
    """The 24 slots as that almanac has them, numbered in its way, in GPS week 0."""
    turn_rad = math.radians(279.060)
    return tuple(
        replace(
            orbit,
            name=TABLE_NUMBERS.get(orbit.name, f"{number:02d}"),
            node_rad=orbit.node_rad + turn_rad - 7.2921151467e-5 * (orbit.reference_gps_s % WEEK_S),
            reference_gps_s=TABLE_AS_ALMANAC_S,
            root_axis_root_m=TABLE_ROOT_AXIS,
        )
        for number, orbit in enumerate(baseline(), 1)
    )


def table_position(name: str, time_s: float) -> Ecef:
    """A slot of that almanac in the earth-fixed frame."""
    return position(next(orbit for orbit in table_as_almanac() if orbit.name == name), time_s)


def table_sights(latitude_deg: float, longitude_deg: float, time_s: float) -> tuple[Sight, ...]:
    """What is in view of that almanac above 5 deg."""
    return visible(table_as_almanac(), Site(latitude_deg, longitude_deg), time_s, Masks())


def table_sight(latitude_deg: float, longitude_deg: float, time_s: float, name: str) -> Sight:
    """One of those satellites in the sky."""
    return next(sight for sight in table_sights(latitude_deg, longitude_deg, time_s) if sight.name == name)


def table_variance_m2(latitude_deg: float, longitude_deg: float, time_s: float, name: str) -> float:
    """The variance of one of those satellites with the default error model."""
    return variance_m2(
        table_sight(latitude_deg, longitude_deg, time_s, name).elevation_deg, default_error_model()
    )


def table_count(latitude_deg: float, longitude_deg: float, time_s: float) -> int:
    """How many satellites of that almanac are in view above 5 deg."""
    return len(table_sights(latitude_deg, longitude_deg, time_s))


def table_dops(latitude_deg: float, longitude_deg: float, time_s: float) -> Dops:
    """Dilution of precision with that almanac."""
    sights = table_sights(latitude_deg, longitude_deg, time_s)
    return dops([s.azimuth_deg for s in sights], [s.elevation_deg for s in sights])


def table_levels(latitude_deg: float, longitude_deg: float, time_s: float) -> ProtectionLevels:
    """Protection levels with that almanac and the default error model."""
    sights = table_sights(latitude_deg, longitude_deg, time_s)
    sigmas = [sigma_m(s.elevation_deg, default_error_model()) for s in sights]
    return protection_levels([s.azimuth_deg for s in sights], [s.elevation_deg for s in sights], sigmas)


def airborne_sigma_with_noise_m(
    elevation_deg: float, noise_m: float, low_m: float = 0.0, decay_deg: float = 1.0
) -> float:
    """Airborne standard deviation with a receiver noise given as numbers."""
    return airborne_sigma_m(elevation_deg, Receiver(noise_m, low_m, decay_deg))


def interpolated_variance_m2(latitude_deg: float, longitude_deg: float, corners_m2: list[float]) -> float:
    """Variance in the 10 deg cell round 0 N 0 E."""
    return cell_variance_m2(latitude_deg, longitude_deg, (-5.0, -5.0), 10.0, corners_m2)


def baseline_pdop_share(pdop_highest: float) -> float:
    """Share of places and times, a day at full hours, with at most this PDOP; baseline constellation.

    Places on a grid of 20 deg of latitude by 60 deg of longitude, weighted by the cosine of latitude.
    """
    total = good = 0.0
    for latitude_deg in range(-80, 81, 20):
        weight = math.cos(math.radians(latitude_deg))
        for longitude_deg in range(-180, 180, 60):
            for number in range(24):
                total += weight
                good += weight * (_baseline_pdop(latitude_deg, longitude_deg, number) <= pdop_highest)
    return good / total


def baseline_pdop_share_reaches(pdop_highest: float, share: float) -> bool:
    """Whether that share is at least so large."""
    return baseline_pdop_share(pdop_highest) >= share


def _baseline_pdop(latitude_deg: float, longitude_deg: float, number: int) -> float:
    gps_s = gps_seconds(703, 345600.0 + number * 3600.0)
    sights = visible(baseline(), Site(latitude_deg, longitude_deg), gps_s, Masks())
    return dops([s.azimuth_deg for s in sights], [s.elevation_deg for s in sights]).pdop

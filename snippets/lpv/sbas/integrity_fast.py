"""Protection levels for many moments at once, with numpy.

The same formulas as `lpv.sbas.constellation`, `lpv.sbas.sky`, `lpv.sbas.error_model` and `lpv.sbas.integrity`,
which stay
the readable reference and the oracle of its tests.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lpv.core.errors import in_range
from lpv.facts import value
from lpv.geodesy.local_frame import axes, ecef_m
from lpv.sbas.constellation import KEPLER_ROUNDS, WEEK_S, Orbit, healthy, mean_motion_rad_s, without
from lpv.sbas.error_model import ErrorModel
from lpv.sbas.integrity import VARIANCE_HIGHEST
from lpv.sbas.level import Limits, availability
from lpv.sbas.masks import Masks, elevation_above_wings_deg, terrain_elevation_deg
from lpv.sbas.service import Epoch
from lpv.sbas.sky import Site

Array = NDArray[np.float64]


def positions(orbits: Sequence[Orbit], moments: Sequence[float]) -> Array:
    """Earth-fixed positions in metres, shape (moments, satellites, 3), by the equations of IS-GPS-200.

    moments: GPS time in seconds, 0 to 9999 weeks; DomainError outside
    """
    for gps_s in (min(moments), max(moments)):
        in_range("GPS time", gps_s, 0.0, 9999 * WEEK_S, "s")
    e, reference_s, tilt, node_rate, node, perigee, mean = _columns(orbits)
    axis_m = np.array([orbit.root_axis_root_m**2 for orbit in orbits])
    motion = np.array([mean_motion_rad_s(orbit.root_axis_root_m) for orbit in orbits])
    elapsed_s = np.asarray(moments, dtype=np.float64)[:, None] - reference_s
    eccentric = _eccentric_anomaly(mean + motion * elapsed_s, e)
    true = np.arctan2(np.sqrt(1.0 - e * e) * np.sin(eccentric), np.cos(eccentric) - e)
    radius_m = axis_m * (1.0 - e * np.cos(eccentric))
    earth_rate = value("earth_rotation_rad_s")
    turned = node + (node_rate - earth_rate) * elapsed_s - earth_rate * np.fmod(reference_s, WEEK_S)
    along, across = radius_m * np.cos(true + perigee), radius_m * np.sin(true + perigee)
    level = across * np.cos(tilt)
    return np.stack(
        [
            along * np.cos(turned) - level * np.sin(turned),
            along * np.sin(turned) + level * np.cos(turned),
            across * np.sin(tilt),
        ],
        axis=-1,
    )


def _columns(orbits: Sequence[Orbit]) -> list[Array]:
    rows = [
        (
            orbit.eccentricity, orbit.reference_gps_s, orbit.inclination_rad, orbit.node_rate_rad_s,
            orbit.node_rad, orbit.perigee_rad, orbit.mean_anomaly_rad,
        )
        for orbit in orbits
    ]
    return list(np.array(rows, dtype=np.float64).T)


def _eccentric_anomaly(mean: Array, e: Array) -> Array:
    anomaly = mean + e * np.sin(mean)
    for _ in range(KEPLER_ROUNDS):
        step = (anomaly - e * np.sin(anomaly) - mean) / (1.0 - e * np.cos(anomaly))
        anomaly = anomaly - step
        if np.abs(step).max() < 1e-14 * max(1.0, float(np.abs(mean).max())):
            break
    return anomaly


def directions(where: Array, site: Site) -> Array:
    """Unit vectors east, north and up from a place to positions."""
    away = where - np.array(ecef_m(site.latitude_deg, site.longitude_deg, site.height_m))
    away /= np.linalg.norm(away, axis=-1, keepdims=True)
    local: Array = away @ np.array(axes(site.latitude_deg, site.longitude_deg)).T
    return local


def _in_view(azimuths_deg: Array, elevations_deg: Array, masks: Masks) -> NDArray[np.bool_]:
    lowest_deg = max(masks.elevation_deg, value("mask_elevation_deg"))
    in_view: NDArray[np.bool_] = elevations_deg >= lowest_deg
    for place in zip(*np.nonzero(in_view), strict=True) if _shadowed(masks) else ():
        azimuth_deg, elevation_deg = float(azimuths_deg[place]), float(elevations_deg[place])
        wings_deg = elevation_above_wings_deg(azimuth_deg, elevation_deg, masks.heading_deg, masks.bank_deg)
        in_view[place] = wings_deg >= masks.wing_deg and elevation_deg >= terrain_elevation_deg(
            masks.terrain, azimuth_deg
        )
    return in_view


def _shadowed(masks: Masks) -> bool:
    return bool(masks.terrain) or masks.bank_deg != 0.0 or masks.wing_deg > masks.elevation_deg


def _variances_m2(elevations_deg: Array, model: ErrorModel) -> Array:
    radians = np.radians(elevations_deg)
    radius_km, height_km = value("ionosphere_earth_radius_km"), value("ionosphere_height_km")
    obliquity2 = 1.0 / (1.0 - (radius_km * np.cos(radians) / (radius_km + height_km)) ** 2)
    fading = np.exp(-elevations_deg / value("multipath_decay_deg"))
    multipath_m = value("multipath_floor_m") + value("multipath_low_m") * fading
    noise_m = model.receiver.floor_m + model.receiver.low_m * np.exp(-elevations_deg / model.receiver.decay_deg)
    mapping2 = value("troposphere_mapping_numerator") ** 2 / (
        value("troposphere_mapping_offset") + np.sin(radians) ** 2
    )
    troposphere_m2 = value("troposphere_vertical_sigma_m") ** 2 * mapping2
    variances: Array = (
        model.udre_variance_m2 + obliquity2 * model.give_variance_m2 + multipath_m**2 + noise_m**2 + troposphere_m2
    )
    return variances


def span(
    orbits: Sequence[Orbit], site: Site, moments: Sequence[float], masks: Masks, model: ErrorModel
) -> tuple[Epoch, ...]:
    """Protection levels at every moment, as `lpv.sbas.service.span`; DomainError for a moment outside GPS time."""
    used = healthy(orbits)
    if not used or not moments:
        return tuple(Epoch(gps_s, 0, None, None, None) for gps_s in moments)
    return _epochs(moments, *_view(used, site, moments, masks, model))


def missing_one(
    orbits: Sequence[Orbit], site: Site, moments: Sequence[float], masks: Masks, model: ErrorModel
) -> dict[str, tuple[Epoch, ...]]:
    """`span` without one healthy satellite, for each of them, by the name of the one that is missing."""
    used = healthy(orbits)
    if not used or not moments:
        return {orbit.name: () for orbit in used}
    rows, weights = _view(used, site, moments, masks, model)
    return {
        orbit.name: _epochs(moments, np.delete(rows, number, axis=1), np.delete(weights, number, axis=1))
        for number, orbit in enumerate(used)
    }


def missed_most(
    orbits: Sequence[Orbit], count: int, site: Site, moments: Sequence[float], masks: Masks, model: ErrorModel,
    limits: Limits, level: str,
) -> dict[tuple[str, ...], tuple[Epoch, ...]]:
    """`span` with all satellites, then without the one that a level misses most, then without the next too.

    The keys name those that are missing.  DomainError for more than there are.
    """
    in_range("satellites missing", count, 0, len(healthy(orbits)) - 1)
    out: tuple[str, ...] = ()
    days = {out: span(orbits, site, moments, masks, model)}
    for _ in range(count):
        fewer = missing_one(without(orbits, out), site, moments, masks, model)
        out = (*out, min(fewer, key=lambda name: availability(fewer[name], limits, level)))
        days[out] = fewer[out[-1]]
    return days


def _view(
    orbits: Sequence[Orbit], site: Site, moments: Sequence[float], masks: Masks, model: ErrorModel
) -> tuple[Array, Array]:
    """Geometry rows and weights by moment and satellite; the weight of one that is not in view is 0."""
    units = directions(positions(orbits, moments), site)
    azimuths_deg = np.degrees(np.arctan2(units[..., 0], units[..., 1])) % 360.0
    elevations_deg = np.degrees(np.arcsin(np.clip(units[..., 2], -1.0, 1.0)))
    in_view = _in_view(azimuths_deg, elevations_deg, masks)
    weights = np.where(in_view, 1.0 / _variances_m2(np.where(in_view, elevations_deg, 90.0), model), 0.0)
    rows = np.concatenate([units, np.ones((*units.shape[:2], 1))], axis=-1)
    return rows, weights


def _epochs(moments: Sequence[float], rows: Array, weights: Array) -> tuple[Epoch, ...]:
    normal = np.matmul(np.swapaxes(rows * weights[..., None], 1, 2), rows)
    counts = (weights > 0.0).sum(axis=1)
    return tuple(
        Epoch(gps_s, int(count), *levels)
        for gps_s, count, levels in zip(moments, counts, _levels(normal, counts), strict=True)
    )


def _levels(normal: Array, counts: NDArray[np.int_]) -> list[tuple[float | None, float | None, float | None]]:
    """HPL for precision and nonprecision approach and VPL; None where there is no position."""
    good = (counts >= value("satellites_lowest")) & (np.linalg.det(normal) > 0.0)
    inverse = np.linalg.inv(np.where(good[:, None, None], normal, np.eye(4)))
    east, north, up, both = inverse[:, 0, 0], inverse[:, 1, 1], inverse[:, 2, 2], inverse[:, 0, 1]
    diagonal = np.diagonal(inverse, axis1=1, axis2=2)
    good &= np.all((diagonal > 0.0) & (diagonal < VARIANCE_HIGHEST), axis=1)
    squared = (east + north) / 2.0 + np.sqrt(((east - north) / 2.0) ** 2 + both**2)
    major_m, up_m = np.sqrt(np.where(good, squared, 0.0)), np.sqrt(np.where(good, up, 0.0))
    pa, npa, vertical = value("k_horizontal_pa"), value("k_horizontal_npa"), value("k_vertical_pa")
    return [
        (pa * float(major), npa * float(major), vertical * float(height)) if fixed else (None, None, None)
        for fixed, major, height in zip(good, major_m, up_m, strict=True)
    ]

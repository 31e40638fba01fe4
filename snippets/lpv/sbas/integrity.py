"""Protection levels and dilution of precision, in plain Python: what the receiver compares with HAL and VAL.

The geometry row of a satellite is [cos E sin A, cos E cos A, sin E, 1] (east, north, up, clock);
C = (G^T W G)^-1 with the weights 1 / sigma^2.  This is the readable reference; `lpv.sbas.integrity_fast`
does the same for a whole day at once and is tested against it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lpv.core.errors import DomainError, above, in_range
from lpv.facts import value

UNKNOWNS = 4
VARIANCE_HIGHEST = 1e9  # beyond it the satellites do not fix a position


@dataclass(frozen=True)
class ProtectionLevels:
    """Standard deviations east, north, up, of the major axis, and the protection levels, in metres.

    d_east_north_m2 is the covariance of east and north, in m².
    """

    d_east_m: float
    d_north_m: float
    d_east_north_m2: float
    d_up_m: float
    d_major_m: float
    hpl_pa_m: float
    hpl_npa_m: float
    vpl_m: float


@dataclass(frozen=True)
class Dops:
    """Dilution of precision: geometric, position, horizontal, vertical, time."""

    gdop: float
    pdop: float
    hdop: float
    vdop: float
    tdop: float


def geometry_row(azimuth_deg: float, elevation_deg: float) -> tuple[float, float, float, float]:
    """Unit vector to the satellite, east, north and up, and 1 for the clock (RTKLIB dops).

    azimuth_deg: -360 to 360; elevation_deg: -90 to 90; DomainError outside
    """
    azimuth = math.radians(in_range("azimuth", azimuth_deg, -360.0, 360.0, "deg"))
    elevation = math.radians(in_range("elevation", elevation_deg, -90.0, 90.0, "deg"))
    level = math.cos(elevation)
    return level * math.sin(azimuth), level * math.cos(azimuth), math.sin(elevation), 1.0


def covariance(
    azimuths_deg: Sequence[float], elevations_deg: Sequence[float], sigmas_m: Sequence[float]
) -> list[list[float]]:
    """(G^T W G)^-1 for east, north, up and clock, in m².

    DomainError for lists of different lengths, fewer than four satellites, or satellites that do not
    fix a position (all in one plane with the place's clock, or one satellite named twice).
    """
    if not len(azimuths_deg) == len(elevations_deg) == len(sigmas_m):
        raise DomainError("satellites: found lists of different lengths; allowed: one value a satellite.")
    if len(azimuths_deg) < value("satellites_lowest"):
        raise DomainError(f"satellites: found {len(azimuths_deg)}; allowed: 4 or more.")
    rows = [geometry_row(a, e) for a, e in zip(azimuths_deg, elevations_deg, strict=True)]
    weights = [1.0 / above("sigma", sigma, 0.0, "m") ** 2 for sigma in sigmas_m]
    normal = [
        [sum(w * row[i] * row[j] for w, row in zip(weights, rows, strict=True)) for j in range(UNKNOWNS)]
        for i in range(UNKNOWNS)
    ]
    return _inverse(normal)


def _inverse(matrix: list[list[float]]) -> list[list[float]]:
    """Inverse of the normal matrix, by elimination with row pivots."""
    size = len(matrix)
    work = [row[:] + [float(i == j) for j in range(size)] for i, row in enumerate(matrix)]
    for column in range(size):
        pivot = max(range(column, size), key=lambda row: abs(work[row][column]))
        if work[pivot][column] == 0.0:
            raise DomainError("satellites: found in places that fix no position; allowed: spread in the sky.")
        work[column], work[pivot] = work[pivot], work[column]
        work[column] = [item / work[column][column] for item in work[column]]
        for row in range(size):
            if row != column:
                factor = work[row][column]
                work[row] = [a - factor * b for a, b in zip(work[row], work[column], strict=True)]
    inverse = [row[size:] for row in work]
    if not all(0.0 < inverse[i][i] < VARIANCE_HIGHEST for i in range(size)):
        raise DomainError("satellites: found in places that fix no position; allowed: spread in the sky.")
    return inverse


def protection_levels(
    azimuths_deg: Sequence[float], elevations_deg: Sequence[float], sigmas_m: Sequence[float]
) -> ProtectionLevels:
    """HPL for precision and nonprecision approach and VPL, from the satellites used and their sigmas.

    The nonprecision level here takes the same corrections; a receiver without grid corrections takes
    larger sigmas. DomainError as `covariance`.
    """
    matrix = covariance(azimuths_deg, elevations_deg, sigmas_m)
    east, north, both, up = matrix[0][0], matrix[1][1], matrix[0][1], matrix[2][2]
    # d_major = sqrt((dE^2 + dN^2)/2 + sqrt(((dE^2 - dN^2)/2)^2 + dEN^2))
    spread = math.sqrt(((east - north) / 2.0) ** 2 + both * both)
    major_m = math.sqrt((east + north) / 2.0 + spread)
    return ProtectionLevels(
        d_east_m=math.sqrt(east),
        d_north_m=math.sqrt(north),
        d_east_north_m2=both,
        d_up_m=math.sqrt(up),
        d_major_m=major_m,
        hpl_pa_m=value("k_horizontal_pa") * major_m,
        hpl_npa_m=value("k_horizontal_npa") * major_m,
        vpl_m=value("k_vertical_pa") * math.sqrt(up),
    )


def dops(azimuths_deg: Sequence[float], elevations_deg: Sequence[float]) -> Dops:
    """Dilution of precision of four or more satellites, all weighted alike; DomainError as `covariance`."""
    matrix = covariance(azimuths_deg, elevations_deg, [1.0] * len(azimuths_deg))
    east, north, up, clock = (matrix[i][i] for i in range(UNKNOWNS))
    return Dops(
        gdop=math.sqrt(east + north + up + clock),
        pdop=math.sqrt(east + north + up),
        hdop=math.sqrt(east + north),
        vdop=math.sqrt(up),
        tdop=math.sqrt(clock),
    )

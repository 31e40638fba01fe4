"""The error budget of one satellite: what SBAS broadcasts about it, troposphere, receiver and airframe.

    sigma_i^2 = sigma_flt^2 + sigma_UIRE^2 + sigma_air^2 + sigma_tropo^2

Simplification, as in the simulation mode of the source (MAAST): all degradation terms are zero and the
UDRE is not scaled by dUDRE, which is what a receiver has just after every message has arrived.
"""

import math

from lpv.core.errors import DomainError, in_range
from lpv.facts import value, value_of
from lpv.sbas.shell import obliquity

UDRE_NOT_MONITORED = 14
GIVE_NOT_MONITORED = 15


class Receiver:
    """Receiver noise in metres: floor_m + low_m exp(-elevation / decay_deg)."""

    def __init__(self, floor_m: float, low_m: float, decay_deg: float) -> None:
        self.floor_m, self.low_m, self.decay_deg = floor_m, low_m, decay_deg


DESIGNATOR_A = Receiver(value("noise_aad_a_m"), 0.0, 1.0)
DESIGNATOR_A_STRONG = Receiver(value("noise_aad_a_strong_m"), 0.0, 1.0)
DESIGNATOR_B = Receiver(
    value("noise_aad_b_floor_m"), value("noise_aad_b_low_m"), value("noise_aad_b_decay_deg")
)


class ErrorModel:
    """What every satellite's variance is made from: variances of UDRE and GIVE in m², and the receiver."""

    def __init__(self, udre_variance_m2: float, give_variance_m2: float, receiver: Receiver = DESIGNATOR_B) -> None:
        self.udre_variance_m2, self.give_variance_m2, self.receiver = udre_variance_m2, give_variance_m2, receiver


def udre_variance_m2(index: int) -> float:
    """Variance in m² of the fast and long-term corrections for a broadcast UDREI of 0 to 13 (MAAST table).

    DomainError for 14 (not monitored) and 15 (do not use): such a satellite gives no LPV.
    """
    in_range("UDREI", index, 0, 15)
    if index >= UDRE_NOT_MONITORED:
        meaning = "not monitored" if index == UDRE_NOT_MONITORED else "do not use"
        raise DomainError(f"UDREI: found {index}, {meaning}; allowed: 0 to 13.")
    return value_of(f"udre_variance_{index:02d}_m2")


def give_variance_m2(index: int) -> float:
    """Variance in m² of the vertical ionospheric correction for a broadcast GIVEI of 0 to 14 (MAAST table).

    DomainError for 15 (not monitored).
    """
    in_range("GIVEI", index, 0, 15)
    if index == GIVE_NOT_MONITORED:
        raise DomainError("GIVEI: found 15, not monitored; allowed: 0 to 14.")
    return value_of(f"give_variance_{index:02d}_m2")


def error_model(udre_index: int, give_index: int, receiver: Receiver = DESIGNATOR_B) -> ErrorModel:
    """The same UDREI and GIVEI for every satellite and grid point."""
    return ErrorModel(udre_variance_m2(udre_index), give_variance_m2(give_index), receiver)


def default_error_model() -> ErrorModel:
    """UDREI 5, GIVEI 9 and accuracy designator B: the default inputs of the source (MAAST)."""
    return error_model(int(value("default_udre_index")), int(value("default_give_index")))


def troposphere_mapping(elevation_deg: float) -> float:
    """How much longer the path through the troposphere is than at the zenith; elevation 4 to 90 deg.

    m(E) = 1.001 / sqrt(0.002001 + sin^2 E) (MAAST af_trpmops.m).
    """
    in_range("elevation", elevation_deg, value("troposphere_elevation_lowest_deg"), 90.0, "deg")
    sine = math.sin(math.radians(elevation_deg))
    return value("troposphere_mapping_numerator") / math.sqrt(value("troposphere_mapping_offset") + sine * sine)


def troposphere_sigma_m(elevation_deg: float) -> float:
    """Standard deviation in m of the tropospheric error, 0.12 m(E); elevation 4 to 90 deg."""
    return value("troposphere_vertical_sigma_m") * troposphere_mapping(elevation_deg)


def multipath_sigma_m(elevation_deg: float) -> float:
    """Standard deviation in m of airframe multipath, 0.13 + 0.53 exp(-E/10 deg); elevation 0 to 90 deg."""
    in_range("elevation", elevation_deg, 0.0, 90.0, "deg")
    fading = math.exp(-elevation_deg / value("multipath_decay_deg"))
    return value("multipath_floor_m") + value("multipath_low_m") * fading


def noise_sigma_m(elevation_deg: float, receiver: Receiver) -> float:
    """Standard deviation in m of receiver noise and divergence; elevation 0 to 90 deg."""
    in_range("elevation", elevation_deg, 0.0, 90.0, "deg")
    return receiver.floor_m + receiver.low_m * math.exp(-elevation_deg / receiver.decay_deg)


def airborne_sigma_m(elevation_deg: float, receiver: Receiver) -> float:
    """Standard deviation in m of the airborne part: multipath and receiver noise, squares added."""
    multipath_m, noise_m = multipath_sigma_m(elevation_deg), noise_sigma_m(elevation_deg, receiver)
    return math.sqrt(multipath_m * multipath_m + noise_m * noise_m)


def variance_m2(elevation_deg: float, model: ErrorModel) -> float:
    """Variance in m² of one satellite's range at an elevation of 4 to 90 deg (MAAST usrprocess.m).

    The ionospheric part is the grid's variance times the obliquity factor squared.
    """
    return (
        model.udre_variance_m2
        + obliquity(elevation_deg) ** 2 * model.give_variance_m2
        + airborne_sigma_m(elevation_deg, model.receiver) ** 2
        + troposphere_sigma_m(elevation_deg) ** 2
    )


def sigma_m(elevation_deg: float, model: ErrorModel) -> float:
    """Standard deviation in m of one satellite's range; its weight in the position is 1 / sigma^2."""
    return math.sqrt(variance_m2(elevation_deg, model))

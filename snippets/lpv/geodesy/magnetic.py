"""What the World Magnetic Model 2025 says: variation of today, apart from the variation of record.

The variation printed on a chart or kept in a database ("of record") is the one its courses were made with;
it may be decades old and is chart data, never computed here.  The functions of this module carry `model` in
their names.  The model itself is the pygeomag package with the coefficients of WMM2025.
"""

import math
from dataclasses import dataclass

from pygeomag.geomag import GeoMag
from pygeomag.wmm.wmm_2025 import WMM_2025

from lpv.core import airac
from lpv.core.errors import above, in_range
from lpv.facts import value

FIRST_YEAR = value("wmm_first_year")
LAST_YEAR = value("wmm_last_year")
_MODEL = GeoMag(coefficients_data=WMM_2025)


@dataclass(frozen=True)
class MagneticField:
    """The modelled main field at a place and time, nT and deg.

    variation_deg is positive east (declination), inclination_deg positive down.
    """

    north_nt: float
    east_nt: float
    down_nt: float
    horizontal_nt: float
    total_nt: float
    variation_deg: float
    inclination_deg: float


def model_field(latitude_deg: float, longitude_deg: float, height_m: float, year: float) -> MagneticField:
    """The main field by WMM2025 at a height above the ellipsoid and a decimal year.

    Domain: latitude -90 to 90, longitude -180 to 180, height -1000 to 850000 m, year 2025.0 to 2030.0;
    DomainError outside.  At a pole the components count from the meridian of the given longitude.
    Source: WMM2025 technical report, computed by pygeomag.
    """
    in_range("latitude", latitude_deg, -90.0, 90.0, "deg")
    in_range("longitude", longitude_deg, -180.0, 180.0, "deg")
    in_range("height above the ellipsoid", height_m, -1000.0, 850000.0, "m")
    in_range("year of the magnetic model", year, FIRST_YEAR, LAST_YEAR)
    field = _MODEL.calculate(latitude_deg, longitude_deg, height_m / 1000.0, year)
    return MagneticField(field.x, field.y, field.z, field.h, field.f, field.d, field.i)


def model_variation_deg(latitude_deg: float, longitude_deg: float, height_m: float, year: float) -> float:
    """Variation (deg, east positive) by WMM2025; domain and errors as model_field."""
    return model_field(latitude_deg, longitude_deg, height_m, year).variation_deg


def model_uncertainty_deg(horizontal_nt: float) -> float:
    """Stated uncertainty (deg) of the modelled variation where the horizontal field has this strength (nT).

    Domain: more than 0 nT; DomainError otherwise.
    Source: WMM2025 technical report, error model: sqrt(0.26^2 + (5417 / H)^2).
    """
    above("horizontal field", horizontal_nt, 0.0, "nT")
    near_pole_deg = value("wmm_variation_uncertainty_deg_nt") / horizontal_nt
    # sqrt(0.26^2 + (5417 / H)^2)
    return math.sqrt(value("wmm_variation_uncertainty_deg") ** 2 + near_pole_deg**2)


def model_zone(horizontal_nt: float) -> str:
    """How far the modelled variation can be used: "blackout" (not), "caution" or "normal".

    By the horizontal field: under 2000 nT blackout, under 6000 nT caution.  Domain: 0 to 100 000 nT;
    DomainError otherwise.  Source: WMM2025 technical report.
    """
    in_range("horizontal field", horizontal_nt, 0.0, 100000.0, "nT")
    if horizontal_nt < value("wmm_blackout_below_nt"):
        return "blackout"
    return "caution" if horizontal_nt < value("wmm_caution_below_nt") else "normal"


def decimal_year(day_ordinal: int) -> float:
    """Year and its fraction at the start of a day (day number as in `lpv.core.airac`), for the model.

    Domain: the years 1 to 9998; DomainError outside.
    """
    year = airac.calendar_date(day_ordinal)[0]
    start, end = airac.ordinal(year, 1, 1), airac.ordinal(year + 1, 1, 1)
    return year + (day_ordinal - start) / (end - start)

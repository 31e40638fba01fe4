"""Conversion factors that are exact by definition."""

import math

M_PER_FT = 0.3048
M_PER_NM = 1852.0
M_PER_SM = 1609.344
FT_PER_NM = M_PER_NM / M_PER_FT
FT_PER_SM = M_PER_SM / M_PER_FT
FPM_PER_KT = FT_PER_NM / 60.0
FPS_PER_KT = FT_PER_NM / 3600.0
FT_PER_UNIT = {"ft": 1.0, "m": 1.0 / M_PER_FT, "SM": FT_PER_SM}
MPS_PER_KT = M_PER_NM / 3600.0
STANDARD_GRAVITY_MPS2 = 9.80665
ZERO_CELSIUS_K = 273.15
ARCSEC_PER_DEG = 3600.0


def degrees_360(angle_deg: float) -> float:
    """An angle in degrees brought into 0 <= angle < 360 (north is 0)."""
    turned = math.fmod(angle_deg, 360.0)
    if turned < 0.0:
        turned += 360.0
    return 0.0 if turned >= 360.0 else turned + 0.0


def degrees_180(angle_deg: float) -> float:
    """An angle in degrees brought into -180 < angle <= 180 (difference of two courses)."""
    turned = degrees_360(angle_deg)
    return turned - 360.0 if turned > 180.0 else turned

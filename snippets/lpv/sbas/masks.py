"""What hides a satellite; it runs on the phone too.

Three masks: the elevation under which no satellite is used, the skyline of the terrain round the
place, and the aircraft itself, whose antenna looks only above the plane of its wings.
"""

import math

from lpv.core.errors import DomainError, in_range
from lpv.core.units import degrees_360
from lpv.facts import value

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.sbas.day import Seen
    from lpv.sbas.sky import Sight


class Masks:
    """What hides satellites; the default is level flight over open water.

    elevation_deg: under which no satellite is used, None for the fact mask_elevation_deg
    terrain:       skyline as (true azimuth, elevation) in degrees, straight in between, closed round north
    heading_deg:   true heading, bank_deg: right wing down is positive
    wing_deg:      lowest elevation above the plane of the wings that the antenna sees, an assumption
    """

    def __init__(
        self, elevation_deg: "float | None" = None, terrain: "tuple[tuple[float, float], ...]" = (),
        heading_deg: float = 0.0, bank_deg: float = 0.0, wing_deg: float = 0.0,
    ) -> None:
        self.elevation_deg = value("mask_elevation_deg") if elevation_deg is None else elevation_deg
        self.terrain, self.heading_deg, self.bank_deg, self.wing_deg = terrain, heading_deg, bank_deg, wing_deg


class Skyline:
    """The skyline of the terrain, straight between its points.

    points: (true azimuth, elevation) in degrees, azimuth -360 to 720, in any order
    DomainError if an azimuth stands twice or an elevation lies outside -90 to 90.
    """

    def __init__(self, points: "tuple[tuple[float, float], ...]") -> None:
        crest = sorted([(_azimuth(az), in_range("skyline", up, -90.0, 90.0, "deg")) for az, up in points])
        for place in range(len(crest) - 1):
            if crest[place][0] == crest[place + 1][0]:
                raise DomainError("skyline: found one azimuth twice; allowed: every azimuth once.")
        self.points = crest
        self.highest_deg = max([up for _, up in crest] + [-90.0])

    def elevation_deg(self, azimuth_deg: float) -> float:
        """Elevation of the skyline at an azimuth of 0 to 360 deg; -90 without any point."""
        points = self.points
        if not points:
            return -90.0
        right = 0
        for place in range(len(points)):
            if points[place][0] > azimuth_deg:
                right = place
                break
        (left_azimuth, left_up), (right_azimuth, right_up) = points[right - 1], points[right]
        span = degrees_360(right_azimuth - left_azimuth) or 360.0
        return left_up + (right_up - left_up) * degrees_360(azimuth_deg - left_azimuth) / span


def ridge(middle_deg: float, width_deg: float, height_deg: float, side_deg: float) -> "tuple[tuple[float, float], ...]":
    """A ridge of one height as terrain: so wide at its crest, falling to the horizon within side_deg at both ends.

    All in degrees; the crest and 2 sides 359 at most, DomainError otherwise.
    """
    half_deg = in_range("width of a ridge", width_deg, 0.0, 359.0 - 2.0 * side_deg, "deg") / 2.0
    foot_deg = half_deg + side_deg
    return (
        (degrees_360(middle_deg - foot_deg), 0.0), (degrees_360(middle_deg - half_deg), height_deg),
        (degrees_360(middle_deg + half_deg), height_deg), (degrees_360(middle_deg + foot_deg), 0.0),
    )


def terrain_elevation_deg(terrain: "tuple[tuple[float, float], ...]", azimuth_deg: float) -> float:
    """Elevation of a skyline at an azimuth of -360 to 720 deg; see `Skyline`."""
    return Skyline(terrain).elevation_deg(_azimuth(azimuth_deg))


def _azimuth(azimuth_deg: float) -> float:
    return degrees_360(in_range("azimuth", azimuth_deg, -360.0, 720.0, "deg"))


def elevation_above_wings_deg(
    azimuth_deg: float, elevation_deg: float, heading_deg: float, bank_deg: float
) -> float:
    """Elevation of a satellite above the plane of the wings; bank -90 to 90, right wing down positive.

    The antenna's axis leans by the bank towards the lower wing (geometry: scalar product with that axis).
    """
    in_range("elevation", elevation_deg, -90.0, 90.0, "deg")
    bank = math.radians(in_range("bank", bank_deg, -90.0, 90.0, "deg"))
    elevation = math.radians(elevation_deg)
    from_right_wing = math.radians(_azimuth(azimuth_deg) - _azimuth(heading_deg) - 90.0)
    leaned = math.cos(elevation) * math.sin(bank) * math.cos(from_right_wing)
    sine = math.sin(elevation) * math.cos(bank) + leaned
    return math.degrees(math.asin(max(-1.0, min(1.0, sine))))


def wing_plane_elevation_deg(azimuth_deg: float, heading_deg: float, bank_deg: float) -> float:
    """Elevation of the plane of the wings at a true azimuth; bank -90 to 90, right wing down positive.

    tan E = -tan(bank) cos(azimuth - heading - 90): where `elevation_above_wings_deg` gives 0.
    """
    bank = math.radians(in_range("bank", bank_deg, -90.0, 90.0, "deg"))
    from_right_wing = math.radians(_azimuth(azimuth_deg) - _azimuth(heading_deg) - 90.0)
    return math.degrees(math.atan2(-math.sin(bank) * math.cos(from_right_wing), math.cos(bank))) + 0.0


def in_view(satellite: "Sight | Seen", masks: Masks) -> bool:
    """Whether no mask hides the satellite; one exactly on a mask is in view."""
    above_wings = elevation_above_wings_deg(
        satellite.azimuth_deg, satellite.elevation_deg, masks.heading_deg, masks.bank_deg
    )
    return (
        satellite.elevation_deg >= masks.elevation_deg
        and satellite.elevation_deg >= terrain_elevation_deg(masks.terrain, satellite.azimuth_deg)
        and above_wings >= masks.wing_deg
    )

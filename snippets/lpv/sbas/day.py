"""Protection levels over a day of the ideal constellation, in plain Python quick enough for a phone.

The same formulas as `lpv.sbas.constellation`, `lpv.sbas.sky`, `lpv.sbas.error_model` and `lpv.sbas.integrity`, which
stay the readable reference and the oracle of its tests.  What does not hang on masks is computed once for a place: how
each satellite is seen, what it weighs, and the sums over all of them; from these only what is hidden is taken away.
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import degrees_360
from lpv.facts import value
from lpv.facts.constellation import PLANES
from lpv.geodesy.local_frame import axes, ecef_m
from lpv.sbas.error_model import default_error_model
from lpv.sbas.masks import Masks, Skyline

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable

    Row = tuple[float, float, float, float, float, str]
    Sums = tuple[float, ...]
    Plane = tuple[float, float, float, float, list[tuple[str, float, float]]]

STEP_S = 450.0  # two to a quarter of an hour: a phone has to work out a place anew within a quarter of a second
MOMENTS = 192
VARIANCE_HIGHEST = 1e9  # beyond it the satellites do not fix a position


class Seen:
    """A satellite above the elevation under which none is used: where it stands, and its weight in the position.

    toward: unit vector east, north and up
    """

    def __init__(
        self, name: str, toward: "tuple[float, float, float]", elevation_deg: float, weight: float,
    ) -> None:
        self.name, self.toward, self.elevation_deg, self.weight = name, toward, elevation_deg, weight
        self.azimuth_deg = degrees_360(math.degrees(math.atan2(toward[0], toward[1])))


class Moment:
    """One moment: how many satellites are in use, and protection levels in metres, None without a position."""

    def __init__(self, satellites: int, hpl_pa_m: "float | None", hpl_npa_m: "float | None",
                 vpl_m: "float | None") -> None:
        self.satellites, self.hpl_pa_m, self.hpl_npa_m, self.vpl_m = satellites, hpl_pa_m, hpl_npa_m, vpl_m


def names() -> "list[str]":
    """The names of the 24 slots, "A1" to "F4"."""
    return [plane + str(number + 1) for plane in sorted(PLANES) for number in range(len(PLANES[plane][1]))]


_planes = []  # type: list[list[Plane]]


def planes() -> "list[list[Plane]]":
    """The orbital planes at every moment, 0000Z at the epoch of the slots first; computed once.

    A plane is the cosine and sine of its node's longitude, those of its inclination times the radius, and its
    satellites as (name, cosine, sine) of the argument of latitude.
    Circular orbits: as `lpv.sbas.constellation.position` for `baseline()`.
    """
    if not _planes:
        radius_m, tilt = _radius_m(), math.radians(value("slot_inclination_deg"))
        motion = math.sqrt(value("gravity_constant_m3_s2") / radius_m) / radius_m  # n = sqrt(mu / a^3)
        greenwich, turn = value("slot_greenwich_hour_angle_deg"), value("earth_rotation_rad_s")
        cos_tilt, sin_tilt = math.cos(tilt), math.sin(tilt)
        rows = []
        for plane in sorted(PLANES):
            node_deg, arguments_deg = PLANES[plane]
            slots = [(plane + str(n + 1), math.radians(arguments_deg[n])) for n in range(len(arguments_deg))]
            rows.append((math.radians(node_deg - greenwich), slots))
        for place in range(MOMENTS):
            elapsed_s = place * STEP_S
            along = motion * elapsed_s
            _planes.append([
                (math.cos(node - turn * elapsed_s), math.sin(node - turn * elapsed_s), cos_tilt, sin_tilt,
                 [(name, math.cos(argument + along), math.sin(argument + along)) for name, argument in slots])
                for node, slots in rows
            ])
    return _planes


def _radius_m() -> float:
    return value("slot_semi_major_axis_km") * 1000.0


class Day:
    """A day of the ideal constellation at a place: degrees, sea level of the ellipsoid.

    DomainError for a latitude outside -90 to 90, a longitude outside -180 to 180.
    """

    def __init__(self, latitude_deg: float, longitude_deg: float) -> None:
        self.origin_m, self.axes = ecef_m(latitude_deg, longitude_deg, 0.0), axes(latitude_deg, longitude_deg)
        radius_m, lowest_deg, weight = _radius_m(), value("mask_elevation_deg"), _weigher()
        self._seen = [self._above(moment, radius_m, lowest_deg, weight) for moment in planes()]
        self._sums = [_sums(rows) for rows in self._seen]
        levels = _solver()
        self._clear = [levels(len(rows), sums) for rows, sums in zip(self._seen, self._sums)]  # noqa: B905

    def _above(
        self, moment: "list[Plane]", radius_m: float, lowest_deg: float, weight: "Callable[[float, float], float]",
    ) -> "list[Row]":
        """(up, east, north, elevation in degrees, weight, name) of the satellites in use, the lowest first."""
        least_up = math.sin(math.radians(lowest_deg - 0.01))  # what lies lower is passed over at once
        (ex, ey, _), (nx, ny, nz), (ux, uy, uz) = self.axes
        e0, n0, u0 = [_along(axis, self.origin_m) for axis in self.axes]
        rows = []
        for cos_node, sin_node, cos_tilt, sin_tilt, satellites in moment:
            # Of a unit along the node, and of one across it, on the axes up, east and north.
            x, y = -sin_node * cos_tilt, cos_node * cos_tilt
            up_a, up_b = radius_m * (ux * cos_node + uy * sin_node), radius_m * (ux * x + uy * y + uz * sin_tilt)
            east_a, east_b = radius_m * (ex * cos_node + ey * sin_node), radius_m * (ex * x + ey * y)
            north_a, north_b = radius_m * (nx * cos_node + ny * sin_node), radius_m * (nx * x + ny * y + nz * sin_tilt)
            for name, along, across in satellites:
                up = up_a * along + up_b * across - u0
                if up > 0.0:
                    east, north = east_a * along + east_b * across - e0, north_a * along + north_b * across - n0
                    far = math.sqrt(east * east + north * north + up * up)
                    up = up / far
                    if up > least_up:
                        elevation_deg = math.degrees(math.asin(min(1.0, up)))
                        if elevation_deg >= lowest_deg:
                            rows.append((up, east / far, north / far, elevation_deg, weight(up, elevation_deg), name))
        return sorted(rows)

    def satellites(self, place: int) -> "list[Seen]":
        """The satellites above the lowest elevation at a moment, in the order of their names."""
        rows = [Seen(name, (east, north, up), elevation_deg, weight)
                for up, east, north, elevation_deg, weight, name in self._seen[place]]
        return sorted(rows, key=lambda satellite: satellite.name)

    def moments(self, masks: Masks, lost: "tuple[str, ...]" = ()) -> "list[Moment]":
        """Every moment of the day under masks with a wing_deg of 0, banked -90 to 90 deg, without those lost."""
        in_range("bank", masks.bank_deg, -90.0, 90.0, "deg")
        east, north, up = antenna(masks)
        skyline, lowest_deg = Skyline(masks.terrain), masks.elevation_deg
        crest_deg = skyline.highest_deg
        reach_deg = max(abs(masks.bank_deg), crest_deg, lowest_deg)  # nothing higher is hidden
        levels, moments = _solver(), []
        for place in range(MOMENTS):
            visible, out = self._seen[place], []
            for row in visible:
                elevation_deg = row[3]
                if elevation_deg > reach_deg and not lost:
                    break
                if (
                    row[5] in lost or row[0] * up + row[1] * east + row[2] * north < 0.0 or elevation_deg < lowest_deg
                    or (elevation_deg < crest_deg and elevation_deg < skyline.elevation_deg(_azimuth_deg(row)))
                ):
                    out.append(row)
            if out:
                moments.append(levels(len(visible) - len(out), _less(self._sums[place], out)))
            else:
                moments.append(self._clear[place])
        return moments


def _along(axis: "tuple[float, float, float]", point: "tuple[float, float, float]") -> float:
    return axis[0] * point[0] + axis[1] * point[1] + axis[2] * point[2]


def _azimuth_deg(row: "Row") -> float:
    return degrees_360(math.degrees(math.atan2(row[1], row[2])))


def antenna(masks: Masks) -> "tuple[float, float, float]":
    """Where the axis of the antenna points, a unit vector east, north and up: as `elevation_above_wings_deg`."""
    bank, right = math.radians(masks.bank_deg), math.radians(masks.heading_deg + 90.0)
    return math.sin(bank) * math.sin(right), math.sin(bank) * math.cos(right), math.cos(bank)


def hider(masks: Masks, lost: "tuple[str, ...]") -> "Callable[[Seen], str]":
    """A function (Seen) -> what hides a satellite: "lost", "bank", "terrain", "low", or "" where nothing does."""
    east, north, up = antenna(masks)
    skyline = Skyline(masks.terrain)

    def hidden(satellite: Seen) -> str:
        toward = satellite.toward
        if satellite.name in lost:
            return "lost"
        if toward[0] * east + toward[1] * north + toward[2] * up < 0.0:
            return "bank"
        if satellite.elevation_deg < skyline.elevation_deg(satellite.azimuth_deg):
            return "terrain"
        return "low" if satellite.elevation_deg < masks.elevation_deg else ""

    return hidden


def _weigher() -> "Callable[[float, float], float]":
    """A function (sine of the elevation, elevation in degrees) -> 1 / sigma^2, as `variance_m2` has it."""
    model = default_error_model()
    corrections_m2, give_m2 = model.udre_variance_m2, model.give_variance_m2
    radius_km = value("ionosphere_earth_radius_km")
    shell = (radius_km / (radius_km + value("ionosphere_height_km"))) ** 2
    troposphere = (value("troposphere_vertical_sigma_m") * value("troposphere_mapping_numerator")) ** 2
    offset, decay_deg = value("troposphere_mapping_offset"), value("multipath_decay_deg")
    floor_m, low_m, receiver = value("multipath_floor_m"), value("multipath_low_m"), model.receiver
    noise_m, noise_low_m, noise_deg = receiver.floor_m, receiver.low_m, receiver.decay_deg
    exp = math.exp

    def weight(up: float, elevation_deg: float) -> float:
        squared = up * up
        multipath_m = floor_m + low_m * exp(-elevation_deg / decay_deg)
        of_receiver_m = noise_m + noise_low_m * exp(-elevation_deg / noise_deg)
        return 1.0 / (
            corrections_m2 + give_m2 / (1.0 - shell * (1.0 - squared)) + multipath_m * multipath_m
            + of_receiver_m * of_receiver_m + troposphere / (offset + squared)
        )

    return weight


def _sums(rows: "list[Row]") -> "Sums":
    """G^T W G of the satellites: the ten sums above and on its diagonal."""
    return _less((0.0,) * 10, rows, -1.0)


def _less(sums: "Sums", out: "list[Row]", sign: float = 1.0) -> "Sums":
    """The sums without some satellites."""
    w, we, wn, wu, ee, en, eu, nn, nu, uu = sums
    for u, e, n, _, weight, _ in out:
        weight = weight * sign
        east, north, up = weight * e, weight * n, weight * u
        w, we, wn, wu = w - weight, we - east, wn - north, wu - up
        ee, en, eu = ee - east * e, en - east * n, eu - east * u
        nn, nu, uu = nn - north * n, nu - north * u, uu - up * u
    return w, we, wn, wu, ee, en, eu, nn, nu, uu


def _solver() -> "Callable[[int, Sums], Moment]":
    """A function (satellites, sums) -> Moment: C = (G^T W G)^-1, the clock taken out first."""
    fewest, vertical = value("satellites_lowest"), value("k_vertical_pa")
    horizontal, horizontal_npa, root = value("k_horizontal_pa"), value("k_horizontal_npa"), math.sqrt

    def levels(count: int, sums: "Sums") -> Moment:
        if count < fewest:
            return Moment(count, None, None, None)
        w, we, wn, wu, ee, en, eu, nn, nu, uu = sums
        ee, en, eu = ee - we * we / w, en - we * wn / w, eu - we * wu / w
        nn, nu, uu = nn - wn * wn / w, nu - wn * wu / w, uu - wu * wu / w
        least = nn * uu - nu * nu
        determinant = ee * least - en * (en * uu - nu * eu) + eu * (en * nu - nn * eu)
        if determinant <= 0.0:
            return Moment(count, None, None, None)
        east, north, both = least / determinant, (ee * uu - eu * eu) / determinant, (eu * nu - en * uu) / determinant
        up = (ee * nn - en * en) / determinant
        if not (0.0 < east < VARIANCE_HIGHEST and 0.0 < north < VARIANCE_HIGHEST and 0.0 < up < VARIANCE_HIGHEST):
            return Moment(count, None, None, None)
        # d_major = sqrt((dE^2 + dN^2)/2 + sqrt(((dE^2 - dN^2)/2)^2 + dEN^2))
        half = (east - north) / 2.0
        major_m = root((east + north) / 2.0 + root(half * half + both * both))
        return Moment(count, horizontal * major_m, horizontal_npa * major_m, vertical * root(up))

    return levels

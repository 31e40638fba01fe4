"""Facts: the GPS baseline constellation of 24 slots, orbit and earth constants.

SLOTS holds the table itself; every slot is a fact as well.
"""

_TABLE = "Table 3-1"
_EPOCH = "epoch 0000Z 1 July 1993"

# plane: (right ascension of the ascending node in degrees, (argument of latitude of slots 1 to 4 in degrees))
PLANES = {
    "A": (272.847, (268.126, 161.786, 11.676, 41.806)),
    "B": (332.847, (80.956, 173.336, 309.976, 204.376)),
    "C": (32.847, (111.876, 11.796, 339.666, 241.556)),
    "D": (92.847, (135.226, 265.446, 35.156, 167.356)),
    "E": (152.847, (197.046, 302.596, 66.066, 333.686)),
    "F": (212.847, (238.886, 345.226, 105.206, 135.346)),
}
_MISPRINT = {
    "D3": "Kaplan and Hegarty print 35.136, a misprint; the standard and two almanacs of the set have 35.156",
}

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "slot_semi_major_axis_km": (
        26559.7, "km", "semi-major axis of the baseline orbits", "gps-sps-2001", _TABLE, "published", "",
    ),
    "slot_inclination_deg": (
        55.0, "deg", "inclination of the baseline orbits",
        "gps-sps-2001", _TABLE, "published", "held to 3°",
    ),
    "slot_eccentricity_highest": (
        0.02, "", "highest eccentricity of a baseline orbit",
        "gps-sps-2001", _TABLE, "published", "0 used here",
    ),
    "slot_greenwich_hour_angle_deg": (
        279.060, "deg", "Greenwich hour angle at the epoch", "gps-sps-2001", f"from 18h 36m 14.4s in {_TABLE}",
        "derived", "15 degrees an hour",
    ),
    "slot_epoch": (
        "1993-07-01 00:00Z", "", "epoch of the slot table", "gps-sps-2001", _TABLE, "published",
        "its GPS week and the time in it are computed",
    ),
    "pdop_availability_highest": (
        6.0, "", "PDOP that the availability standard allows",
        "gps-sps-2020", "availability", "from memory", "",
    ),
    "pdop_availability_global_percent": (
        98.0, "%", "share of time and places with such a PDOP",
        "gps-sps-2020", "availability", "from memory", "",
    ),
    "pdop_availability_worst_site_percent": (
        88.0, "%", "share of time at the worst place", "gps-sps-2020", "availability", "from memory", "",
    ),
    "gravity_constant_m3_s2": (
        3.986005e14, "m³/s²", "gravitational constant of the earth for GPS orbits",
        "is-gps-200", "user algorithm, as in three open implementations", "published, quoted", "",
    ),
    "earth_rotation_rad_s": (
        7.2921151467e-5, "rad/s", "rotation rate of the earth for GPS orbits",
        "is-gps-200", "user algorithm, as in three open implementations", "published, quoted", "",
    ),
    "almanac_eccentricity_highest": (
        0.1, "", "eccentricity above which an almanac entry is taken for damaged",
        "trade", "check of an almanac", "common practice", "GPS orbits stay under 0.03",
    ),
    "almanac_root_axis_lowest": (
        5000.0, "√m", "lowest square root of the semi-major axis taken for a GPS orbit",
        "trade", "check of an almanac", "common practice", "real ones lie near 5153.6",
    ),
    "almanac_root_axis_highest": (
        5300.0, "√m", "highest square root of the semi-major axis taken for a GPS orbit",
        "trade", "check of an almanac", "common practice", "real ones lie near 5153.6",
    ),
    "almanac_age_highest_weeks": (
        3.0, "weeks", "age beyond which an almanac is refused here",
        "trade", "check of an almanac", "common practice", "a fresh one is published daily",
    ),
    "almanac_time_highest_s": (
        602112.0, "s", "largest time of applicability that the almanac can carry",
        "is-gps-200", "almanac parameters", "from memory", "",
    ),
    "gps_utc_offset_s": (
        18.0, "s", "GPS time ahead of UTC since 1 January 2017",
        "iers-leap-seconds", "from 37 s at 2017-01-01 less 19 s at 1980-01-01, the start of GPS time", "derived", "",
    ),
}

for _plane, (_node, _arguments) in PLANES.items():
    FACTS[f"plane_{_plane.lower()}_node_deg"] = (
        _node, "deg", f"right ascension of the ascending node, plane {_plane}",
        "gps-sps-2001", _TABLE, "published", _EPOCH,
    )
    for _number, _argument in enumerate(_arguments, 1):
        FACTS[f"slot_{_plane.lower()}{_number}_latitude_argument_deg"] = (
            _argument, "deg", f"argument of latitude, slot {_plane}{_number}",
            "gps-sps-2001", _TABLE, "published", _MISPRINT.get(f"{_plane}{_number}", _EPOCH),
        )

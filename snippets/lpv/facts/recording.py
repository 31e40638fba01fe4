"""Facts: recorded flights: what a file may hold, and how much its altitudes and its gaps can tell."""


def _ours(limit: float, unit: str, what: str, remark: str = "") -> "tuple[float | str, str, str, str, str, str, str]":
    """A limit that this handbook sets, for want of a published one."""
    return limit, unit, what, "trade", "limit set by this handbook", "common practice", remark


FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # What is read
    "recording_most_mb": _ours(
        32.0, "MB", "largest file of a recorded flight that is read", "ten hours at one sample a second take 3 MB",
    ),
    "recording_most_rows": _ours(100_000.0, "", "most samples of a recorded flight that are read"),
    "recording_phone_mb": _ours(
        5.0, "MB", "largest file of a recorded flight that is read on a phone", "for its memory and its patience",
    ),
    "recording_phone_rows": _ours(20_000.0, "", "most samples of a recorded flight that are read on a phone"),
    "recording_farthest_nm": _ours(25.0, "NM", "distance from the threshold within which a recording is looked at"),
    # Samples that do not fit together
    "recording_gap_s": _ours(
        10.0, "s", "time between two samples above which nothing is drawn or derived between them",
        "longer where samples are few, as the next figure says",
    ),
    "recording_gap_intervals": _ours(
        2.5, "", "usual intervals between samples that make a gap, where that is longer",
    ),
    "recording_gap_most_s": _ours(30.0, "s", "longest time between two samples that is never a gap"),
    "recording_jump_kt": _ours(600.0, "kt", "ground speed between two samples above which one of them is wrong"),
    "recording_jump_ft": _ours(
        500.0, "ft", "distance or height by which two samples may differ beyond that speed or rate", "noise",
    ),
    "recording_jump_fpm": _ours(10_000.0, "ft/min", "rate between two samples above which one of them is wrong"),
    "recording_jump_most_rows": _ours(
        5.0, "", "samples between two jumps that are taken for wrong; more are a part of their own",
    ),
    "recording_rate_window_s": _ours(10.0, "s", "time over which ground speed and rate of descent are averaged"),
    # How uncertain it is
    "gps_vertical_95_m": (
        13.0, "m", "vertical accuracy of GPS without SBAS, 95 %, average of all places", "gps-sps-2020", "accuracy",
        "from memory", "of the signal alone; a receiver behind a cabin window does worse",
    ),
    "gps_horizontal_95_m": (
        8.0, "m", "horizontal accuracy of GPS without SBAS, 95 %, average of all places", "gps-sps-2020", "accuracy",
        "from memory", "of the signal alone; a receiver behind a cabin window does worse",
    ),
    "recording_air_c": _ours(
        5.0, "deg C", "error of the temperature taken for the air between airport and aircraft",
        "turns an altimeter's reading into a height",
    ),
    "recording_setting_ft": _ours(
        14.0, "ft", "error of an altitude by an altimeter setting that is reported in whole hectopascals",
        "half a hectopascal near sea level",
    ),
    "recording_ground_ft": _ours(
        20.0, "ft", "difference between the recorded height on the runway and the threshold's that is ignored",
        "the runway's slope, and the antenna above the wheels",
    ),
    # What is told
    "recording_near_da_ft": _ours(
        300.0, "ft", "height above the minimum from which flight below the glidepath is reported"),
    "recording_cold_c": _ours(
        0.0, "deg C", "temperature at the airport under which a debrief sets the true altitude beside the charted one",
        "warmer only where the chart itself asks for additions",
    ),
    "recording_climb_ft": _ours(100.0, "ft", "climb above the lowest altitude that is reported as a go-around"),
    "recording_touch_ft": _ours(
        50.0, "ft", "height above the threshold, at and past it, below which a landing is reported",
        "without a radio altimeter nothing finer can be said",
    ),
    "recording_ground_s": _ours(8.0, "s", "time at a constant height near the runway's that counts as on the ground"),
    "recording_level_fpm": _ours(200.0, "ft/min", "rate, climbing or descending, up to which flight counts as level"),
    "recording_level_s": _ours(8.0, "s", "longest level flight at or below a decision altitude"),
    "recording_level_above_ft": _ours(60.0, "ft", "height above the decision altitude from which level flight counts"),
    "recording_settled_s": _ours(
        20.0, "s", "time after the highest altitude less than which the climb of a go-around counts as unfinished",
    ),
    "recording_corner_nm": _ours(
        2.0, "NM", "distance from the ends of a leg within which a recording is not compared with it",
        "a turn by a fix cuts the corner",
    ),
    "recording_altitude_ft": _ours(
        100.0, "ft", "deviation from a charted altitude that is within tolerance",
        "as in checks of instrument pilots, from memory",
    ),
    "touchdown_zone_ft": (
        3000.0, "ft", "length of the touchdown zone from the threshold", "aim-unstated", "Pilot/Controller Glossary",
        "from memory", "or the first third of the runway, where that is shorter",
    ),
    "baro_vnav_deviation_ft": (
        75.0, "ft", "deviation from a barometric path that counts as one dot here", "trade",
        "limit below a barometric path in performance-based navigation, 22 m", "from memory", "",
    ),
    "recording_offset_share": _ours(
        0.25, "", "spread of a deviation, as a share of it, up to which it is reported as a constant offset",
    ),
}

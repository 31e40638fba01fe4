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
    ),
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
    # What is told
    "recording_near_da_ft": _ours(300.0, "ft", "height above the minimum from which being below the path is told"),
    "recording_cold_c": _ours(
        0.0, "deg C", "temperature at the airport under which a debrief sets the true altitude beside the charted one",
        "warmer only where the chart itself asks for additions",
    ),
    "recording_climb_ft": _ours(200.0, "ft", "climb above the lowest altitude that is told as a go-around"),
    "recording_touch_ft": _ours(
        50.0, "ft", "height above the threshold, at and beyond it, below which the end is told as a landing",
        "without a radio altimeter nothing finer can be said",
    ),
    "recording_offset_share": _ours(
        0.25, "", "spread of a deviation, as a share of it, up to which it is told as a constant offset",
    ),
}

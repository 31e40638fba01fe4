"""Facts: what an answer to a drill is worth, how near a number has to be, and when a drill comes again."""


def _ours(value: float, unit: str, what: str, remark: str) -> "tuple[float | str, str, str, str, str, str, str]":
    """A figure that this handbook chose, for want of a published one."""
    return value, unit, what, "own-choice", "chosen by this handbook", "common practice", remark


FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "drill_full_points": _ours(100.0, "points", "a drill answered right in every part", "a percentage"),
    "drill_item_share": _ours(40.0, "points", "naming what is wrong", "what is not seen cannot be judged"),
    "drill_side_share": _ours(20.0, "points", "naming the side it is wrong on", ""),
    "drill_severity_share": _ours(20.0, "points", "saying how serious it is", ""),
    "drill_action_share": _ours(20.0, "points", "saying what to do now", ""),
    "drill_extra_points": _ours(-20.0, "points", "each thing called wrong that is right", "a false alarm costs time"),
    "drill_all_well_points": _ours(
        -100.0, "points", "\"nothing is wrong\", said where something is", "nobody looks again after it"),
    "drill_known_from_points": _ours(80.0, "points", "score from which a drill counts as known", ""),
    "drill_near_factor": _ours(
        2.0, "", "times the tolerance within which a number still earns half of the points", ""),
    "drill_moment_share": _ours(40.0, "points", "stopping a sequence in time", "the rest is worth nothing too late"),
    "drill_sign_share": _ours(30.0, "points", "naming what is wrong in a sequence", ""),
    "drill_remedy_share": _ours(30.0, "points", "saying what to do in a sequence", ""),
    "drill_in_time_s": _ours(
        10.0, "s", "from the first sign, within which a stop is in time", "two readings of the annunciations"),
    "drill_late_s": _ours(30.0, "s", "from the first sign, within which a stop earns half of its points", ""),
    "drill_again_1_days": _ours(
        1.0, "d", "until a drill comes again, known once", "each gap about three times the last"),
    "drill_again_2_days": _ours(3.0, "d", "until a drill comes again, known twice in a row", ""),
    "drill_again_3_days": _ours(10.0, "d", "until a drill comes again, known three times in a row", ""),
    "drill_again_4_days": _ours(30.0, "d", "until a drill comes again, known four times in a row", ""),
    "drill_again_5_days": _ours(90.0, "d", "until a drill comes again, known five times in a row or more", ""),
    "drill_session_min": _ours(10.0, "min", "length of a session of drills", ""),
    "drill_find_min": _ours(2.0, "min", "counted for a find-the-error drill", ""),
    "drill_sequence_min": _ours(2.0, "min", "counted for a sequence", ""),
    "drill_number_min": _ours(1.0, "min", "counted for a number", ""),
    # How near an answer has to be, where no limit of the checks says it.
    "drill_rate_fpm": _ours(
        50.0, "ft/min", "error allowed in a rate of descent", "a needle's width, and 25 ft in 30 s"),
    "drill_hold_s": _ours(5.0, "s", "error allowed in a time outbound", "the next circuit corrects that much"),
    "drill_added_kt": _ours(1.0, "kt", "error allowed in what is added to VREF", "a target is set to a knot"),
    "drill_climb_low_fpm": _ours(
        25.0, "ft/min", "error allowed in a climb rate, too low",
        "too low misses the gradient: half of a needle's width"),
    "drill_climb_high_fpm": _ours(
        100.0, "ft/min", "error allowed in a climb rate, too high", "too high costs nothing but thrust"),
    "drill_setting_percent": _ours(
        12.0, "%", "error allowed in the effect of an altimeter setting",
        "1000 ft an inch of mercury and 30 ft a hectopascal are as near as that"),
    "drill_dots_percent": _ours(
        15.0, "%", "error allowed in a deviation in feet", "a pointer is read to an eighth of a dot"),
}

"""Facts: how large a difference between chart, database and computation may be."""


def _ours(limit: float, unit: str, what: str, remark: str) -> "tuple[float | str, str, str, str, str, str, str]":
    """A limit that this handbook sets, for want of a published one."""
    return limit, unit, what, "trade", "limit set by this handbook", "common practice", remark


FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "limit_glidepath_resolve_deg": _ours(
        0.005, "deg", "difference of glidepath angles above which to resolve",
        "half of the last digit printed",
    ),
    "limit_glidepath_stop_deg": _ours(
        0.045, "deg", "difference of glidepath angles above which to stop",
        "",
    ),
    "limit_tch_resolve_ft": _ours(
        1.0, "ft", "difference of threshold crossing heights above which to resolve",
        "charts print whole feet, the data block tenths",
    ),
    "limit_tch_stop_ft": _ours(
        10.0, "ft", "difference of threshold crossing heights above which to stop",
        "",
    ),
    "limit_course_resolve_deg": _ours(
        1.0, "deg", "difference of final courses above which to resolve",
        "course and variation may each be rounded to a whole degree",
    ),
    "limit_course_stop_deg": (
        3.0, "deg", "difference of final courses above which to stop",
        "order-8260-52", "par 3.4", "published",
        "the largest offset of a final course there; used here as the limit of a difference",
    ),
    "limit_variation_note_deg": _ours(
        1.0, "deg", "variation of record against the model: note above",
        "a course printed in whole degrees moves by one",
    ),
    "limit_variation_resolve_deg": _ours(
        5.0, "deg", "variation of record against the model: resolve above",
        "more than decades of drift in most places: a wrong sign, or another airport",
    ),
    "limit_runway_course_resolve_deg": _ours(
        10.0, "deg", "runway number against final course: resolve above",
        "5 deg of rounding and years of drift",
    ),
    "limit_runway_course_stop_deg": _ours(
        30.0, "deg", "runway number against final course: stop above",
        "no longer straight in",
    ),
    "limit_across_resolve_nm": _ours(
        0.05, "NM", "fix beside the final course: resolve above",
        "",
    ),
    "limit_across_stop_nm": (
        0.3, "NM", "fix beside the final course: stop above",
        "aim-2026", "1-1-18.d.4", "published", "full scale where a long final begins",
    ),
    "limit_leg_course_resolve_deg": _ours(
        1.0, "deg", "course of a leg: resolve above",
        "",
    ),
    "limit_leg_course_stop_deg": _ours(
        5.0, "deg", "course of a leg: stop above",
        "",
    ),
    "limit_leg_distance_resolve_nm": _ours(
        0.1, "NM", "length of a leg: resolve above",
        "printed to 0.1 NM, and rounded again so that a profile adds up",
    ),
    "limit_leg_distance_stop_nm": _ours(
        0.5, "NM", "length of a leg: stop above",
        "",
    ),
    "limit_fix_altitude_resolve_ft": _ours(
        0.5, "ft", "altitude at a fix, chart against database: resolve above",
        "any difference",
    ),
    "limit_fix_altitude_stop_ft": _ours(
        50.0, "ft", "altitude at a fix, chart against database: stop above",
        "half of the 100-ft step of printed altitudes",
    ),
    "limit_path_rounded_resolve_ft": _ours(
        50.0, "ft", "minimum altitude at a fix against the paths: resolve above",
        "half of the 100-ft step of printed altitudes",
    ),
    "limit_path_rounded_stop_ft": _ours(
        200.0, "ft", "minimum altitude at a fix against the paths: stop above",
        "",
    ),
    "limit_path_exact_resolve_ft": _ours(
        10.0, "ft", "altitude printed on the path against the paths: resolve above",
        "rounding of distances and of the earth's radius",
    ),
    "limit_path_exact_stop_ft": _ours(
        50.0, "ft", "altitude printed on the path against the paths: stop above",
        "",
    ),
    "limit_curvature_note_ft": _ours(
        20.0, "ft", "straight path above the barometric one: note above",
        "one division of an altimeter",
    ),
    "limit_hat_resolve_ft": _ours(
        1.0, "ft", "minimum less elevation against the printed height: resolve above",
        "both are printed in whole feet",
    ),
    "limit_hat_stop_ft": _ours(
        20.0, "ft", "minimum less elevation against the printed height: stop above",
        "",
    ),
    "limit_length_note_m": (
        8.0, "m", "length offset against the runway: note above",
        "arinc-424", "field 5.259", "published, quoted", "the step of the field",
    ),
    "limit_length_resolve_m": _ours(
        100.0, "m", "length offset against the runway: resolve above",
        "",
    ),
    "geoid_lowest_m": (
        -110.0, "m", "lowest plausible height of the geoid above the ellipsoid",
        "trade", "global geoid models", "from memory", "",
    ),
    "geoid_highest_m": (
        90.0, "m", "greatest plausible height of the geoid above the ellipsoid",
        "trade", "global geoid models", "from memory", "",
    ),
    "val_lpv_lowest_m": (
        12.0, "m", "a vertical alert limit of an LPV is greater than this",
        "order-8260-50", "scope", "published", "",
    ),
}

"""Facts: how large a difference of chart, database, survey and computation may be, and what a design allows."""

TYPE_CHECKING = False
if TYPE_CHECKING:
    Row = tuple[float | str, str, str, str, str, str, str]


def _ours(limit: "float | str", unit: str, what: str, remark: str = "") -> "Row":
    """A limit that this handbook chose, for want of a published one."""
    return limit, unit, what, "own-choice", "limit chosen by this handbook", "common practice", remark


FACTS: "dict[str, Row]" = {
    # How large a difference may be: see `lpv.crosscheck.limits`.
    "limit_glidepath_resolve_deg": _ours(
        0.005, "deg", "difference of glidepath angles: to resolve above",
        "half of the last digit printed",
    ),
    "limit_glidepath_stop_deg": _ours(
        0.045, "deg", "difference of glidepath angles: stop above",
    ),
    "limit_tch_resolve_ft": _ours(
        1.0, "ft", "difference of threshold crossing heights: to resolve above",
        "charts print whole feet, the data block tenths",
    ),
    "limit_tch_stop_ft": _ours(
        10.0, "ft", "difference of threshold crossing heights: stop above",
    ),
    "limit_course_note_deg": _ours(
        0.6, "deg", "difference of final courses: note above",
        "half of the last digit printed, and the rounding of the variation",
    ),
    "limit_course_resolve_deg": _ours(
        1.0, "deg", "difference of final courses: to resolve above",
        "course and variation may each be rounded to a whole degree",
    ),
    "limit_course_stop_deg": _ours(
        3.0, "deg", "difference of final courses: stop above",
    ),
    "limit_course_shown_resolve_deg": _ours(
        0.5, "deg", "course that the aircraft shows against the charted one: to resolve above",
        "half of the last digit printed",
    ),
    "limit_course_shown_stop_deg": _ours(
        3.0, "deg", "course that the aircraft shows against the charted one: stop above",
    ),
    "limit_variation_note_deg": _ours(
        1.0, "deg", "variation of record against the model: note above",
        "a course printed in whole degrees moves by one",
    ),
    "limit_variation_resolve_deg": _ours(
        5.0, "deg", "variation of record against the model: to resolve above",
        "more than decades of drift in most places: a wrong sign, or another airport",
    ),
    "limit_variation_year_note_deg": _ours(
        0.75, "deg", "variation of record against the model of its own year: note above",
        "half of the last digit printed, and the uncertainty of the model",
    ),
    "limit_variation_year_resolve_deg": _ours(
        1.5, "deg", "variation of record against the model of its own year: to resolve above",
    ),
    "limit_runway_course_resolve_deg": _ours(
        10.0, "deg", "runway number against final course: to resolve above",
        "5° of rounding and years of drift",
    ),
    "limit_runway_course_stop_deg": _ours(
        30.0, "deg", "runway number against final course: stop above",
        "no longer straight in",
    ),
    "limit_across_resolve_nm": _ours(
        0.05, "NM", "fix beside the final course: to resolve above",
    ),
    "limit_across_stop_nm": _ours(
        0.3, "NM", "fix beside the final course: stop above",
    ),
    "limit_leg_course_resolve_deg": _ours(
        1.0, "deg", "course of a leg: to resolve above",
    ),
    "limit_leg_course_stop_deg": _ours(
        5.0, "deg", "course of a leg: stop above",
    ),
    "limit_leg_course_copy_resolve_deg": _ours(
        0.5, "deg", "course of a leg, chart against database: to resolve above",
        "half of the last digit printed: both are copies of one number",
    ),
    "limit_leg_course_copy_stop_deg": _ours(
        5.0, "deg", "course of a leg, chart against database: stop above",
    ),
    "limit_leg_distance_resolve_nm": _ours(
        0.1, "NM", "length of a leg: to resolve above",
        "printed to 0.1 NM, and rounded again so that a profile adds up",
    ),
    "limit_leg_distance_stop_nm": _ours(
        0.5, "NM", "length of a leg: stop above",
    ),
    "limit_leg_distance_copy_resolve_nm": _ours(
        0.05, "NM", "length of a leg, chart against database: to resolve above",
        "half of the last digit printed: both are copies of one number",
    ),
    "limit_leg_distance_copy_stop_nm": _ours(
        0.5, "NM", "length of a leg, chart against database: stop above",
    ),
    "limit_altitude_resolve_ft": _ours(
        0.5, "ft", "altitude flown, against what it should be: to resolve above",
        "any difference",
    ),
    "limit_altitude_stop_ft": _ours(
        50.0, "ft", "altitude flown, against what it should be: stop above",
        "half of the 100-ft step of printed altitudes",
    ),
    "limit_path_rounded_resolve_ft": _ours(
        50.0, "ft", "minimum altitude at a fix against the computed glidepaths: to resolve above",
        "half of the 100-ft step of printed altitudes",
    ),
    "limit_path_rounded_stop_ft": _ours(
        200.0, "ft", "minimum altitude at a fix against the computed glidepaths: stop above",
    ),
    "limit_path_exact_resolve_ft": _ours(
        10.0, "ft", "altitude printed on the glidepath against the computed ones: to resolve above",
        "rounding of distances and of the earth's radius",
    ),
    "limit_path_exact_stop_ft": _ours(
        50.0, "ft", "altitude printed on the glidepath against the computed ones: stop above",
    ),
    "limit_curvature_note_ft": _ours(
        20.0, "ft", "straight glidepath above the barometric one: note above",
        "one division of an altimeter",
    ),
    "limit_hat_resolve_ft": _ours(
        1.0, "ft", "minimum less elevation against the printed height: to resolve above",
        "both are printed in whole feet",
    ),
    "limit_hat_stop_ft": _ours(
        20.0, "ft", "minimum less elevation against the printed height: stop above",
    ),
    "limit_length_note_m": _ours(
        8.0, "m", "length offset against FPAP and runway: note above",
        "the step of the field",
    ),
    "limit_length_resolve_m": _ours(
        24.0, "m", "length offset against FPAP and runway: to resolve above",
    ),
    "limit_threshold_along_resolve_m": _ours(
        3.0, "m", "LTP before or behind the surveyed threshold: to resolve above",
        "positions are written to 0.3 m",
    ),
    "limit_threshold_along_stop_m": _ours(
        30.0, "m", "LTP before or behind the surveyed threshold: stop above",
    ),
    "limit_threshold_across_resolve_m": _ours(
        3.0, "m", "LTP beside the surveyed threshold: to resolve above",
        "positions are written to 0.3 m",
    ),
    "limit_threshold_across_stop_m": _ours(
        10.0, "m", "LTP beside the surveyed threshold: stop above",
    ),
    "limit_runway_bearing_note_deg": _ours(
        0.3, "deg", "final course against the bearing of the runway: note above",
        "a coded bearing is rounded",
    ),
    "limit_runway_bearing_resolve_deg": _ours(
        1.0, "deg", "final course against the bearing of the runway: to resolve above",
        "an offset final course, or a bearing made with another variation",
    ),
    "limit_geoid_resolve_m": _ours(
        2.0, "m", "height of the threshold against elevation and geoid: to resolve above",
        "published path points agree with EGM96 within 0.5 m",
    ),
    "limit_geoid_stop_m": _ours(
        5.0, "m", "height of the threshold against elevation and geoid: stop above",
    ),
    "limit_elevation_resolve_ft": _ours(
        1.0, "ft", "elevation of the threshold, one source against another: to resolve above",
        "whole feet on the chart, a tenth of a meter in the record",
    ),
    "limit_elevation_stop_ft": _ours(
        10.0, "ft", "elevation of the threshold, one source against another: stop above",
    ),
    "limit_runway_length_resolve_ft": _ours(
        10.0, "ft", "length of the runway or displacement of its threshold, chart against survey: to resolve above",
    ),
    "limit_runway_length_stop_ft": _ours(
        200.0, "ft", "length of the runway or displacement of its threshold, chart against survey: stop above",
    ),
    "limit_fpap_resolve_m": _ours(
        3.0, "m", "FPAP short of its least distance: to resolve above",
        "published path points keep 9023 ft within 0.2 m",
    ),
    "limit_fpap_stop_m": _ours(
        300.0, "m", "FPAP short of its least distance: stop above",
    ),
    "limit_course_width_resolve_m": _ours(
        0.2, "m", "course half-width at the threshold against its formula: to resolve above",
        "the step of the field is 0.25 m",
    ),
    "limit_course_width_stop_m": _ours(
        10.0, "m", "course half-width at the threshold against its formula: stop above",
    ),
    # What a design allows.
    "offset_highest_faa_deg": (
        3.0, "deg", "greatest angle between an LPV final course and the runway, FAA",
        "order-8260-58d", "final course", "from memory", "",
    ),
    "offset_highest_icao_deg": (
        5.0, "deg", "greatest angle between an LPV final course and the runway, ICAO and EASA",
        "icao-8168-2", "final course", "from memory", "",
    ),
    "gpa_lowest_deg": (
        2.75, "deg", "least glidepath angle, FAA",
        "order-8260-3", "table of glidepath angles", "from memory", "",
    ),
    "gpa_highest_a_deg": (
        6.4, "deg", "greatest glidepath angle, category A, FAA",
        "order-8260-3", "table of glidepath angles", "from memory", "up to 80 kt; 5.7 from 81 to 90 kt",
    ),
    "gpa_highest_b_deg": (
        4.2, "deg", "greatest glidepath angle, category B, FAA",
        "order-8260-3", "table of glidepath angles", "from memory", "",
    ),
    "gpa_highest_c_deg": (
        3.6, "deg", "greatest glidepath angle, category C, FAA",
        "order-8260-3", "table of glidepath angles", "from memory", "",
    ),
    "gpa_highest_d_deg": (
        3.1, "deg", "greatest glidepath angle, category D, FAA",
        "order-8260-3", "table of glidepath angles", "from memory", "",
    ),
    "gpa_highest_e_deg": (
        3.1, "deg", "greatest glidepath angle, category E, FAA",
        "order-8260-3", "table of glidepath angles", "from memory", "",
    ),
    "gpa_lowest_icao_deg": (
        3.0, "deg", "least glidepath angle, ICAO and EASA",
        "icao-8168-2", "III-3-4 par 4.2.4", "published", "written for barometric paths; used here for LPV too",
    ),
    "gpa_highest_icao_deg": (
        3.5, "deg", "greatest glidepath angle, ICAO and EASA",
        "icao-8168-2", "III-3-4 par 4.2.4", "published", "written for barometric paths; used here for LPV too",
    ),
    "tch_lowest_ft": _ours(
        30.0, "ft", "threshold crossing height to resolve below",
        "published ones of 35 to 60 ft are known; wheels should have 20 ft at least",
    ),
    "tch_highest_ft": _ours(
        70.0, "ft", "threshold crossing height to resolve above",
        "published ones of 35 to 60 ft are known",
    ),
    "tch_stop_below_ft": _ours(
        15.0, "ft", "threshold crossing height to stop below",
        "the wheels of a large aircraft are that far below the antenna",
    ),
    "tch_stop_above_ft": _ours(
        100.0, "ft", "threshold crossing height to stop above", "meters taken for feet, or a threshold out of place",
    ),
    "course_width_icao_m": (
        105.0, "m", "course half-width at the threshold, ICAO and EASA",
        "egnos-block", "from the fields of the blocks published with their remainder", "derived",
        "no text of the rule was read",
    ),
    "course_width_splay_deg": (
        1.5, "deg", "angle at the GARP from which the course half-width at the threshold is made, FAA",
        "order-8260-58d", "par 3-1-5.c(3), Formula 3-1-1", "published, quoted", "but not less than 350 ft",
    ),
    "path_data_selector_sbas": (
        0.0, "", "reference path data selector of an SBAS segment",
        "faa-cifp-2003", "from the path point records read here, which all hold 0", "derived",
        "it selects among GBAS segments",
    ),
    "route_indicator_barred_letters": (
        "IO", "", "letters not used as route indicators",
        "eurocontrol-fas", "route indicator", "published", "the first procedure is Z",
    ),
    "sbas_longitudes_0": _ours(
        "165 -45", "deg", "longitudes, west to east, of the runways that provider 0 serves",
        "wide, so as not to speak too soon",
    ),
    "sbas_longitudes_1": _ours(
        "-45 45", "deg", "longitudes, west to east, of the runways that provider 1 serves",
        "wide, so as not to speak too soon",
    ),
    "sbas_longitudes_2": _ours(
        "115 160", "deg", "longitudes, west to east, of the runways that provider 2 serves",
        "wide, so as not to speak too soon",
    ),
    "sbas_longitudes_3": _ours(
        "55 110", "deg", "longitudes, west to east, of the runways that provider 3 serves",
        "wide, so as not to speak too soon",
    ),
    "lnav_vnav_lowest_hat_ft": (
        250.0, "ft", "lowest height above touchdown of an LNAV/VNAV decision altitude",
        "order-8260-58d", "minimums", "from memory", "",
    ),
    "mda_lowest_hat_ft": (
        250.0, "ft", "lowest height above touchdown of a straight-in minimum descent altitude",
        "order-8260-3", "required obstacle clearance of the final segment", "from memory", "",
    ),
    "circling_lowest_a_ft": (
        350.0, "ft", "lowest height above the airport of a circling minimum, category A, FAA",
        "order-8260-3", "circling", "from memory", "",
    ),
    "circling_lowest_b_ft": (
        450.0, "ft", "lowest height above the airport of a circling minimum, category B, FAA",
        "order-8260-3", "circling", "from memory", "",
    ),
    "circling_lowest_c_ft": (
        450.0, "ft", "lowest height above the airport of a circling minimum, category C, FAA",
        "order-8260-3", "circling", "from memory", "",
    ),
    "circling_lowest_d_ft": (
        550.0, "ft", "lowest height above the airport of a circling minimum, category D, FAA",
        "order-8260-3", "circling", "from memory", "",
    ),
    "circling_lowest_e_ft": (
        550.0, "ft", "lowest height above the airport of a circling minimum, category E, FAA",
        "order-8260-3", "circling", "from memory", "",
    ),
    "visibility_lowest_ft": _ours(
        1800.0, "ft", "visibility of a line of minima to resolve below", "lights in the runway allow no less for LPV",
    ),
    "visibility_highest_ft": _ours(
        16405.0, "ft", "visibility of a line of minima to resolve above", "5 km, or 3 SM and a little more",
    ),
    "visibility_lowest_circling_ft": (
        5280.0, "ft", "lowest visibility of a circling minimum",
        "order-8260-3", "circling", "from memory", "1 SM; EASA asks 1500 m",
    ),
    "visibility_lowest_circling_icao_m": (
        1500.0, "m", "lowest visibility of a circling minimum, ICAO and EASA",
        "easa-air-ops", "circling minima", "from memory", "",
    ),
    "runway_slope_highest": _ours(
        0.02, "", "slope of a runway to resolve above", "two in a hundred; few runways are steeper",
    ),
    "descent_gradient_initial_ft_per_nm": (
        500.0, "ft/NM", "greatest descent gradient before the final approach fix",
        "iph", "ch 3", "published", "1000 ft/NM from high altitudes",
    ),
    "descent_gradient_final_ft_per_nm": (
        400.0, "ft/NM", "greatest descent gradient from the final approach fix to the threshold, straight in",
        "iph", "ch 4", "published", "",
    ),
    "descent_gradient_final_lowest_ft_per_nm": _ours(
        250.0, "ft/NM", "descent gradient from the final approach fix without a glidepath: to resolve below",
        "2.4 degrees; fixes are placed for about 3",
    ),
    "missed_above_airport_ft": _ours(
        1000.0, "ft", "height of the missed approach above the airport: to resolve below",
        "what a hold has above all that lies below",
    ),
    "vnav_angle_lowest_share": _ours(
        0.9, "", "share of the glidepath angle that is left at the lowest temperature: to resolve below",
        "by the formula of Order 8260.52, which allows 0.917",
    ),
    "vnav_angle_highest_share": _ours(
        1.2, "", "share of the glidepath angle that it grows to at the highest temperature: to resolve above",
        "by the same formula",
    ),
    "cold_airport_lowest_c": _ours(-60.0, "deg C", "cold temperature of an airport to resolve below"),
    "cold_airport_highest_c": _ours(0.0, "deg C", "cold temperature of an airport to resolve above"),
    "msa_radius_nm": (
        25.0, "NM", "usual radius of minimum safe altitudes",
        "trade", "approach charts", "common practice", "FAA charts print up to 30 NM",
    ),
    "msa_above_airport_ft": (
        1000.0, "ft", "least height of a minimum safe altitude above what lies in its sector",
        "trade", "approach charts", "common practice", "the airport lies in each of them",
    ),
    "lights_length_ft": _ours(
        150.0, "ft", "length of approach lights against what their name stands for: to resolve above",
        "half of the difference between two systems, and more",
    ),
    "val_lpv_lowest_m": (
        12.0, "m", "value that the vertical alert limit of an LPV must exceed",
        "order-8260-50", "scope", "published", "",
    ),
}

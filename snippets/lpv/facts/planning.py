"""Facts: planning: alternates and forecasts, limits on the minima, notices.

The United States rule comes first; the EASA rows are remembered and say so.
"""

_RULE = "ch 1 and ch 4, stating 14 CFR 91.169"
_EASA = "CAT.OP.MPA.180(b), to 2017; later 182"

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # FAA: is an alternate needed
    "no_alternate_ceiling_ft": (
        2000.0, "ft", "least forecast ceiling without an alternate", "iph", _RULE, "published", "",
    ),
    "no_alternate_visibility_sm": (
        3.0, "SM", "least forecast visibility without an alternate", "iph", _RULE, "published", "",
    ),
    "no_alternate_window_h": (
        1.0, "h", "time before and after the ETA that the forecast must cover", "iph", _RULE, "published", "",
    ),
    # Notices
    "notice_window_h": (
        1.0, "h", "time before and after the ETA that the times of a notice are compared with",
        "trade", "limit set by this handbook", "common practice", "flights run early and late",
    ),
    # FAA: may this airport be the alternate
    "alternate_precision_ceiling_ft": (
        600.0, "ft", "least forecast ceiling at an alternate with a precision approach",
        "iph", _RULE, "published", "",
    ),
    "alternate_precision_visibility_sm": (
        2.0, "SM", "least forecast visibility at an alternate with a precision approach",
        "iph", _RULE, "published", "",
    ),
    "alternate_nonprecision_ceiling_ft": (
        800.0, "ft", "least forecast ceiling at an alternate with a nonprecision approach",
        "iph", _RULE, "published", "an approach with vertical guidance, LPV too, counts as nonprecision here",
    ),
    "alternate_nonprecision_visibility_sm": (
        2.0, "SM", "least forecast visibility at an alternate with a nonprecision approach",
        "iph", _RULE, "published", "",
    ),
    # FAA, with operations specifications
    "part_135_over_minimum_ft": (
        1500.0, "ft", "least forecast ceiling above the lowest circling minimum without an alternate, charter flights",
        "cfr-14-135", "135.223(b)", "from memory", "without circling minima above the lowest one, or 2000 ft",
    ),
    "part_135_over_visibility_sm": (
        2.0, "SM", "least forecast visibility above the lowest one asked without an alternate, charter flights",
        "cfr-14-135", "135.223(b)", "from memory", "or 3 SM, whichever is greater",
    ),
    "opspec_one_ft": (
        400.0, "ft", "addition to the height of one usable approach for an alternate",
        "faa-opspecs", "C055", "from memory", "the operator's own specifications hold the figure",
    ),
    "opspec_one_sm": (
        1.0, "SM", "addition to the visibility of one usable approach for an alternate",
        "faa-opspecs", "C055", "from memory", "the operator's own specifications hold the figure",
    ),
    "opspec_two_ft": (
        200.0, "ft", "addition to the higher height of two approaches to different runways for an alternate",
        "faa-opspecs", "C055", "from memory", "the operator's own specifications hold the figure",
    ),
    "opspec_two_sm": (
        0.5, "SM", "addition to the higher visibility of two approaches to different runways for an alternate",
        "faa-opspecs", "C055", "from memory", "the operator's own specifications hold the figure",
    ),
    "inoperative_lights_sm": (
        0.25, "SM", "addition to the visibility of an LPV line without MALSR, ALSF or SSALR",
        "tpp-minima", "inoperative components table", "from memory", "the notes of the chart come first",
    ),
    # EASA
    "easa_way_without_gnss": (
        "one approach", "", "that is not based on GNSS, at the destination or at the alternate",
        "ukcaa-air-ops", "AMC1 CAT.OP.MPA.182", "published", "in the United Kingdom to 2025-10-30",
    ),
    "easa_planning_type_a_ft": (
        400.0, "ft", "addition to the height of a type A approach or circling, planning minima of an alternate",
        "easa-air-ops", "AMC to CAT.OP.MPA.182, basic fuel scheme", "from memory", "",
    ),
    "easa_planning_type_a_m": (
        1500.0, "m", "addition to the visibility of a type A approach or circling, planning minima of an alternate",
        "easa-air-ops", "AMC to CAT.OP.MPA.182, basic fuel scheme", "from memory", "",
    ),
    "easa_planning_type_b_ft": (
        200.0, "ft", "addition to the height of a type B approach (DA < 250 ft), planning minima of an alternate",
        "easa-air-ops", "AMC to CAT.OP.MPA.182, basic fuel scheme", "from memory", "",
    ),
    "easa_planning_type_b_m": (
        800.0, "m", "addition to the visibility of a type B approach (DA < 250 ft), planning minima of an alternate",
        "easa-air-ops", "AMC to CAT.OP.MPA.182, basic fuel scheme", "from memory", "",
    ),
    "easa_approach_ban_ft": (
        1000.0, "ft", "height above the aerodrome below which an approach is not continued with the reported RVR or "
        "visibility under the minimum", "ukcaa-air-ops", "CAT.OP.MPA.305(b)", "published",
        "commercial air transport; where the DA is higher, not into the final segment",
    ),
    "easa_no_alternate_ceiling_ft": (
        2000.0, "ft", "least forecast ceiling without a destination alternate",
        "easa-air-ops", _EASA, "published, quoted", "or the circling height plus 500 ft, whichever is greater",
    ),
    "easa_circling_margin_ft": (
        500.0, "ft", "addition to the circling height in that rule", "easa-air-ops", _EASA, "published, quoted", "",
    ),
    "easa_no_alternate_visibility_m": (
        5000.0, "m", "least forecast visibility without a destination alternate",
        "easa-air-ops", _EASA, "from memory", "this half of the rule was not seen",
    ),
    "easa_no_alternate_window_h": (
        1.0, "h", "time before and after the ETA that the forecast must cover",
        "easa-air-ops", _EASA, "published, quoted", "",
    ),
    "easa_no_alternate_flight_h": (
        6.0, "h", "longest flight without a destination alternate", "easa-air-ops", _EASA, "published, quoted", "",
    ),
    "easa_no_alternate_runways": (
        2.0, "", "separate usable runways at a destination without alternate",
        "easa-air-ops", _EASA, "published, quoted", "",
    ),
    # SBAS and the alternate, words
    "alternate_sbas_lines": (
        "LNAV or circling", "", "lines on which an SBAS user plans the alternate", "aim-2026", "1-1-18.c.9(a)",
        "published", "LNAV/VNAV too with approved barometric vertical navigation in use",
    ),
    "raim_outside_coverage": (
        "GPS RAIM for the route", "", "what users of an SBAS receiver check outside the coverage of SBAS",
        "aim-unstated", "5-1-16, number of the paragraph inferred", "published", "receivers to TSO-C145 and C146",
    ),
    "alternate_gps_only": (
        "not both", "", "of destination and alternate, planned on a GPS approach by a receiver without SBAS",
        "aim-2026", "1-2-3.d", "published", "receivers with fault detection and exclusion; SBAS users are exempt",
    ),
    # Data cycles
    "cycle_change_icao": (
        "0000 UTC", "", "hour at which a new data cycle takes effect by ICAO's calendar",
        "trade", "", "from memory", "",
    ),
    "cycle_change_faa": (
        "0901 UTC", "", "hour at which a new data cycle takes effect in the United States",
        "trade", "", "from memory", "",
    ),
    # Cold
    "cold_forecast_window_h": (
        1.0, "h", "time before and after the ETA whose coldest forecast temperature counts",
        "aim-2026", "7-3-2", "published, quoted", "",
    ),
    "cold_report_to_controller": (
        "on first contact", "", "when the corrected altitudes are told to the controller who clears the approach",
        "aim-2026", "7-3-5.g", "published", "the correction of the DA or MDA need not be told",
    ),
    "cold_visibility_minima": (
        "unchanged", "", "what a corrected DA or MDA leaves the visibility minima", "aim-2026", "7-3-5.d", "published",
        "",
    ),
    # Limits on the minima
    "pofz_length_ft": (
        200.0, "ft", "length of the precision obstacle free zone", "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "pofz_width_ft": (
        800.0, "ft", "width of the precision obstacle free zone", "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "pofz_traffic_within_nm": (
        2.0, "NM", "distance of an arrival from the threshold within which the precision obstacle free zone is to be "
        "clear", "aim-2026", "5-4-20.b.2", "published", "that it counts from the threshold is from memory",
    ),
    "pofz_ceiling_below_ft": (
        250.0, "ft", "ceiling below which the precision obstacle free zone must be clear",
        "aim-2026", "5-4-20.b.2", "published", "or the visibility is under its own limit",
    ),
    "pofz_visibility_below_sm": (
        0.75, "SM", "visibility below which the precision obstacle free zone must be clear",
        "aim-2026", "5-4-20.b.2", "published", "or the runway visual range under its own limit",
    ),
    "pofz_rvr_below_ft": (
        4000.0, "ft", "runway visual range below which the precision obstacle free zone must be clear",
        "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "pofz_lowest_hat_ft": (
        250.0, "ft", "lowest height above touchdown while the precision obstacle free zone is not clear",
        "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "pofz_lowest_visibility_sm": (
        0.75, "SM", "lowest visibility while the precision obstacle free zone is not clear",
        "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "lp_needs": (
        "a receiver to TSO-C145b or C146b, or upgraded to it, and a statement in the flight manual", "",
        "what LP minima need", "aim-2026", "1-1-18.b.3", "published", "",
    ),
    "lpv_lowest_visibility_sm": (
        0.5, "SM", "lowest visibility of an LPV minima line", "aim-2026", "1-1-18.b.2", "published", "",
    ),
}

"""Facts: planning: alternates and forecasts, limits on the minima, notices.

The United States rule comes first; the EASA rows are remembered and say so.
"""

_RULE = "ch 1 and ch 4, stating 14 CFR 91.169"
_EASA = "CAT.OP.MPA.182 and its means of compliance"

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # FAA: is an alternate needed
    "no_alternate_ceiling_ft": (
        2000.0, "ft", "least forecast ceiling without an alternate", "iph", _RULE, "published", "",
    ),
    "no_alternate_visibility_sm": (
        3.0, "SM", "least forecast visibility without an alternate", "iph", _RULE, "published", "",
    ),
    "no_alternate_window_h": (
        1.0, "h", "time before and after the ETA that the forecast must hold", "iph", _RULE, "published", "",
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
    # EASA, remembered
    "easa_no_alternate_ceiling_ft": (
        2000.0, "ft", "least forecast ceiling without a destination alternate",
        "easa-air-ops", _EASA, "from memory", "or the circling height plus 500 ft, whichever is greater",
    ),
    "easa_circling_margin_ft": (
        500.0, "ft", "addition to the circling height in that rule", "easa-air-ops", _EASA, "from memory", "",
    ),
    "easa_no_alternate_visibility_m": (
        5000.0, "m", "least forecast visibility without a destination alternate",
        "easa-air-ops", _EASA, "from memory", "",
    ),
    "easa_no_alternate_window_h": (
        1.0, "h", "time before and after the ETA that the forecast must hold",
        "easa-air-ops", _EASA, "from memory", "",
    ),
    "easa_no_alternate_flight_h": (
        6.0, "h", "longest flight without a destination alternate", "easa-air-ops", _EASA, "from memory", "",
    ),
    "easa_no_alternate_runways": (
        2.0, "", "separate usable runways at a destination without alternate",
        "easa-air-ops", _EASA, "from memory", "",
    ),
    # Limits on the minima
    "pofz_length_ft": (
        200.0, "ft", "length of the precision obstacle free zone", "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "pofz_width_ft": (
        800.0, "ft", "width of the precision obstacle free zone", "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "pofz_lowest_hat_ft": (
        250.0, "ft", "lowest height above touchdown while the precision obstacle free zone is not clear",
        "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "pofz_lowest_visibility_sm": (
        0.75, "SM", "lowest visibility while the precision obstacle free zone is not clear",
        "aim-2026", "5-4-20.b.2", "published", "",
    ),
    "lpv_lowest_visibility_sm": (
        0.5, "SM", "lowest visibility of an LPV minima line", "aim-2026", "1-1-18.b.2", "published", "",
    ),
}

"""Facts: the final approach segment, its integrity limits and identifiers."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "hal_lpv_m": (
        40.0, "m", "horizontal alert limit, LPV",
        "aim-2026", "1-1-18.d.1", "published", "",
    ),
    "hal_lnav_m": (
        556.0, "m", "horizontal alert limit, LNAV and LNAV/VNAV",
        "aim-2026", "1-1-18.d.1", "published", "",
    ),
    "val_lpv_m": (
        50.0, "m", "vertical alert limit, LPV with a height above touchdown of 250 ft or more",
        "aim-2026", "1-1-18.d.1", "published", "",
    ),
    "val_lpv200_m": (
        35.0, "m", "vertical alert limit, LPV with a height above touchdown under 250 ft",
        "aim-2026", "1-1-18.d.1", "published", "",
    ),
    "val_lpv200_below_hat_ft": (
        250.0, "ft", "height above touchdown under which the tighter vertical alert limit applies",
        "aim-2026", "1-1-18.d.1", "published", "",
    ),
    "lpv_lowest_hat_ft": (
        200.0, "ft", "lowest height above touchdown of an LPV decision altitude",
        "aim-2026", "1-1-18.b.2", "published", "",
    ),
    "sbas_channel_lowest": (
        40000.0, "", "lowest SBAS channel number",
        "ukcaa-channel", "channel allocation page", "published", "",
    ),
    "sbas_channel_highest": (
        99999.0, "", "highest SBAS channel number",
        "ukcaa-channel", "channel allocation page", "published", "",
    ),
    "fpap_distance_lowest_ft": (
        9023.0, "ft", "least distance from LTP to FPAP",
        "order-8260-58d", "par 3-1-5", "published, quoted", "or the runway length if longer",
    ),
    "garp_beyond_fpap_ft": (
        1000.0, "ft", "distance from FPAP to GARP",
        "order-8260-58d", "par 3-1-5", "published, quoted", "",
    ),
    "garp_beyond_fpap_m": (
        305.0, "m", "distance from FPAP to GARP as the data block's definition gives it",
        "icao-annex-10", "Att. D", "from memory", "",
    ),
    "course_half_width_lowest_ft": (
        350.0, "ft", "least course half-width at the threshold",
        "order-8260-58d", "par 3-1-5.c(3)", "published, quoted", "",
    ),
    "course_width_standard_m": (
        106.75, "m", "usual course half-width at the threshold, as coded",
        "icao-8168-2", "Vol II", "from memory", "350 ft rounded up to the field's step of 0.25 m",
    ),
    "earth_radius_procedure_ft": (
        20890537.0, "ft", "earth radius of the path formulas",
        "order-8260-58d", "path formulas", "from memory", "",
    ),
}

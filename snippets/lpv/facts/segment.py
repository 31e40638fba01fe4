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
        "order-8260-58d", "from 350 ft, par 3-1-5.c(3), rounded up to the field's step of 0.25 m", "derived", "",
    ),
    "earth_radius_procedure_ft": (
        20890537.0, "ft", "earth radius of the path formulas",
        "order-8260-58d", "path formulas", "from memory", "",
    ),
    "val_lp_m": (
        0.0, "m", "vertical alert limit that says: do not use the vertical deviations (LP)",
        "icao-annex-10", "Att. D, Table D-1, note 3", "published", "",
    ),
    "fas_block_bytes": (
        40.0, "bytes", "length of the FAS data block, remainder included",
        "icao-annex-10", "Att. D, Table D-1", "published", "",
    ),
    "fas_remainder_bits": (
        32.0, "bits", "length of the remainder that closes the FAS data block",
        "icao-annex-10", "Att. D, Table D-1", "published", "",
    ),
    "fas_crc_polynomial_hex": (
        "814141AB", "hex", "generator polynomial of the remainder, without its highest term",
        "crc-catalogue", "from CRC-32/AIXM, the same polynomial unreflected, and published remainders", "derived",
        "initial value 0, lowest bit of each byte first, no final XOR; Table D-1 of Annex 10 names no polynomial, only "
        "the 32 bits",
    ),
    "course_width_runway_zero_m": (
        38.0, "m", "course half-width at the threshold where the runway number is coded 00",
        "icao-annex-10", "Att. D, Table D-1", "published", "the coded width does not count then",
    ),
    "operation_type_straight_in": (
        0.0, "", "operation type: straight-in approach, offset ones included",
        "icao-10066", "data catalogue", "published", "",
    ),
    "performance_designator_lpv": (
        0.0, "", "approach performance designator: LPV",
        "icao-10066", "data catalogue", "published", "",
    ),
    "performance_designator_cat_1": (
        1.0, "", "approach performance designator: category I",
        "icao-10066", "data catalogue", "published", "",
    ),
    "reference_path_id_characters": (
        4.0, "characters", "length of a reference path identifier",
        "icao-10066", "data catalogue", "published", "it confirms that the right procedure is loaded",
    ),
    "reference_path_id_barred_letters": (
        "LCR", "", "letters that do not close a reference path identifier, since they name parallel runways",
        "icao-8168-2", "Vol II", "from memory", "otherwise A, B, D and so on, in the order of building",
    ),
    "gbas_channel_lowest": (
        20001.0, "", "lowest GBAS channel number",
        "icao-annex-10-b", "App. B", "from memory", "",
    ),
    "gbas_channel_highest": (
        39999.0, "", "highest GBAS channel number",
        "icao-annex-10-b", "App. B", "from memory", "",
    ),
    "runway_number_step_deg": (
        10.0, "deg", "magnetic direction that one step of a runway's number stands for",
        "trade", "", "common practice", "",
    ),
    # Identifiers 8 to 13 are spare.
    "sbas_provider_0": (
        "WAAS", "", "SBAS provider with identifier 0",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_1": (
        "EGNOS", "", "SBAS provider with identifier 1",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_2": (
        "MSAS", "", "SBAS provider with identifier 2",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_3": (
        "GAGAN", "", "SBAS provider with identifier 3",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_4": (
        "SDCM", "", "SBAS provider with identifier 4",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_5": (
        "BDSBAS", "", "SBAS provider with identifier 5",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_6": (
        "KASS", "", "SBAS provider with identifier 6",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_7": (
        "A-SBAS", "", "SBAS provider with identifier 7",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_14": (
        "GBAS only", "", "SBAS provider with identifier 14",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "sbas_provider_15": (
        "any", "", "SBAS provider with identifier 15",
        "eurocontrol-fas", "SBAS service provider identifier", "published", "",
    ),
    "reference_path_id_letter_0": (
        "W", "", "first letter of a reference path identifier, WAAS",
        "faa-cifp-2003", "from the identifiers of the path point records read here", "derived", "",
    ),
    "reference_path_id_letter_1": (
        "E", "", "first letter of a reference path identifier, EGNOS",
        "egnos-block", "from the identifiers of the published blocks", "derived", "",
    ),
    "reference_path_id_letter_2": (
        "M", "", "first letter of a reference path identifier, MSAS",
        "icao-8168-2", "Vol II", "from memory", "",
    ),
    "reference_path_id_letter_3": (
        "G", "", "first letter of a reference path identifier, GAGAN",
        "icao-8168-2", "Vol II", "from memory", "",
    ),
}

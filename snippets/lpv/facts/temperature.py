"""Facts: the standard atmosphere, airspeed conversion and cold-temperature altimetry."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # ICAO standard atmosphere
    "isa_temperature_k": (
        288.15, "K", "temperature at sea level in the standard atmosphere",
        "icao-7488", "defining constants, as in ambiance 1.3.1", "published, quoted", "15 °C",
    ),
    "isa_pressure_hpa": (
        1013.25, "hPa", "pressure at sea level in the standard atmosphere",
        "icao-7488", "defining constants, as in ambiance 1.3.1", "published, quoted", "29.92 inHg",
    ),
    "isa_lapse_rate_k_per_m": (
        0.0065, "K/m", "fall of temperature with geopotential altitude up to the tropopause",
        "icao-7488", "defining constants, as in ambiance 1.3.1", "published, quoted", "",
    ),
    "isa_tropopause_m": (
        11000.0, "m", "geopotential altitude of the tropopause",
        "icao-7488", "defining constants, as in ambiance 1.3.1", "published, quoted", "36 089 ft",
    ),
    "air_gas_constant_j_per_kg_k": (
        287.05287, "J/(kg K)", "specific gas constant of dry air",
        "icao-7488", "defining constants, as in ambiance 1.3.1", "published, quoted", "",
    ),
    "air_heat_ratio": (
        1.4, "", "ratio of the specific heats of air",
        "icao-7488", "defining constants, as in ambiance 1.3.1", "published, quoted", "",
    ),
    "hpa_per_inhg": (
        33.86389, "hPa/inHg", "one inch of mercury, conventional",
        "trade", "", "from memory", "",
    ),
    # Airspeed formulas of procedure design
    "tas_rule_per_ft": (
        0.00002, "1/ft", "growth of true over indicated airspeed for each foot, by the order's rule",
        "order-8260-52", "example of Formula 3-10A/B", "published", "",
    ),
    "pans_ops_tas_factor": (
        171233.0, "", "constant of ICAO's conversion of indicated to true airspeed",
        "icao-8168-2", "conversion factor K", "from memory",
        "with the three values below it gives the printed 1.1231",
    ),
    "pans_ops_tas_temperature_k": (
        288.0, "K", "sea-level temperature of that formula",
        "icao-8168-2", "conversion factor K", "from memory", "",
    ),
    "pans_ops_tas_lapse_rate_k_per_ft": (
        0.00198, "K/ft", "lapse rate of that formula",
        "icao-8168-2", "conversion factor K", "from memory", "",
    ),
    "pans_ops_tas_exponent": (
        2.628, "", "exponent of that formula",
        "icao-8168-2", "conversion factor K", "from memory", "",
    ),
    # Altimeter
    "altimeter_ground_check_ft": (
        75.0, "ft", "difference from the known elevation, on the ground, from which an altimeter is suspect",
        "ifh", "altimeter, check before flight", "from memory", "",
    ),
    "cold_without_rule_c": (
        0.0, "°C", "temperature at and below which cold is a question, where no rule in the file answers it",
        "trade", "limit set by this handbook", "common practice",
        "EASA and ICAO leave the temperature to the State and the operator",
    ),
    # Cold-temperature correction, short formula
    "cold_lapse_rate_c_per_ft": (
        0.00198, "°C/ft", "lapse rate of the short cold-temperature formula",
        "icao-8168-1", "Part III Sec 1 Ch 4 par 4.3", "from memory",
        "the formula reproduces all 98 cells of the published table",
    ),
    "cold_isa_temperature_c": (
        15.0, "°C", "sea-level temperature of the short cold-temperature formula",
        "icao-8168-1", "Part III Sec 1 Ch 4 par 4.3", "from memory", "",
    ),
    "cold_zero_celsius_k": (
        273.0, "K", "0 °C as the short cold-temperature formula writes it",
        "icao-8168-1", "Part III Sec 1 Ch 4 par 4.3", "from memory", "",
    ),
    "cold_formula_height_highest_ft": (
        5000.0, "ft", "height up to which the short formula is within 5 %",
        "icao-8168-1", "Part III Sec 1 Ch 4.3", "published, quoted", "for sources up to 10 000 ft",
    ),
    "cold_formula_elevation_highest_ft": (
        10000.0, "ft", "altimeter source elevation up to which the short formula is within 5 %",
        "icao-8168-1", "Part III Sec 1 Ch 4.3", "published, quoted", "",
    ),
    "cold_formula_use_at_or_below_c": (
        -15.0, "°C", "temperature at or below which the formula, not the 4 % rule, is to be used",
        "icao-8168-1", "Part III Sec 1 Ch 4.3", "published, quoted", "",
    ),
    "cold_rule_share_per_10_c": (
        0.04, "", "share of the height for each 10 °C below standard, by the rule of thumb",
        "icao-8168-1", "Part III Sec 1 Ch 4.3", "published, quoted", "safe while warmer than 15 °C below zero",
    ),
    # Cold-temperature correction, logarithmic formula
    "log_lapse_rate_k_per_ft": (
        0.0019812, "K/ft", "lapse rate of the logarithmic formula",
        "icao-8168-2-7", "as cited in Transport Canada AC 500-020 par 4.8", "published, quoted", "",
    ),
    "log_isa_temperature_k": (
        288.15, "K", "sea-level temperature of the logarithmic formula",
        "icao-8168-2-7", "as cited in Transport Canada AC 500-020 par 4.8", "published, quoted", "",
    ),
    # Cold-temperature table and its rounding, FAA
    "cold_table_heights_ft": (
        "200 300 400 500 600 700 800 900 1000 1500 2000 3000 4000 5000", "ft",
        "columns of the ICAO cold temperature error table: height above the airport",
        "aim-2026", "TBL 7-3-1", "published, quoted", "",
    ),
    "cold_table_temperatures_c": (
        "10 0 -10 -20 -30 -40 -50", "°C", "rows of the ICAO cold temperature error table",
        "aim-2026", "TBL 7-3-1", "published, quoted", "",
    ),
    "cold_table_step_ft": (
        10.0, "ft", "step up to which every cell of the table is rounded",
        "aim-2026", "from the 98 cells of TBL 7-3-1, which all agree", "derived", "",
    ),
    "cold_segment_step_ft": (
        100.0, "ft", "step to which a segment's addition may be rounded, to the nearest or up",
        "aim-2026", "7-3-5.e", "published", "a DA or MDA addition is never rounded down",
    ),
    # Barometric path in cold and heat, Order 8260.52 Formulas 3-4 and 3-5
    "baro_path_per_c_ft": (
        0.19, "ft/°C", "part of the height change that does not grow with height",
        "order-8260-52", "Formula 3-4", "published", "read from a poorly legible copy",
    ),
    "baro_path_per_c_and_ft": (
        0.0038, "1/°C", "part of the height change that grows with height",
        "order-8260-52", "Formula 3-4", "published", "read from a poorly legible copy",
    ),
    "baro_path_per_ft": (
        0.032, "", "allowance of the formula that grows with height",
        "order-8260-52", "Formula 3-4", "published", "read from a poorly legible copy",
    ),
    "baro_path_constant_ft": (
        4.9, "ft", "constant allowance of the formula",
        "order-8260-52", "Formula 3-4", "published", "read from a poorly legible copy",
    ),
    "baro_path_lowest_share": (
        0.917, "", "least effective angle of a barometric path, as a share of the published angle",
        "order-8260-52", "Chapter 3, p 3-4", "published", "",
    ),
}

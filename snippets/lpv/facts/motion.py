"""Facts: turns, climb, approach categories and stabilised gates."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "design_wind_base_kt": (
        47.0, "kt", "wind that procedure design assumes at sea level, from any direction",
        "icao-8168-2", "I-4-3 App A", "published", "ICAO",
    ),
    "design_wind_per_1000_ft_kt": (
        2.0, "kt", "growth of that wind for each 1000 ft of altitude",
        "icao-8168-2", "I-4-3 App A", "published", "ICAO",
    ),
    "obstacle_clearance_share": (
        0.24, "", "share of a climb gradient that is kept as clearance over the obstacle",
        "aim-2023", "5-2-9.e.3-4; also IPH ch 1", "published", "48 ft/NM of the usual 200 ft/NM",
    ),
    # What is added to VREF
    "additive_gust_share": (
        0.5, "", "part of the gust over the steady wind that is commonly taught to be added to VREF",
        "trade", "", "from memory", "the flight manual and the operator's rule count",
    ),
    "additive_headwind_share": (
        0.5, "", "part of the steady headwind that is commonly taught to be added to VREF of jets, with the whole gust",
        "trade", "", "from memory", "the flight manual and the operator's rule count",
    ),
    "additive_most_kt": (
        20.0, "kt", "most that is commonly taught to be added to VREF", "trade", "", "from memory",
        "the flight manual and the operator's rule count",
    ),
    # Holds
    "hold_turn_deg_per_s": (
        3.0, "deg/s", "rate of turn in a hold, where it asks for less bank than the bank limits do",
        "aim-2023", "5-3-8", "from memory", "",
    ),
    "hold_bank_deg": (
        25.0, "deg", "bank in a hold with a flight director", "aim-2023", "5-3-8", "from memory", "30° without one",
    ),
    "hold_inbound_s": (
        60.0, "s", "time of the inbound leg of a hold at and below 14 000 ft", "aim-2023", "5-3-8", "from memory",
        "90 s above; where a length is charted, that",
    ),
    # Approach categories
    "category_b_from_kt": (
        91.0, "kt", "lowest speed of approach category B",
        "cfr-14-97", "97.3", "published", "VREF at the maximum certificated landing weight",
    ),
    "category_c_from_kt": (
        121.0, "kt", "lowest speed of approach category C",
        "cfr-14-97", "97.3", "published", "",
    ),
    "category_d_from_kt": (
        141.0, "kt", "lowest speed of approach category D",
        "cfr-14-97", "97.3", "published", "",
    ),
    "category_e_from_kt": (
        166.0, "kt", "lowest speed of approach category E",
        "cfr-14-97", "97.3", "published", "",
    ),
    "category_stall_factor": (
        1.3, "", "factor on VS0 where no VREF is specified",
        "cfr-14-97", "97.3", "published", "",
    ),
    "descent_rule_factor": (
        5.0, "", "rate of descent in ft/min over ground speed in kt, rule of thumb for three degrees",
        "trade", "", "common practice", "half the ground speed, times ten; a little low",
    ),
    # Slowing down
    "slowing_path_low_kt_per_nm": (
        10.0, "kt/NM", "typical slowing on three degrees, gear down and landing flaps, low",
        "fsf-alar-4-2", "deceleration characteristics", "from memory", "",
    ),
    "slowing_path_high_kt_per_nm": (
        20.0, "kt/NM", "typical slowing on three degrees, gear down and landing flaps, high",
        "fsf-alar-4-2", "deceleration characteristics", "from memory", "",
    ),
    # Stabilised approach
    "gate_imc_ft": (
        1000.0, "ft", "height above the airport elevation by which to be stabilized, in IMC",
        "fsf-alar-7-1", "Table 1", "published, quoted", "",
    ),
    "gate_vmc_ft": (
        500.0, "ft", "height above the airport elevation by which to be stabilized, in VMC",
        "fsf-alar-7-1", "Table 1", "published, quoted", "",
    ),
    "gate_speed_above_vref_kt": (
        20.0, "kt", "most speed over VREF; the least is VREF",
        "fsf-alar-7-1", "Table 1", "published, quoted", "indicated airspeed",
    ),
    "gate_sink_rate_fpm": (
        1000.0, "ft/min", "highest sink rate without a special briefing",
        "fsf-alar-7-1", "Table 1", "published, quoted", "",
    ),
    "gate_deviation_dots": (
        1.0, "dots", "largest deviation from glideslope and localizer",
        "fsf-alar-7-1", "Table 1", "published, quoted",
        "written for ILS; that an operator applies it to LPV is common practice",
    ),
    "gate_wings_level_circling_ft": (
        300.0, "ft", "height above the airport elevation by which to be wings level, circling",
        "fsf-alar-7-1", "Table 1", "published, quoted", "",
    ),
    "gate_faa_ft": (
        1000.0, "ft", "height above the airport elevation before which to be stable",
        "ac-120-71", "as cited in GAJSC 2020/04-13-187", "published, quoted",
        "only a summary was read, which also wants the aircraft configured at the FAF",
    ),
    "gate_faa_sink_rate_fpm": (
        1000.0, "ft/min", "highest sink rate unless briefed",
        "ac-120-71", "as cited in GAJSC 2020/04-13-187", "published, quoted", "only a summary was read",
    ),
}

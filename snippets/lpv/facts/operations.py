"""Facts: vectors to final and the missed approach."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # Intercept
    "arming_window_nm": (
        3.0, "NM", "distance from the final course within which an approach mode is expected to arm",
        "trade", "", "common practice", "about; the aircraft flight manual has the real figure",
    ),
    "vector_angle_near_gate_deg": (
        20.0, "deg", "greatest intercept angle of a vector less than 2 miles from the approach gate",
        "jo-7110-65", "TBL 5-9-1", "published", "also for triple simultaneous approaches",
    ),
    "vector_angle_deg": (
        30.0, "deg", "greatest intercept angle of a vector 2 miles or more from the approach gate",
        "jo-7110-65", "TBL 5-9-1", "published", "helicopters 45",
    ),
    "vector_outside_gate_nm": (
        2.0, "NM", "least distance outside the approach gate at which a vector meets the final course",
        "jo-7110-65", "5-9-1.a", "published",
        "older edition; its exceptions closer in (weather, pilot request) do not hold for RNAV aircraft on "
        "a GPS or RNAV approach; its miles are nautical miles, from memory",
    ),
    "approach_gate_outside_faf_nm": (
        1.0, "NM", "distance of the approach gate from the final approach fix, away from the airport",
        "jo-7110-65", "Pilot/Controller Glossary", "from memory", "",
    ),
    "approach_gate_lowest_nm": (
        5.0, "NM", "least distance of the approach gate from the threshold",
        "jo-7110-65", "Pilot/Controller Glossary", "from memory", "",
    ),
    # Minimum: what it forbids, what to set
    "da_forbids": (
        "continuing below it", "", "what a decision altitude forbids unless the three tests are met",
        "cfr-14-91", "91.175(c)", "published", "",
    ),
    "mda_forbids": (
        "being below it", "", "what a minimum descent altitude forbids unless the three tests are met",
        "cfr-14-91", "91.175(c)", "published", "",
    ),
    "da_momentary_descent": (
        "allowed for", "", "a momentary descent below a decision altitude while the go-around begins",
        "aim-quoted", "5-4-5", "published, quoted", "obstacle clearance covers it",
    ),
    "mda_momentary_descent": (
        "not allowed for", "", "a momentary descent below a minimum descent altitude",
        "aim-quoted", "5-4-5", "published, quoted", "",
    ),
    "lp_minimum": (
        "MDA", "", "kind of minimum of an LP line",
        "aim-2023", "5-4-5.k", "published", "an LNAV line has one too; LPV and LNAV/VNAV have a DA",
    ),
    "mda_go_around_begins": (
        "above the MDA", "", "where a go-around from a continuous descent to an MDA begins",
        "ac-120-108", "par 4", "published, quoted", "so that the aircraft does not sink below the MDA",
    ),
    # Missed approach, when and where
    "missed_at_once": (
        "until touchdown", "", "how long a requirement lost below the minimum means an immediate missed approach",
        "cfr-14-91", "91.175(e)", "published", "",
    ),
    "missed_point_with_path": (
        "the DA", "", "missed approach point of an approach with vertical guidance",
        "aim-2026", "5-4-20.f.5", "published", "",
    ),
    "missed_first_turn": (
        "not before the missed approach point", "", "where the missed approach may turn when begun early",
        "aim-2019", "5-4-21.b", "published", "fly to it at or above the minimum; an early turn is not allowed for",
    ),
    "missed_altitude_set": (
        "once the glidepath is captured", "", "when the missed approach altitude is set for the autopilot",
        "trade", "", "common practice", "the operator's procedures have the real rule",
    ),
    "direct_if_angle_deg": (
        90.0, "deg", "greatest angle at which a clearance direct to the IF meets the intermediate course",
        "aim-2026", "5-4-6.h.6-7", "published", "",
    ),
    "direct_if_notice_nm": (
        5.0, "NM", "latest distance from the fix at which a clearance direct to the IF is to be expected",
        "aim-2026", "5-4-6.h.6-7", "published", "",
    ),
    "direct_inside_if_angle_deg": (
        30.0, "deg", "greatest angle at which a clearance direct to a fix between IF and FAF meets the course",
        "aim-2026", "5-4-6.h.6-7", "published", "the FAF itself only if it is also an IAF",
    ),
    "vectors_option": (
        "discouraged", "", "what the vectors-to-final option of the navigation system is",
        "aim-2026", "5-4-6.h.7 NOTE 2", "published", "it may drop fixes outside the FAF",
    ),
    "altitude_held_until": (
        "on a published segment", "", "until when the altitude last assigned is held on an approach",
        "aim-2026", "5-4-6.h.1; also 14 CFR 91.175(i)", "published", "",
    ),
    "nco_established_before_faf_nm": (
        2.0, "NM", "least distance before the FAF at which to be established when cleared direct to the IF",
        "easa-part-nco", "AMC5 NCO.OP.116", "published", "direct to the FAF is not acceptable",
    ),
    "ils_false_path_deg": (
        9.0, "deg", "lowest angle at which a false ILS glideslope is met",
        "ifh", "ILS", "published, quoted", "9 to 12 as quoted",
    ),
    "sbas_false_paths": (
        "none", "", "false glidepaths besides the one that the data block defines",
        "icao-annex-10", "from the path's definition by data, Att. D, Table D-1", "derived",
        "the glidepath is computed, not radiated; no text says so",
    ),
    # Missed approach, climb
    "missed_gradient_ft_per_nm": (
        200.0, "ft/NM", "least climb gradient of a missed approach unless a higher one is published",
        "aim-2023", "5-4-21.b", "published", "helicopter procedures 400 ft/NM",
    ),
    "missed_gradient_icao_percent": (
        2.5, "%", "least climb gradient of a missed approach by ICAO unless another one is published",
        "icao-8168-2", "missed approach segment", "from memory", "EASA operators fly the same charts; no text seen",
    ),
    "obstacle_surface_run_per_rise": (
        40.0, "", "run for one foot of rise of the obstacle surface under a climb of 200 ft/NM (40:1)",
        "aim-2023", "5-2-9.e.3-4", "published", "",
    ),
    "obstacle_surface_rise_ft_per_nm": (
        152.0, "ft/NM", "rise of the 40:1 obstacle surface as printed",
        "aim-2023", "5-2-9.e.3-4", "published", "6076.1 / 40 = 151.9",
    ),
    "required_clearance_ft_per_nm": (
        48.0, "ft/NM", "obstacle clearance gained on the 40:1 surface at 200 ft/NM",
        "aim-2023", "5-2-9.e.3-4", "published", "24 % of the gradient",
    ),
    "missed_gradient_highest_ft_per_nm": (
        425.0, "ft/NM", "highest missed approach climb gradient of an RNP procedure",
        "order-8260-52", "par 4.3.1b", "published", "cancelled order; an obstacle surface of 18.82:1",
    ),
    "surface_times_gradient_ft_per_nm": (
        8000.0, "ft/NM", "slope (run for one of rise) of the obstacle surface times climb gradient",
        "order-8260-52", "par 4.3.1b, Formula 4-10", "published", "40 times 200",
    ),
    # Missed approach, height loss
    "height_loss_baro_a_ft": (
        130.0, "ft", "height loss and altimeter margin, category A, pressure altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "40 m",
    ),
    "height_loss_baro_b_ft": (
        142.0, "ft", "height loss and altimeter margin, category B, pressure altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "43 m",
    ),
    "height_loss_baro_c_ft": (
        150.0, "ft", "height loss and altimeter margin, category C, pressure altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "46 m",
    ),
    "height_loss_baro_d_ft": (
        161.0, "ft", "height loss and altimeter margin, category D, pressure altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "49 m",
    ),
    "height_loss_radio_a_ft": (
        42.0, "ft", "height loss and altimeter margin, category A, radio altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "13 m",
    ),
    "height_loss_radio_b_ft": (
        59.0, "ft", "height loss and altimeter margin, category B, radio altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "18 m",
    ),
    "height_loss_radio_c_ft": (
        71.0, "ft", "height loss and altimeter margin, category C, radio altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "22 m",
    ),
    "height_loss_radio_d_ft": (
        85.0, "ft", "height loss and altimeter margin, category D, radio altimeter",
        "icao-8168-2-2006", "Table III-3-6-3", "published", "26 m",
    ),
}

"""Facts: SBAS integrity: broadcast index tables, error model, alert limits, measured performance."""

_MOPS = "init_mops.m; the same in RTKLIB sbas.c"
_UDRE_M = (0.75, 1.0, 1.25, 1.75, 2.25, 3.0, 3.75, 4.5, 5.25, 6.0, 7.5, 15.0, 50.0, 150.0)
_UDRE_M2 = (
    0.0520, 0.0924, 0.1444, 0.2830, 0.4678, 0.8315, 1.2992, 1.8709, 2.5465, 3.3260, 5.1968, 20.7870, 230.9661,
    2078.695,
)
_GIVE_M = (0.3, 0.6, 0.9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.6, 4.5, 6.0, 15.0, 45.0)
_GIVE_M2 = (
    0.0084, 0.0333, 0.0749, 0.1331, 0.2079, 0.2994, 0.4075, 0.5322, 0.6735, 0.8315, 1.1974, 1.8709, 3.3260,
    20.7870, 187.0826,
)

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # Protection levels
    "k_horizontal_pa": (
        6.0, "", "factor of the horizontal protection level, precision approach mode",
        "maast", "init_mops.m", "published", "the same in open source protection level tests",
    ),
    "k_horizontal_npa": (
        6.18, "", "factor of the horizontal protection level, nonprecision mode",
        "maast", "init_mops.m", "published", "",
    ),
    "k_vertical_pa": (
        5.33, "", "factor of the vertical protection level",
        "maast", "init_mops.m", "published", "",
    ),
    "mask_elevation_deg": (
        5.0, "deg", "elevation under which a satellite is not used",
        "maast", "init_mops.m", "published", "",
    ),
    "satellites_lowest": (
        4.0, "", "satellites needed for a position with one constellation",
        "maast", "from usr_vhpl.m, which asks for more than 2 satellites and one for each constellation", "derived",
        "a geostationary satellite must be received besides",
    ),
    "default_udre_index": (
        5.0, "", "UDREI of every satellite in the simulation",
        "maast", "default inputs", "published", "",
    ),
    "default_give_index": (
        9.0, "", "GIVEI of every grid point in the simulation",
        "maast", "default inputs", "published", "",
    ),
    # Error model
    "troposphere_vertical_sigma_m": (
        0.12, "m", "standard deviation of the vertical tropospheric error",
        "maast", "af_trpmops.m; RTKLIB sbstropcorr", "published", "",
    ),
    "troposphere_mapping_numerator": (
        1.001, "", "numerator of the tropospheric mapping function",
        "maast", "af_trpmops.m; RTKLIB sbstropcorr", "published", "",
    ),
    "troposphere_mapping_offset": (
        0.002001, "", "offset under the root of the tropospheric mapping function",
        "maast", "af_trpmops.m; RTKLIB sbstropcorr", "published", "",
    ),
    "troposphere_elevation_lowest_deg": (
        4.0, "deg", "elevation down to which the mapping function holds",
        "rtca-do-229", "tropospheric model", "from memory", "",
    ),
    "multipath_floor_m": (
        0.13, "m", "airframe multipath, constant part",
        "maast", "init_cnmp_mops.m", "published", "",
    ),
    "multipath_low_m": (
        0.53, "m", "airframe multipath, part that falls with elevation",
        "maast", "init_cnmp_mops.m", "published", "",
    ),
    "multipath_decay_deg": (
        10.0, "deg", "elevation over which the multipath falls to 1/e",
        "maast", "init_cnmp_mops.m", "published", "",
    ),
    "noise_aad_b_floor_m": (
        0.11, "m", "receiver noise, accuracy designator B, constant part",
        "maast", "af_cnmp_mops.m", "published", "",
    ),
    "noise_aad_b_low_m": (
        0.13, "m", "receiver noise, accuracy designator B, part that falls with elevation",
        "maast", "af_cnmp_mops.m", "published", "",
    ),
    "noise_aad_b_decay_deg": (
        4.0, "deg", "elevation over which the noise of designator B falls to 1/e",
        "maast", "af_cnmp_mops.m", "published", "",
    ),
    "noise_aad_a_m": (
        0.36, "m", "receiver noise and divergence, accuracy designator A, weakest signal",
        "side-sbas", "error_model.rs", "published", "",
    ),
    "noise_aad_a_strong_m": (
        0.15, "m", "receiver noise and divergence, accuracy designator A, strongest signal",
        "rtca-do-229", "2.1.4.1.4", "from memory", "",
    ),
    "ionosphere_earth_radius_km": (
        6378.1363, "km", "earth radius of the ionospheric geometry",
        "rtklib", "ionppp, sbsioncorr", "published", "",
    ),
    "ionosphere_height_km": (
        350.0, "km", "height of the thin ionospheric shell",
        "rtklib", "ionppp, sbsioncorr", "published", "",
    ),
    "ionosphere_grid_latitude_highest_deg": (
        75.0, "deg", "latitude beyond which the grid needs rules of its own",
        "rtca-do-229", "ionospheric grid", "from memory", "those rules are not computed here",
    ),
    "npa_delay_equator_m": (
        9.0, "m", "vertical ionospheric error without a grid, under 20° of magnetic latitude",
        "maast", "usrprocess.m", "published", "",
    ),
    "npa_delay_middle_m": (
        4.5, "m", "vertical ionospheric error without a grid, 20 to 55° of magnetic latitude",
        "maast", "usrprocess.m", "published", "",
    ),
    "npa_delay_pole_m": (
        6.0, "m", "vertical ionospheric error without a grid, over 55° of magnetic latitude",
        "maast", "usrprocess.m", "published", "",
    ),
    "npa_latitude_equator_deg": (
        20.0, "deg", "magnetic latitude that ends the equatorial band",
        "maast", "usrprocess.m", "published", "",
    ),
    "npa_latitude_middle_deg": (
        55.0, "deg", "magnetic latitude that ends the middle band",
        "maast", "usrprocess.m", "published", "",
    ),
    # Requirements beside those of the approach segment
    "val_apv_ii_m": (
        20.0, "m", "vertical alert limit, APV-II",
        "icao-annex-10-tables", "Table 3.7.2.4-1, notes", "published", "",
    ),
    "hal_terminal_m": (
        1850.0, "m", "horizontal alert limit, terminal (1.85 km)",
        "icao-annex-10-tables", "Table 3.7.2.4-1, notes", "published", "",
    ),
    "hal_en_route_m": (
        3700.0, "m", "horizontal alert limit, en route (3.7 km)",
        "icao-annex-10-tables", "Table 3.7.2.4-1, notes", "published", "",
    ),
    "hal_oceanic_m": (
        7400.0, "m", "horizontal alert limit, oceanic (7.4 km)",
        "icao-annex-10-tables", "Table 3.7.2.4-1, notes", "published", "",
    ),
    "accuracy_lpv_horizontal_m": (
        16.0, "m", "horizontal accuracy, 95 %, LPV",
        "faa-waas-slides", "LPV and LPV-200", "published, quoted", "",
    ),
    "accuracy_lpv_vertical_m": (
        4.0, "m", "vertical accuracy, 95 %, LPV and LPV-200",
        "faa-waas-slides", "LPV and LPV-200", "published, quoted", "",
    ),
    "availability_target": (
        0.99, "", "availability that counts as covered",
        "maast", "avail_contour.m", "published", "",
    ),
    # Measured performance
    "measured_vpl_95_highest_m": (
        43.390, "m", "highest 95 % vertical protection level of the sites (Boston), Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    "measured_vpl_95_lowest_m": (
        25.445, "m", "lowest 95 % vertical protection level of the sites (Kansas City), Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    "measured_hpl_95_highest_m": (
        27.972, "m", "highest 95 % horizontal protection level of the sites (Oakland), Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    "measured_hpl_95_lowest_m": (
        15.639, "m", "lowest 95 % horizontal protection level of the sites (Kansas City), Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    "measured_vertical_accuracy_95_lowest_m": (
        1.026, "m", "best measured 95 % vertical accuracy of the sites, Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    "measured_vertical_accuracy_95_highest_m": (
        1.790, "m", "worst measured 95 % vertical accuracy of the sites, Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    "measured_lpv_availability_lowest_percent": (
        97.32, "%", "lowest LPV availability of the sites (Boston), Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    "measured_lpv_availability_highest_percent": (
        99.97, "%", "highest LPV availability of the sites (Elko), Jul-Sep 2004",
        "faa-pan-10", "report #10", "published", "",
    ),
    # Time
    "time_to_alert_lpv_s": (
        6.2, "s", "time to alert of the service for LPV",
        "waas-ps", "service tables", "from memory", "",
    ),
    "udre_timeout_pa_s": (
        12.0, "s", "age at which a UDRE may no longer be used, precision approach",
        "maast", "L1_decode_satcorr", "published", "",
    ),
    "messages_lost_highest": (
        4.0, "", "successive messages whose loss ends LPV",
        "rtca-do-229", "loss of messages", "from memory", "one message a second",
    ),
}

for _index, _metres in enumerate(_UDRE_M):
    FACTS[f"udre_{_index:02d}_m"] = (
        _metres, "m", f"user differential range error, UDREI {_index}", "maast", _MOPS, "published", "",
    )
    FACTS[f"udre_variance_{_index:02d}_m2"] = (
        _UDRE_M2[_index], "m²", f"its variance, UDREI {_index}", "maast", _MOPS, "published", "",
    )
for _index, _metres in enumerate(_GIVE_M):
    FACTS[f"give_{_index:02d}_m"] = (
        _metres, "m", f"grid ionospheric vertical error, GIVEI {_index}", "maast", _MOPS, "published", "",
    )
    FACTS[f"give_variance_{_index:02d}_m2"] = (
        _GIVE_M2[_index], "m²", f"its variance, GIVEI {_index}", "maast", _MOPS, "published", "",
    )

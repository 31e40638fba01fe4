"""Facts: data cycles, navigation frequencies, the geoid and the magnetic model."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "geoid_step_deg": (
        0.25, "deg", "step of the grid of geoid heights",
        "egm96", "header of egm96_15", "published", "in the public domain; carried here rounded to 0.1 m",
    ),
    "airac_reference_date": (
        "2020-02-27", "date", "effective date of cycle 2003, from which all other cycles are counted",
        "faa-cifp-2003", "header record HDR04", "published", "",
    ),
    "airac_cycle_days": (
        28.0, "d", "length of an AIRAC cycle",
        "trade", "", "common practice", "",
    ),
    "airac_first_year": (
        1998.0, "year", "that 98, the lowest first half of a cycle number, stands for",
        "own-choice", "limit chosen by this handbook", "common practice",
        "two digits tell a hundred years apart; which hundred is a choice",
    ),
    "localizer_lowest_mhz": (
        108.10, "MHz", "lowest localizer frequency",
        "icao-annex-10-ils", "frequency bands", "from memory", "",
    ),
    "localizer_highest_mhz": (
        111.95, "MHz", "highest localizer frequency",
        "icao-annex-10-ils", "frequency bands", "from memory", "",
    ),
    "vor_lowest_mhz": (
        108.00, "MHz", "lowest VOR frequency",
        "icao-annex-10-ils", "frequency bands", "from memory", "kept for test transmitters in many countries",
    ),
    "vor_highest_mhz": (
        117.95, "MHz", "highest VOR frequency",
        "icao-annex-10-ils", "frequency bands", "from memory", "",
    ),
    "navigation_channel_step_mhz": (
        0.05, "MHz", "step between VOR and localizer channels",
        "icao-annex-10-ils", "frequency bands", "from memory", "",
    ),
    "wmm_first_year": (
        2025.0, "year", "start of the validity of WMM2025",
        "wmm2025-report", "validity", "published, quoted", "",
    ),
    "wmm_last_year": (
        2030.0, "year", "end of the validity of WMM2025",
        "wmm2025-report", "validity", "published, quoted", "",
    ),
    "wmm_variation_uncertainty_deg": (
        0.26, "deg", "stated uncertainty of the modeled variation, the part that is the same everywhere",
        "wmm2025-report", "error model", "published, quoted", "",
    ),
    "wmm_variation_uncertainty_deg_nt": (
        5417.0, "deg nT", "stated uncertainty of the modeled variation, the part that grows as 1 / H",
        "wmm2025-report", "error model", "published, quoted", "",
    ),
    "wmm_blackout_below_nt": (
        2000.0, "nT", "horizontal field under which the modeled variation is not to be used",
        "wmm2025-report", "blackout zones", "published, quoted", "",
    ),
    "wmm_caution_below_nt": (
        6000.0, "nT", "horizontal field under which the modeled variation is to be used with caution",
        "wmm2025-report", "blackout zones", "published, quoted", "",
    ),
}

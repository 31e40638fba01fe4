"""Facts: how far a full-scale course or path deviation reaches."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # Lateral, SBAS approach
    "terminal_full_scale_nm": (
        1.0, "NM", "full-scale course deviation until 2 NM before the FAF, full procedure flown",
        "aim-2026", "1-1-18.d.4", "published", "",
    ),
    "angular_begins_before_pfaf_nm": (
        2.0, "NM", "distance before the FAF at which the course deviation begins to tighten",
        "aim-2026", "1-1-18.d.4", "published", "",
    ),
    "angular_start_full_scale_nm": (
        0.3, "NM", "greatest full-scale course deviation at the start of a long final",
        "aim-2026", "1-1-18.d.4", "published", "",
    ),
    "tightening_shape": (
        "linear", "", "shape of the tightening from 2 NM before the FAF to the FAF",
        "rtca-do-229", "2.2", "from memory",
        "no shape is published where we could read it; this handbook draws a straight line",
    ),
    "course_width_threshold_ft": (
        700.0, "ft", "usual full-scale width of the SBAS final course at the threshold, left to right",
        "aim-2026", "1-1-18.d.4", "published", "",
    ),
    "vectors_full_scale_nm": (
        1.0, "NM", "full-scale course deviation on vectors to final until the splay reaches it",
        "aim-2026", "1-1-18.d.4", "published", "",
    ),
    "missed_aligned_full_scale_nm": (
        0.3, "NM", "full-scale course deviation of a missed approach until its first turn, first leg aligned",
        "aim-2026", "1-1-18.d.5", "published", "",
    ),
    "missed_aligned_within_deg": (
        3.0, "deg", "greatest turn at which the first missed approach leg counts as aligned with the final",
        "aim-2026", "1-1-18.d.5", "published", "",
    ),
    "missed_full_scale_nm": (
        1.0, "NM", "full-scale course deviation of a missed approach after its first turn begins",
        "aim-2026", "1-1-18.d.5", "published", "",
    ),
    "missed_not_aligned_full_scale_nm": (
        1.0, "NM", "full-scale course deviation of a missed approach, first leg not aligned",
        "aim-2026", "from 1-1-18.d.5, which implies it", "derived", "",
    ),
    "missed_scale_changes": (
        "abruptly", "", "how the full-scale course deviation changes for the missed approach",
        "aim-2026", "1-1-18.d.5", "published",
        "at about the departure end of the runway, or when the missed approach is selected",
    ),
    # Vertical, SBAS approach
    "lpv_vertical_share": (
        0.25, "", "full-scale glidepath deviation of LPV as a share of the glidepath angle",
        "rtca-do-229", "2.2.4.4", "from memory", "no public text found",
    ),
    "lpv_vertical_cap_m": (
        150.0, "m", "greatest full-scale glidepath deviation of LPV",
        "rtca-do-229", "2.2.4.4", "from memory", "no public text found",
    ),
    "lpv_vertical_floor_m": (
        15.0, "m", "least full-scale glidepath deviation of LPV",
        "rtca-do-229", "2.2.4.4", "from memory", "no public text found",
    ),
    "lnav_vnav_vertical_share": (
        0.25, "", "full-scale glidepath deviation of LNAV/VNAV with SBAS as a share of the glidepath angle",
        "rtca-do-229", "2.2.3.4", "from memory", "no public text found",
    ),
    "lnav_vnav_vertical_cap_m": (
        150.0, "m", "greatest full-scale glidepath deviation of LNAV/VNAV with SBAS",
        "rtca-do-229", "2.2.3.4", "from memory", "no public text found",
    ),
    "lnav_vnav_vertical_floor_m": (
        45.0, "m", "least full-scale glidepath deviation of LNAV/VNAV with SBAS",
        "rtca-do-229", "2.2.3.4", "from memory", "no public text found",
    ),
    # Scales
    "two_dot_scale_dots": (
        2.0, "dots", "from the center to full scale on a two-dot scale",
        "ifh", "instrument chapters", "from memory", "",
    ),
    "five_dot_scale_dots": (
        5.0, "dots", "from the center to full scale on a five-dot scale",
        "ifh", "instrument chapters", "from memory", "",
    ),
    "normal_deviation_share": (
        0.5, "", "bound of the normal flight technical error, course and path, as a share of full scale",
        "icao-9613", "Part C Ch 5 Sec B par 5.3.3.1.1.1(b)", "published, quoted", "",
    ),
    # ILS
    "localizer_width_threshold_ft": (
        700.0, "ft", "full-scale width of a localizer course at the threshold, left to right",
        "aim-2026", "1-1-9.b.2", "published", "",
    ),
    "localizer_width_lowest_deg": (
        3.0, "deg", "least full-scale width of a tailored localizer course, left to right",
        "ifh", "ILS", "from memory", "",
    ),
    "localizer_width_highest_deg": (
        6.0, "deg", "greatest full-scale width of a tailored localizer course, left to right",
        "icao-annex-10-ils", "3.1.3.7", "from memory", "",
    ),
    "localizer_sensitivity_ddm_per_m": (
        0.00145, "DDM/m", "displacement sensitivity of a localizer at the threshold",
        "icao-annex-10-c", "Figure C-9", "published", "",
    ),
    "localizer_full_scale_ddm": (
        0.155, "DDM", "difference in depth of modulation at full-scale course deviation",
        "icao-annex-10-ils", "3.1.3.7", "from memory", "",
    ),
    "glide_slope_thickness_deg": (
        1.4, "deg", "full-scale thickness of a glideslope, above to below; full scale is half of it",
        "aim-2026", "1-1-9.d.3", "published", "",
    ),
    "glide_slope_half_full_scale_share": (
        0.12, "", "displacement from a glideslope at 0.0875 DDM as a share of its angle",
        "icao-annex-10-ils", "3.1.5.6", "from memory", "",
    ),
    "glide_slope_half_full_scale_ddm": (
        0.0875, "DDM", "difference in depth of modulation at that displacement",
        "icao-annex-10-ils", "3.1.5.6", "from memory", "",
    ),
    "glide_slope_full_scale_ddm": (
        0.175, "DDM", "difference in depth of modulation at full-scale glideslope deviation",
        "icao-annex-10-ils", "3.1.5.6", "from memory", "",
    ),
}

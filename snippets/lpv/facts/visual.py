"""Facts: approach lights, visual references, visibility and runway visual range."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # Approach light systems (United States)
    "als_alsf_ft": (
        2400.0, "ft", "length of ALSF-1 and ALSF-2, glideslope of 2.75 degrees or more",
        "jo-6850-2b", "in Planning and Design of Airports p 340", "published, quoted", "",
    ),
    "als_alsf_low_angle_ft": (
        3000.0, "ft", "length of ALSF-1 and ALSF-2, glideslope under 2.75 degrees",
        "jo-6850-2b", "in Planning and Design of Airports p 340", "published, quoted", "",
    ),
    "als_alsf_angle_deg": (
        2.75, "deg", "glideslope angle from which the shorter ALSF is enough",
        "jo-6850-2b", "in Planning and Design of Airports p 340", "published, quoted", "",
    ),
    "als_alsf_spacing_ft": (
        100.0, "ft", "spacing of the bars of ALSF-1 and ALSF-2",
        "jo-6850-2b", "in Planning and Design of Airports p 340", "published, quoted", "",
    ),
    "als_alsf_crossbar_ft": (
        1000.0, "ft", "distance of the long crossbar of ALSF-1 and ALSF-2 from the threshold",
        "jo-6850-2b", "in Planning and Design of Airports p 340", "published, quoted", "",
    ),
    "als_alsf_flashers_ft": (
        1400.0, "ft", "outer part of ALSF-1 and ALSF-2 that has sequenced flashers",
        "planning-airports", "p 340", "published, quoted", "",
    ),
    "als_alsf2_side_rows_from_ft": (
        900.0, "ft", "outer end of the red side rows of ALSF-2",
        "planning-airports", "p 340", "published, quoted", "every 100 ft, in to 100 ft",
    ),
    "als_mals_ft": (
        1400.0, "ft", "length of MALS and MALSF",
        "jo-6850-2b", "MALS", "from memory", "read as quoted, no document named",
    ),
    "als_mals_spacing_ft": (
        200.0, "ft", "spacing of the bars of MALS, MALSF, MALSR and SSALR, the first at that distance",
        "jo-6850-2b", "MALS", "from memory", "read as quoted, no document named",
    ),
    "als_malsr_ft": (
        2400.0, "ft", "length of MALSR and SSALR with their runway alignment flashers",
        "jo-6850-2b", "MALSR", "from memory", "1400 ft of bars, 1000 ft of flashers; read as quoted, no document named",
    ),
    "als_rail_from_ft": (
        1600.0, "ft", "nearest runway alignment flasher of MALSR and SSALR",
        "jo-6850-2b", "MALSR", "from memory", "five flashers, out to 2400 ft",
    ),
    "als_odals_ft": (
        1500.0, "ft", "outermost of the flashers of ODALS on the centerline",
        "jo-7110-65", "Pilot/Controller Glossary", "published", "",
    ),
    "als_odals_spacing_ft": (
        300.0, "ft", "spacing of the flashers of ODALS, the first at that distance",
        "jo-7110-65", "Pilot/Controller Glossary", "published", "",
    ),
    # Visual references (14 CFR 91.175)
    "als_only_lowest_above_tdze_ft": (
        100.0, "ft", "lowest height above touchdown zone elevation on approach lights alone",
        "cfr-14-91", "91.175(c)(3)", "published",
        "lower only if red terminating bars or red side row bars are in sight too",
    ),
    "visual_reference_1": (
        "approach light system, with its own limit", "", "visual reference",
        "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_2": ("threshold", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", ""),
    "visual_reference_3": (
        "threshold markings", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_4": (
        "threshold lights", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_5": (
        "runway end identifier lights", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_6": (
        "visual glideslope indicator", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_7": (
        "touchdown zone or its markings", "", "visual reference",
        "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_8": (
        "touchdown zone lights", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_9": (
        "runway or its markings", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    "visual_reference_10": (
        "runway lights", "", "visual reference", "cfr-14-91", "91.175(c)(3)", "published", "",
    ),
    # Light classes (EASA)
    "lights_full_m": (
        720.0, "m", "least length of a full approach light system (FALS)",
        "ukcaa-air-ops", "GM2 CAT.OP.MPA.110, Table 1", "published", "EASA",
    ),
    "lights_intermediate_m": (
        420.0, "m", "least length of an intermediate approach light system (IALS)",
        "ukcaa-air-ops", "GM2 CAT.OP.MPA.110, Table 1", "published", "EASA",
    ),
    "lights_basic_m": (
        210.0, "m", "least length of a basic approach light system (BALS); shorter counts as none (NALS)",
        "ukcaa-air-ops", "GM2 CAT.OP.MPA.110, Table 1", "published", "EASA",
    ),
    "easa_rvr_head_up_below_m": (
        750.0, "m", "runway visual range below which an approach with vertical guidance that is no precision approach "
        "asks for full approach lights, touchdown zone and centerline lights and an approved head-up display",
        "ukcaa-air-ops", "AMC5 CAT.OP.MPA.110(a)(4)(iii)", "published", "EASA, commercial air transport",
    ),
    "easa_rvr_formula_angle_deg": (
        3.0, "deg", "angle in the formula behind the runway visual ranges, first row",
        "ukcaa-air-ops", "AMC5 CAT.OP.MPA.110(a)(2)", "published", "EASA",
    ),
    "easa_rvr_formula_angle_step_deg": (
        0.1, "deg", "how much steeper the angle of that formula is from row to row",
        "ukcaa-air-ops", "AMC5 CAT.OP.MPA.110(a)(2)", "published", "EASA",
    ),
    "easa_rvr_formula_angle_highest_deg": (
        3.77, "deg", "steepest angle of that formula",
        "ukcaa-air-ops", "AMC5 CAT.OP.MPA.110(a)(2)", "published", "EASA",
    ),
    # Visual-segment surface
    "visual_surface_below_gpa_deg": (
        1.0, "deg", "angle of the visual-segment surface under the glidepath",
        "order-8260-52", "par 3.6", "published", "cancelled order",
    ),
    "visual_surface_outside_runway_ft": (
        100.0, "ft", "reach of the visual-segment surface outside the runway edge at the threshold",
        "order-8260-52", "par 3.6", "published", "cancelled order",
    ),
    "visual_surface_splay_deg": (
        10.0, "deg", "splay of the visual-segment surface",
        "order-8260-52", "par 3.6", "published", "cancelled order",
    ),
}

# 14 CFR 91.175(h)(2): RVR ft, visibility SM.
RVR_ROWS = (
    (1600, 0.25, "published"), (2400, 0.5, "published, quoted"), (3200, 0.625, "published, quoted"),
    (4000, 0.75, "published, quoted"), (4500, 0.875, "published, quoted"), (5000, 1.0, "published, quoted"),
    (6000, 1.25, "published, quoted"),
)
for _rvr, _sm, _status in RVR_ROWS:
    FACTS[f"rvr_{_rvr}_ft_as_sm"] = (
        _sm, "SM", f"visibility for a runway visual range of {_rvr} ft",
        "cfr-14-91", "91.175(h)(2)", _status, "next higher row for a value between rows, AIM 5-4-20.a",
    )

# EASA: highest DH ft of the row, RVR m with full, intermediate, basic and no approach lights.
EASA_RVR_ROWS = (
    (210, 550, 750, 1000, 1200), (240, 550, 800, 1000, 1200), (250, 550, 800, 1000, 1300),
    (260, 600, 800, 1100, 1300), (280, 600, 900, 1100, 1300), (300, 650, 900, 1200, 1400),
    (320, 700, 1000, 1200, 1400), (340, 800, 1100, 1300, 1500), (360, 900, 1200, 1400, 1600),
    (380, 1000, 1300, 1500, 1700), (400, 1100, 1400, 1600, 1800),
)
LIGHT_CLASSES = ("full", "intermediate", "basic", "no")
for _dh, *_rvrs in EASA_RVR_ROWS:
    for _n, _class in enumerate(LIGHT_CLASSES):
        FACTS[f"easa_rvr_dh_{_dh}_ft_{_class}_lights_m"] = (
            float(_rvrs[_n]), "m",
            f"runway visual range, decision height up to {_dh} ft, {_class} approach lights",
            "ukcaa-air-ops", "AMC5 CAT.OP.MPA.110, Table 5; AMC2 NCO.OP.110, Table 2", "published", "EASA",
        )

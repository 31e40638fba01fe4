"""Facts: level of service, annunciation of modes, sources, and what is left after landing."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    # Level of service
    "level_announced": (
        "best supported", "", "level of service annunciated: what signal, receiver and procedure support",
        "aim-2026", "1-1-18.d.2", "published", "in the names of the lines of minima",
    ),
    "level_kept_until": (
        "next activation", "", "how long the annunciated level stays, and how long a lost one stays lost",
        "aim-2026", "1-1-18.d.2", "published", "",
    ),
    "level_fallback": (
        "none", "", "lower level that a receiver takes by itself once the approach is active",
        "aim-2026", "1-1-18.d.2 NOTE", "published",
        "as the FAA describes receivers; the flight manual says what a type does; if only vertical guidance is "
        "flagged, LNAV may be flown where the operating rules allow the change",
    ),
    "sbas_class_1_level": (
        "LNAV", "", "best level of service of an SBAS receiver of operational class 1",
        "rtca-do-229", "operational classes", "from memory", "",
    ),
    "sbas_class_2_level": (
        "LNAV/VNAV", "", "best level of service of an SBAS receiver of operational class 2",
        "rtca-do-229", "operational classes", "from memory", "",
    ),
    "sbas_class_3_level": (
        "LPV", "", "best level of service of an SBAS receiver of operational class 3",
        "rtca-do-229", "operational classes", "from memory", "",
    ),
    "sbas_class_4_level": (
        "LPV", "", "best level of service of an SBAS receiver of operational class 4",
        "rtca-do-229", "operational classes", "from memory", "gives final approach guidance only",
    ),
    # Annunciation
    "modes_shown": (
        "current and armed", "", "modes that must be indicated to the crew, with transitions and reversions",
        "cfr-14-25", "25.1329(i)", "published", "visible in all lighting",
    ),
    "selector_position_shows": (
        "nothing", "", "what the position of a selector counts for as an indication of the mode",
        "cfr-14-25", "25.1329(i)", "published", "",
    ),
    "armed_to_captured_shown_s": (
        10.0, "s", "example of how long attention is drawn to a mode that becomes captured",
        "ac-25-1329", "mode annunciation", "from memory", "armed and captured differ in place, color and type",
    ),
    # Sources
    "localizer_tuned_effect": (
        "inhibits GPS navigation", "", "what any tuned ILS frequency does in some installations",
        "aim-2023", "5-4-5.k.3 NOTE", "published",
        "an ILS is tuned only on the intermediate segment, with the FAF active; a VOR again for a GPS missed approach",
    ),
    "missed_sequenced_by": (
        "receiver", "", "what sequences past the missed approach point if the missed approach is an RNAV one",
        "aim-2026", "1-1-18.d.7", "published", "selected early, it is still flown to the missed approach point first",
    ),
    "missed_waits_for_distance": (
        "no", "", "whether a missed approach at the DA waits for the distance to reach zero",
        "aim-2026", "1-1-18.d.7", "published", "the distance counts to about the threshold",
    ),
    "sides_set": (
        "alike", "", "how source, course and minimum are set on the two sides",
        "trade", "", "common practice", "",
    ),
    # Interference in flight
    "interference_signs": (
        "a clock that changes, a wrong position, a large jump of the position, warnings of a position error, "
        "reports of other aircraft", "", "signs of jamming or spoofing",
        "aim-2024", "1-2-4.f.1", "published", "",
    ),
    "interference_before": (
        "weigh what is lost without GPS, see that the ground aids needed are in service, be ready for a conventional "
        "procedure", "", "what is done before flying where interference may be",
        "aim-2024", "1-2-4.f.2-4", "published", "",
    ),
    "interference_crosscheck": (
        "VOR and DME", "", "what a doubtful position is compared with",
        "aim-unstated", "1-2-4.d-e, older text", "published", "",
    ),
    "interference_on_approach": (
        "go on by sight, or fly the missed approach", "", "what is done on an approach whose guidance is in doubt",
        "aim-unstated", "1-2-4.d-e, older text", "published",
        "alternate instructions or vectors are asked for where the missed approach is based on GPS",
    ),
    "interference_reaches": (
        "ADS-B, terrain warnings, in some types references of flight control and stability", "",
        "what else lives on the GPS position",
        "aim-2023", "1-2-4.c", "published", "a false pull-up warning was seen",
    ),
    "sbas_proof_against_spoofing": (
        "none", "", "proof against spoofing in an SBAS signal: its messages on L1 are not authenticated",
        "trade", "", "from memory", "so a level annunciated does not show that the position is right",
    ),
    # After landing
    "selector_after_landing": (
        "off", "", "how the source selector is left after landing",
        "trade", "", "common practice", "",
    ),
    "interference_logged_in": (
        "maintenance record", "", "where jamming or spoofing is logged after landing, so that faults are cleared",
        "aim-2024", "1-2-4.g", "published", "and reported to the FAA's GPS anomaly reporting page",
    ),
    "interference_report_holds": (
        "time, place, altitude, aircraft, receiver, satellites, what was seen", "",
        "what a report of interference holds",
        "aim-2026", "1-1-13", "from memory", "",
    ),
    "interference_told_to": (
        "ATC", "", "who is told promptly of jamming or spoofing",
        "aim-2024", "1-2-4.f.5", "published", "not in a test area that a NOTAM names, unless help is needed",
    ),
}

"""What the cross-check cannot see: the fields of an approach file that no rule compares, and why.

POSSIBLE holds the fields of which a rule only asks whether the value is possible: within that, a slip goes unnoticed.
UNREAD holds those that no rule reads at all.  Every other field of the schema is compared with something; a test
changes each field of the schema in turn and sees what becomes of it, so that a new one cannot be forgotten here.
The page of limits prints both tables.
"""

CHART_ALONE = "printed on the chart only"
WORDS = "words or a name, without a second source"
RECORD_ALONE = "coded in the record only"
MARK = "a mark of the file, not a value of the approach"

# Whole tables about the file itself: who read what, and from which records it was made.
BOOKS = ("filled", "read_again", "records")
POSSIBLE = {
    "chart.vnav_lowest_c": CHART_ALONE,
    "chart.vnav_highest_c": CHART_ALONE,
    "chart.cold_temperature_airport_c": CHART_ALONE,
    "chart.minima.categories": CHART_ALONE,
    "chart.minima.visibility_sm": CHART_ALONE,
    "chart.minima.visibility_m": CHART_ALONE,
    "chart.minima.rvr_ft": CHART_ALONE,
    "chart.minima.rvr_m": CHART_ALONE,
    "chart.missed.climb_gradient_ft_per_nm": CHART_ALONE,
    "chart.lights.name": "against its length alone",
    "chart.lights.length_ft": "against what the name stands for",
    "chart.msa.centre": CHART_ALONE,
    "chart.msa.altitude_ft": CHART_ALONE,
    "chart.msa.radius_nm": CHART_ALONE,
}
UNREAD = {
    "identity.airport_name": WORDS,
    "identity.invented": MARK,
    "chart.notes": WORDS,
    "chart.fix.leg_computed": MARK,
    "chart.course_computed": MARK,
    "runway.source": WORDS,
    "database.leg.part": RECORD_ALONE,
    "database.leg.transition": RECORD_ALONE,
    "database.leg.sequence": RECORD_ALONE,
    "database.leg.terminator": RECORD_ALONE,
    "database.leg.role": RECORD_ALONE,
    "database.leg.fly_over": RECORD_ALONE,
    "database.leg.turn_prescribed": RECORD_ALONE,
    "database.leg.course_computed": MARK,
    "database.leg.distance_computed": MARK,
    "database.leg.time_min": RECORD_ALONE,
    "database.leg.highest_ft": RECORD_ALONE,
    "database.leg.glide_slope_altitude_ft": RECORD_ALONE,
    "database.leg.flight_levels": RECORD_ALONE,
    "database.leg.by_atc": RECORD_ALONE,
    "database.leg.transition_altitude_ft": RECORD_ALONE,
    "database.leg.speed_kt": RECORD_ALONE,
    "database.leg.speed_rule": RECORD_ALONE,
    "database.leg.rnp_nm": RECORD_ALONE,
    "database.leg.centre": RECORD_ALONE,
    "database.leg.inbound_course_deg": RECORD_ALONE,
    "database.leg.navaid": RECORD_ALONE,
    "database.leg.navaid_bearing_deg": RECORD_ALONE,
    "database.leg.navaid_distance_nm": RECORD_ALONE,
    "database.leg.safe_altitude_centre": RECORD_ALONE,
    "database.leg.safe_altitude_multiple": RECORD_ALONE,
    "database.leg.gnss": RECORD_ALONE,
    "database.leg.qualifiers": RECORD_ALONE,
}

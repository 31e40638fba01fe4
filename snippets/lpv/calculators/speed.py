"""Calculators for speed in wind: what is added to VREF, and a holding pattern."""

from lpv.core.errors import DomainError
from lpv.core.text import quantity
from lpv.core.units import degrees_180
from lpv.decide.additive import Rule, added_kt, asked_kt, half_the_gust, headwind_and_gust
from lpv.facts import value
from lpv.forms.fields import Choice, Course, Number
from lpv.forms.form import Calculator, NoAnswer, Output, Steps
from lpv.motion.holding import hold_in_wind, holding_bank_deg
from lpv.motion.kinematics import headwind_kt

OWN_RULE, NO_RULE = "own", "none"
WHOSE = {
    OWN_RULE: "your operator's, as entered below", "half-gust": "half of the gust; commonly taught, from memory",
    "headwind": "half of the headwind and the whole gust; commonly taught, from memory", NO_RULE: "nobody's",
}


def _rule(whose: str, headwind_share: float, gust_share: float, least_kt: float, most_kt: float) -> Rule:
    if whose == NO_RULE:
        raise NoAnswer("Choose a rule: this handbook has none of its own. The flight manual comes first.")
    if whose == OWN_RULE and least_kt > most_kt:
        raise NoAnswer("The least additive is more than the most.")
    if whose == OWN_RULE:
        return Rule(headwind_share, gust_share, least_kt, most_kt)
    return half_the_gust() if whose == "half-gust" else headwind_and_gust()


def _added(
    vref_kt: float, course_deg: float, wind_from_deg: float, wind_kt: float, gust_kt: float, additive: str,
    headwind_share: float, gust_share: float, least_added_kt: float, most_added_kt: float,
) -> "dict[str, float | str | tuple[float, str]]":
    rule = _rule(additive, headwind_share, gust_share, least_added_kt, most_added_kt)
    along_kt, over_kt = headwind_kt(course_deg, wind_from_deg, wind_kt), max(0.0, gust_kt - wind_kt)
    found_kt = added_kt(rule, along_kt, over_kt)
    words = ""
    if asked_kt(rule, along_kt, over_kt) > rule.most_kt:
        words = f"Cut to the most that the rule allows, {quantity(rule.most_kt, 'kt')}."
    no_gust = "Less than the wind: no gust." if 0.0 < gust_kt < wind_kt else ""
    return {"added_kt": (found_kt, words), "target_kt": vref_kt + found_kt, "headwind_kt": along_kt,
            "over_kt": (over_kt, no_gust), "whose": WHOSE[additive]}


def _hold(
    inbound_course_deg: float, true_airspeed_kt: float, wind_from_deg: float, wind_kt: float, inbound_s: float,
) -> "dict[str, float]":
    bank_deg = holding_bank_deg(true_airspeed_kt)
    try:
        hold = hold_in_wind(inbound_course_deg, true_airspeed_kt, wind_from_deg, wind_kt, bank_deg, inbound_s)
    except DomainError:
        raise NoAnswer("The wind is too strong for this hold: the outbound time is zero, or far too long.") from None
    return {
        "outbound_heading_deg": hold.outbound_heading_deg, "outbound_s": hold.outbound_s,
        "inbound_heading_deg": hold.inbound_heading_deg, "drift_in_deg": hold.drift_in_deg,
        "drift_out_deg": degrees_180(hold.drift_out_deg), "bank_deg": bank_deg, "circuit_s": hold.circuit_s,
    }


CALCULATORS = (
    Calculator(
        "added", "added to VREF", "How much does your rule add to VREF in this wind?", _added,
        inputs=(
            Number("vref_kt", "VREF", "kt", 60, 220, 1, 120, "aircraft.vref_kt"),
            Course("course_deg", "Course", 1, 90, "approach.course_deg"),
            Course("wind_from_deg", "Wind from, same reference (true or magnetic)", 10, 120),
            Number("wind_kt", "Steady wind", "kt", 0, 60, 1, 15),
            Number("gust_kt", "Gust, 0 for none", "kt", 0, 60, 1, 25),
            Choice("additive", "Whose rule", (
                (OWN_RULE, "operator's own, entered below"), ("half-gust", "taught: half of the gust"),
                ("headwind", "taught: half of the headwind, whole gust"), (NO_RULE, "none"),
            ), "half-gust", "aircraft.additive"),
            Number("headwind_share", "Own: part of the headwind", "", 0, 1, 0.05, 0, "aircraft.headwind_share"),
            Number("gust_share", "Own: part of the gust", "", 0, 1, 0.05, 0.5, "aircraft.gust_share"),
            Number("least_added_kt", "Own: least additive", "kt", 0, 30, 1, 0, "aircraft.least_added_kt"),
            Number("most_added_kt", "Own: most additive", "kt", 0, 30, 1, 10, "aircraft.most_added_kt"),
        ),
        outputs=(
            Output("added_kt", "Added to VREF", "kt", short="added"),
            Output("target_kt", "VREF with the additive", "kt", short="VREF with the additive"),
            Output("headwind_kt", "Steady wind along", "kt", sides=("headwind", "tailwind")),
            Output("over_kt", "Gust over the steady wind", "kt"),
            Output("whose", "Rule"),
        ),
        sentence="In a wind of {wind_kt} with gusts to {gust_kt}: {added_kt} more than VREF, {target_kt}.",
        facts=("additive_gust_share", "additive_headwind_share", "additive_most_kt"),
        table=Steps("gust_kt", ("added_kt", "target_kt"), 3, 3, step=5.0, header="Gust"),
        remarks="The flight manual comes before any rule taught. Nothing here is added for turbulence without a "
        "reported gust, for ice, or for a failure. What is added comes off before the threshold, or the landing grows "
        "longer.",
    ),
    Calculator(
        "hold", "hold in wind", "Which heading outbound, and for how long, in this wind?", _hold,
        inputs=(
            Course("inbound_course_deg", "Inbound course", 1, 90, "approach.course_deg"),
            Number("true_airspeed_kt", "True airspeed", "kt", 80, 300, 10, 200),
            Course("wind_from_deg", "Wind from, same reference (true or magnetic)", 10, 130),
            Number("wind_kt", "Wind speed", "kt", 0, 150, 5, 20),
            Number("inbound_s", "Time inbound", "s", 30, 240, 10, value("hold_inbound_s")),
        ),
        outputs=(
            Output("outbound_heading_deg", "Heading outbound", "course", short="heading"),
            Output("outbound_s", "Time outbound", "s", short="time"),
            Output("inbound_heading_deg", "Heading inbound", "course"),
            Output("drift_in_deg", "Correction inbound", "deg", sides=("right", "left")),
            Output("drift_out_deg", "Correction outbound", "deg", sides=("right", "left")),
            Output("bank_deg", "Bank in the turns", "deg"),
            Output("circuit_s", "One full hold", "s", 10),
        ),
        sentence="Inbound {inbound_course_deg}, wind from {wind_from_deg} at {wind_kt}: outbound "
        "{outbound_heading_deg} for {outbound_s}.",
        facts=("hold_turn_deg_per_s", "hold_bank_deg", "hold_inbound_s"),
        table=Steps("wind_kt", ("outbound_heading_deg", "outbound_s"), 2, 3, step=10.0, header="Wind"),
        remarks="Outbound counts from wings level to the beginning of the turn inbound; rolling is left out. An FMS "
        "that flies the hold plans it by itself.",
    ),
)

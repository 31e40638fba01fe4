"""Numbers of speed in wind: the time outbound in a hold, and what the operator's rule adds to VREF."""

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.core.text import course, quantity
from lpv.core.units import degrees_360
from lpv.decide.additive import added_kt
from lpv.drill.case import Pick
from lpv.drill.planted import needs
from lpv.drill.question import Question
from lpv.facts import value
from lpv.motion.holding import hold_in_wind, holding_bank_deg
from lpv.motion.kinematics import headwind_kt

HOLDING_KT = (180.0, 200.0, 220.0)
ALONG_DEG, ALONG_KT = (0.0, 180.0), (10.0, 15.0, 20.0)
WINDS_KT, OVER_KT, OFF_DEG = (8.0, 12.0, 20.0), (6.0, 10.0, 16.0, 24.0), (0.0, 30.0, 60.0)


def hold_outbound(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """The time outbound of a hold on the final course, with the wind along it."""
    speed_kt, wind_kt = pick.choose("airspeed", HOLDING_KT), pick.choose("wind", ALONG_KT)
    from_deg = degrees_360(approach.chart.course_deg + pick.choose("wind from", ALONG_DEG))
    inbound_s, near_s = value("hold_inbound_s"), value("drill_hold_s")
    try:
        hold = hold_in_wind(
            approach.chart.course_deg, speed_kt, from_deg, wind_kt, holding_bank_deg(speed_kt), inbound_s)
    except DomainError:
        needs(False, "the wind is too strong for that hold")
        raise
    return Question(
        f"A hold with the inbound course {course(approach.chart.course_deg)}, true airspeed "
        f"{quantity(speed_kt, 'kt')}, wind from {course(from_deg)} at {quantity(wind_kt, 'kt')}. "
        f"How many seconds outbound, from wings level to the turn, make {quantity(inbound_s, 's')} inbound?",
        "s", hold.outbound_s, near_s, near_s, "the next circuit corrects that much",
        "Ground speed inbound times the minute, and the drift of both turns, by the ground speed outbound.",
        "intercept/lateral.md#hold")


def added_to_vref(approach: Approach, flown: Aircraft, pick: Pick) -> Question:
    """What the operator's own rule adds in a wind on the final course; a type without a rule asks nothing."""
    rule = flown.operator.rule_of_additive()
    needs(rule is not None, "the operator has no rule of what is added to VREF")
    assert rule is not None
    wind_kt, over_kt = pick.choose("wind", WINDS_KT), pick.choose("gust", OVER_KT)
    from_deg = degrees_360(approach.chart.course_deg + pick.choose("wind from", OFF_DEG))
    along_kt, near_kt = headwind_kt(approach.chart.course_deg, from_deg, wind_kt), value("drill_added_kt")
    return Question(
        f"Course {course(approach.chart.course_deg)}, wind from {course(from_deg)} at {quantity(wind_kt, 'kt')}, gusts "
        f"to {quantity(wind_kt + over_kt, 'kt')}. What does your operator's rule add to VREF?",
        "kt", added_kt(rule, along_kt, over_kt), near_kt, near_kt, "a target is set to a knot",
        f"{quantity(100.0 * rule.headwind_share, '%')} of the headwind and {quantity(100.0 * rule.gust_share, '%')} of "
        f"the gust over the steady wind, {quantity(rule.least_kt, 'kt')} to {quantity(rule.most_kt, 'kt')}.",
        "final/gates.md#added")

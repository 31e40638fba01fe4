"""What is added to VREF for wind and gust: a rule is data, and it is somebody's.

A rule adds a part of the steady headwind and a part of the gust over the steady wind, at least and at most so much.
The operator's own stands in the aircraft file.  Two that are commonly taught are facts from memory.
"""

from lpv.core.errors import DomainError, in_range
from lpv.facts import value

STRONGEST_KT = 60.0


class Rule:
    """Parts of headwind and gust, 0 to 1; least and most added, 0 to 30 kt."""

    def __init__(self, headwind_share: float, gust_share: float, least_kt: float, most_kt: float) -> None:
        self.headwind_share = in_range("part of the headwind", headwind_share, 0.0, 1.0)
        self.gust_share = in_range("part of the gust", gust_share, 0.0, 1.0)
        self.most_kt = in_range("most that is added", most_kt, 0.0, 30.0, "kt")
        self.least_kt = in_range("least that is added", least_kt, 0.0, 30.0, "kt")
        if least_kt > most_kt:
            raise DomainError("least that is added: found more than the most; allowed: not more.")


def half_the_gust() -> Rule:
    """Half of the gust over the steady wind, taught for small and large alike.  From memory."""
    return Rule(0.0, value("additive_gust_share"), 0.0, value("additive_most_kt"))


def headwind_and_gust() -> Rule:
    """Half of the steady headwind and the whole gust over the steady wind, taught for jets.  From memory."""
    return Rule(value("additive_headwind_share"), 1.0, 0.0, value("additive_most_kt"))


def asked_kt(rule: Rule, headwind_kt: float, gust_over_steady_kt: float) -> float:
    """What the parts of a rule come to before its least and most.

    headwind_kt: of the steady wind, a tailwind counts as none, -60 to 60;  gust_over_steady_kt: 0 to 60
    DomainError outside
    """
    in_range("headwind", headwind_kt, -STRONGEST_KT, STRONGEST_KT, "kt")
    in_range("gust over the steady wind", gust_over_steady_kt, 0.0, STRONGEST_KT, "kt")
    return rule.headwind_share * max(0.0, headwind_kt) + rule.gust_share * gust_over_steady_kt


def added_kt(rule: Rule, headwind_kt: float, gust_over_steady_kt: float) -> float:
    """What is added to VREF, within the least and the most of the rule; domain as `asked_kt`."""
    return max(rule.least_kt, min(rule.most_kt, asked_kt(rule, headwind_kt, gust_over_steady_kt)))

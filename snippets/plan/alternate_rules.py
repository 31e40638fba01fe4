"""The sets of rules that an operator file can choose: what each asks, and which of it was read."""

from lpv.plan.rules import RULE_SETS, RuleSet
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

MINIMA = {
    "standard": "600-2 precision, 800-2 nonprecision, or those that its chart prints",
    "derived": "landing minima and an addition: the operator's own, or the usual one, from memory",
    "planning minima": "landing minima and an addition by type of approach, from memory",
    "not read": "not compared: no text was read",
}
NEEDED = {
    "14 CFR 91.169": "14 CFR 91.169", "14 CFR 135.223": "14 CFR 135.223, from memory",
    "CAT.OP.MPA.180": "CAT.OP.MPA.180(b), later 182; its visibility from memory",
    "not read": "not compared: no text was read",
}


def show() -> Shown:
    """One block a set."""
    return Shown(stacked([(f"<b>{rules.name}</b>", _pairs(rules)) for rules in RULE_SETS]))


def _pairs(rules: RuleSet) -> list[tuple[str, str]]:
    gnss = "one approach without GNSS at the destination or the alternate (AMC1 CAT.OP.MPA.182)"
    pairs = [
        ("charts of", rules.authority), ("an alternate is needed by", NEEDED[rules.destination]),
        ("weather at the alternate", MINIMA[rules.alternate]),
        ("LPV", "a written approval" if rules.written_lpv else "no written approval required"),
        ("beside LPV and LNAV", gnss if rules.way_without_gnss else ""), ("know", rules.remark),
    ]
    return [(label, escape(text)) for label, text in pairs if text]

"""What the approach guidance of a type does, as rules: a choice of words for each question.

The aircraft file holds one choice for every rule.  The browser's tools use the same list.
"""

from lpv.core.errors import DomainError, shown

# What a type may do, as it stands in the aircraft file: rule -> (what it says, choices, the usual one first).
# The last choices of some rules are faults of design: the exploration shows them and the file is refused.
RULES = {
    "selector": ("one source selector for both sides, or one per side", ("shared", "per side")),
    "selector_after_landing": ("the source selector after landing", ("stays", "off")),
    "selector_after_go_around": ("the source selector after a go-around", ("stays", "off")),
    "selector_after_power": ("the source selector after power is removed", ("off", "stays")),
    "selector_off_shows": (
        "what a side with its selector off and a localizer tuned shows",
        ("the tuned localizer", "FMS lateral navigation"),
    ),
    "localizer_with_selector_on": (
        "what a tuned localizer does while the selector is on",
        ("no effect", "takes over its side", "inhibits SBAS on both sides"),
    ),
    "approach_after_landing": ("the loaded approach after landing", ("cleared", "kept")),
    "tuning_after_power": ("the tuned frequencies after power is removed", ("kept", "cleared")),
    "arming": ("when the approach can be armed", ("with an approach source", "at any time in flight")),
    "arming_inside_pfaf": ("whether the approach can be armed inside the PFAF", ("allowed", "refused")),
    "vertical_arms": ("when vertical guidance arms", ("with lateral", "once lateral is captured")),
    "vertical_capture": ("when vertical guidance may be captured", ("after lateral", "on its own")),
    "vertical_first": ("whether the flight manual allows vertical before lateral", ("not allowed", "allowed")),
    "path_from_above": ("what armed vertical guidance does when the path is met from above",
                        ("captures", "stays armed")),
    "when_source_lost": ("what an armed or captured mode becomes when its source goes",
                         ("lost", "inactive", "unchanged")),
    "recapture": ("how lost guidance comes back when there is a source again", ("after re-arming", "by itself")),
    "level_after_loss": (
        "the level of service after a loss, with the approach still active",
        ("stays lost", "returns with the signal", "falls back to LNAV"),
    ),
    "go_around": ("when a go-around can be selected", ("at any time in flight", "only with guidance captured")),
    "best_level": ("the best level of service that the equipment is approved for", ("LPV", "LNAV/VNAV", "LNAV")),
    "baro_vnav": ("vertical guidance from the altimeter, for LNAV/VNAV", ("not approved", "approved")),
}
ANNOUNCED = ("source", "level", "armed", "captured", "lost")


class Rules:
    """One type's behaviour: an attribute for each of RULES, and `announced`, a tuple out of ANNOUNCED."""

    selector: str
    selector_after_landing: str
    selector_after_go_around: str
    selector_after_power: str
    selector_off_shows: str
    localizer_with_selector_on: str
    approach_after_landing: str
    tuning_after_power: str
    arming: str
    arming_inside_pfaf: str
    vertical_arms: str
    vertical_capture: str
    vertical_first: str
    path_from_above: str
    when_source_lost: str
    recapture: str
    level_after_loss: str
    go_around: str
    best_level: str
    baro_vnav: str
    announced: "tuple[str, ...]"

    def __init__(self, **chosen: "str | tuple[str, ...]") -> None:
        """All of RULES and `announced` must be given; DomainError for what is missing, unknown or not a choice."""
        for key in chosen:
            if key not in RULES and key != "announced":
                raise DomainError(f"rules: found {shown(key)}; allowed: {', '.join(RULES)}, announced.")
        for key, (_, choices) in RULES.items():
            if chosen.get(key) not in choices:
                raise DomainError(f"rule {key}: found {shown(chosen.get(key))}; allowed: {', '.join(choices)}.")
            setattr(self, key, chosen[key])
        words = tuple(chosen.get("announced", ()))
        for word in words:
            if word not in ANNOUNCED:
                raise DomainError(f"announced: found {shown(word)}; allowed: {', '.join(ANNOUNCED)}.")
        self.announced = words

    def chosen(self) -> "dict[str, str | tuple[str, ...]]":
        """Rule -> what was chosen, with `announced`; `Rules(**rules.chosen())` is the same again."""
        found = {key: getattr(self, key) for key in RULES}
        found["announced"] = self.announced
        return found


def usual_rules(**other: "str | tuple[str, ...]") -> Rules:
    """The first choice of every rule, everything announced, except what is given; DomainError as `Rules`."""
    chosen: dict[str, str | tuple[str, ...]] = {key: choices[0] for key, (_, choices) in RULES.items()}
    chosen["announced"] = ANNOUNCED
    chosen.update(other)
    return Rules(**chosen)

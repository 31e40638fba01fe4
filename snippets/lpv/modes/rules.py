"""What the approach guidance of a type does, as rules: choices of words, and a list of guidance sources.

The aircraft file holds one choice for every row of RULES, some words for every row of LISTS, and the sources.
What each word means stands in `lpv.modes.meanings`; the browser's tools use this list alone.
"""

from lpv.core.errors import DomainError, shown

SBAS, ILS, FMS = "SBAS", "ILS", "FMS lateral navigation"
SOURCES = (SBAS, ILS, FMS)
NOT_WITH_SBAS, BY_HAND = "not while SBAS is selected", "by hand alone"
LEVELS = ("LPV", "LNAV/VNAV", "LNAV", "none")  # of service, best first; also what the signal supports

# Rule -> (the question it answers, the choices, the usual one first).  Choices that break a regulation are among
# them, so that a file can state them: `lpv.modes.properties` then refuses it and says why.
RULES = {
    "source_control": ("who can select the source", ("shared", "per side", "none")),
    "approach_after_landing": ("the loaded approach after landing", ("cleared", "kept")),
    "approach_after_power": ("the loaded approach after power-down", ("cleared", "kept")),
    "tuning_after_power": ("the tuned frequencies after power-down", ("kept", "cleared")),
    "arming_too_early": ("arming outside the arming distance", ("refused", "waits")),
    "captures_from": ("from which lateral mode the course is captured", ("any mode", "FMS lateral only", "basic only")),
    "vertical_arms": ("when the glidepath arms", ("with lateral", "once lateral is captured", "by its own control")),
    "vertical_capture": ("when the glidepath may be captured", ("after lateral", "on its own")),
    "path_from_above": ("an armed glidepath met from above", ("captures", "stays armed")),
    "fms_lateral": (
        "an FMS lateral mode that can fly before the final course", ("with any source", "with FMS selected", "none")),
    "when_lateral_lost": (
        "what becomes of the course when its source is lost", ("lost", "basic mode", "armed", "unchanged")),
    "when_vertical_lost": (
        "what becomes of the glidepath when its source is lost", ("lost", "basic mode", "armed", "unchanged")),
    "recapture": ("how lost guidance comes back once there is a source again", ("after re-arming", "by itself")),
    "autopilot_after_loss": ("the autopilot when captured guidance is lost", ("stays engaged", "disconnects")),
    "autopilot_at_level_change": (
        "the autopilot when the level of service changes on a captured course", ("stays engaged", "disconnects")),
    "autopilot_at_go_around": ("the autopilot when a go-around is selected", ("stays engaged", "disconnects")),
    "localizer_tuning": ("when a localizer can be tuned", ("at any time", NOT_WITH_SBAS)),
    "level_falls_outside": (
        "the level of service when the signal falls, before the FAF",
        ("stays, flagged", "falls to the level supported", "falls to LNAV")),
    "level_falls_inside": (
        "the level of service when the signal falls, inside the FAF",
        ("stays, flagged", "falls to the level supported", "falls to LNAV")),
    "level_returns_outside": (
        "the level of service when the signal returns, before the FAF",
        ("with the next activation", "with the signal")),
    "level_returns_inside": (
        "the level of service when the signal returns, inside the FAF",
        ("with the next activation", "with the signal")),
    "go_around": ("when a go-around can be selected", (
        "at any time in flight", "only with guidance captured", BY_HAND)),
    "go_around_roll": ("the lateral mode of a go-around", ("FMS lateral", "heading held", "wings level")),
    "go_around_pitch": ("the vertical mode of a go-around", ("fixed pitch", "speed", "climb to the altitude set")),
    "best_level": ("the best level of service that the equipment is approved for", LEVELS[:3]),
    "baro_vnav": ("vertical guidance from the altimeter, for LNAV/VNAV", ("not approved", "approved")),
}
# The rules on which the selected source depends, as they go to the phone.
SENT = ("source_control", "approach_after_landing", "approach_after_power", "tuning_after_power", "localizer_tuning",
        "sources")
FOR_SELECTION = SENT[:-1]
# List -> (the question it answers, the words allowed).
LISTS = {
    "armed_by": ("what arms the approach", ("its control", "activating the approach", "the FMS lateral mode",
                                            "coming within the arming distance")),
    "arming_needs": ("what arming needs, all of it", (
        "a guiding source", "an active approach", "a level of service", "before the PFAF", "the arming distance",
        "the FMS lateral mode")),
    "announced": ("what is annunciated to the crew", (
        "source", "level", "basic mode", "armed", "captured", "lost", "go-around", "autopilot off")),
}
ANNOUNCED = LISTS["announced"][1]
# Condition -> (what it is about, of which source or side, whether it must hold).
_POSITIVE = (
    ("SBAS approach loaded", "loaded", SBAS), ("SBAS approach active", "active", SBAS),
    ("ILS approach loaded", "loaded", ILS), ("ILS approach active", "active", ILS),
    ("localizer tuned on this side", "tuned", "this side"), ("localizer tuned on either side", "tuned", "either side"),
    ("SBAS selected", "selected", SBAS), ("ILS selected", "selected", ILS), ("level of service", "level", ""),
)
_CONDITIONS = {words: (what, name, True) for words, what, name in _POSITIVE}
_CONDITIONS.update({"no " + words: (what, name, False) for words, what, name in _POSITIVE})
_CONDITIONS.update({"in flight": ("flight", "", True), "on the ground": ("flight", "", False)})
CONDITIONS = tuple([row[0] for row in _POSITIVE] + ["no " + row[0] for row in _POSITIVE]
                   + ["in flight", "on the ground"])
CONTROL, TAKEN_AWAY, CAPTURED, ARMING = (
    "its control", "another taken away", "its course captured", "arming the approach")
SELECTED_BY = (
    CONTROL, TAKEN_AWAY, "loading its approach", "activating its approach", ARMING, CAPTURED,
    "coming within the arming distance", "passing the PFAF", "tuning a localizer on this side",
    "tuning a localizer on either side",
)
REMOVED_BY = (
    CONTROL, "loading another approach", "tuning a localizer on this side", "tuning a localizer on either side",
    "untuning the localizer", "no longer offered", "its guidance lost", "go-around", "landing", "removal of power",
)
FOR_FMS = (CONTROL, TAKEN_AWAY)  # what can select FMS lateral navigation


class Source:
    """One guidance source of a type.

    name:         out of SOURCES
    offered:      what must hold for it to be selected, out of CONDITIONS; () always
    guides_while: what must hold besides for it to guide, out of CONDITIONS
    selected_by, removed_by: what selects it and what takes it away, out of SELECTED_BY and REMOVED_BY
    offered_if, guides_if: the first two as (what, of what, whether it must hold), for `lpv.modes.state`
    """

    def __init__(
        self, name: str, offered: "tuple[str, ...]" = (), guides_while: "tuple[str, ...]" = (),
        selected_by: "tuple[str, ...]" = (), removed_by: "tuple[str, ...]" = (),
    ) -> None:
        for what, words, allowed in (
            ("name", (name,), SOURCES), ("offered", offered, CONDITIONS), ("guides_while", guides_while, CONDITIONS),
            ("selected_by", selected_by, SELECTED_BY), ("removed_by", removed_by, REMOVED_BY),
        ):
            for word in words:
                if word not in allowed:
                    raise DomainError(f"source {what}: found {shown(word)}; allowed: {', '.join(allowed)}.")
        self.name = name
        self.offered = tuple(offered)
        self.guides_while = tuple(guides_while)
        self.selected_by = tuple(selected_by)
        self.removed_by = tuple(removed_by)
        self.offered_if = tuple([_CONDITIONS[word] for word in offered])
        self.guides_if = tuple([_CONDITIONS[word] for word in guides_while])

    def key(self) -> "tuple[object, ...]":
        """The fields as one tuple; `Source(*source.key())` is the same again."""
        return (self.name, self.offered, self.guides_while, self.selected_by, self.removed_by)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Source) and self.key() == other.key()

    def __hash__(self) -> int:
        return hash(self.key())


class Rules:
    """One type's behaviour: an attribute for each of RULES and LISTS, and `sources` in order of precedence."""

    source_control: str
    approach_after_landing: str
    approach_after_power: str
    tuning_after_power: str
    arming_too_early: str
    captures_from: str
    vertical_arms: str
    vertical_capture: str
    path_from_above: str
    fms_lateral: str
    when_lateral_lost: str
    when_vertical_lost: str
    recapture: str
    autopilot_after_loss: str
    autopilot_at_level_change: str
    autopilot_at_go_around: str
    localizer_tuning: str
    level_falls_outside: str
    level_falls_inside: str
    level_returns_outside: str
    level_returns_inside: str
    go_around: str
    go_around_roll: str
    go_around_pitch: str
    best_level: str
    baro_vnav: str
    armed_by: "tuple[str, ...]"
    arming_needs: "tuple[str, ...]"
    announced: "tuple[str, ...]"
    sources: "tuple[Source, ...]"

    def __init__(self, **chosen: "str | tuple[str, ...] | tuple[Source, ...]") -> None:
        """Everything must be given; DomainError for what is missing, unknown or not a choice."""
        for key in chosen:
            if key not in RULES and key not in LISTS and key != "sources":
                known = ", ".join(list(RULES) + list(LISTS))
                raise DomainError(f"rules: found {shown(key)}; allowed: {known}, sources.")
        for key, (_, choices) in RULES.items():
            if chosen.get(key) not in choices:
                raise DomainError(f"rule {key}: found {shown(chosen.get(key))}; allowed: {', '.join(choices)}.")
            setattr(self, key, chosen[key])
        for key, (_, allowed) in LISTS.items():
            setattr(self, key, _words(key, chosen.get(key), allowed))
        self.sources = _sources(chosen.get("sources"))

    def chosen(self) -> "dict[str, str | tuple[str, ...] | tuple[Source, ...]]":
        """Rule -> what was chosen; `Rules(**rules.chosen())` is the same again."""
        return {key: getattr(self, key) for key in list(RULES) + list(LISTS) + ["sources"]}

    def source(self, name: str) -> "Source | None":
        """The source of this name, None if the type has none."""
        for row in self.sources:
            if row.name == name:
                return row
        return None


def _words(key: str, entry: object, allowed: "tuple[str, ...]") -> "tuple[str, ...]":
    if not isinstance(entry, (tuple, list)):
        raise DomainError(f"{key}: found {shown(entry)}; allowed: a list of {', '.join(allowed)}.")
    for word in entry:
        if word not in allowed:
            raise DomainError(f"{key}: found {shown(word)}; allowed: {', '.join(allowed)}.")
    return tuple(entry)


def _sources(entry: object) -> "tuple[Source, ...]":
    rows = tuple(entry) if isinstance(entry, (tuple, list)) else ()
    last = [row for row in rows if TAKEN_AWAY in row.selected_by and not row.offered]
    if not last:
        raise DomainError(
            f"sources: found {len(rows)}; allowed: at least one that is always offered and selected by "
            f"{shown(TAKEN_AWAY)}."
        )
    return rows


def sources_text(sources: "tuple[Source, ...]") -> str:
    """The sources as one line of numbers, for the browser's tools; `sources_of` reads it.

    Each source is its place in SOURCES and four lists of places in the words allowed there: "0;;3;0;0 9".
    """
    return ",".join([
        ";".join([" ".join([str(allowed.index(word)) for word in words]) for words, allowed in (
            ((source.name,), SOURCES), (source.offered, CONDITIONS), (source.guides_while, CONDITIONS),
            (source.selected_by, SELECTED_BY), (source.removed_by, REMOVED_BY))])
        for source in sources
    ])


def sources_of(text: str) -> "tuple[Source, ...]":
    """The sources of a line that `sources_text` wrote; DomainError if it is none."""
    rows = []
    for row in text.split(","):
        parts = row.split(";")
        if len(parts) != 5 or [word for part in parts for word in part.split() if not word.isdigit()]:
            raise DomainError(f"sources: found {shown(row)}; allowed: five lists of numbers.")
        lists = (SOURCES, CONDITIONS, CONDITIONS, SELECTED_BY, REMOVED_BY)
        words = [
            tuple([_at(allowed, int(number)) for number in parts[place].split()])
            for place, allowed in enumerate(lists)
        ]
        rows.append(Source(words[0][0] if words[0] else "", *words[1:]))
    return tuple(rows)


def selection_fields(rules: Rules) -> "dict[str, str]":
    """The rules on which the selected source depends, as plain texts; `selection_rules` reads them."""
    fields: dict[str, str] = {key: getattr(rules, key) for key in FOR_SELECTION}
    fields["sources"] = sources_text(rules.sources)
    return fields


def selection_rules(entry: object) -> Rules:
    """Rules that select sources as those of `selection_fields` do, otherwise the usual ones; Rules as they are.

    found: anything with the fields as attributes; DomainError for one that is no such thing
    """
    if isinstance(entry, Rules):
        return entry
    texts: dict[str, str] = {key: getattr(entry, key) for key in SENT}
    sources = sources_of(texts.pop("sources"))
    return usual_rules(sources=sources, **texts)


def _at(allowed: "tuple[str, ...]", place: int) -> str:
    if place >= len(allowed):
        raise DomainError(f"sources: found number {place}; allowed: below {len(allowed)}.")
    return allowed[place]


# One control that asks for SBAS; without it a tuned localizer shows, else the FMS.
USUAL_SOURCES = (
    Source(SBAS, (), (), (CONTROL,), (CONTROL, "removal of power")),
    Source(ILS, ("localizer tuned on this side", "no SBAS selected"), (),
           (TAKEN_AWAY, "tuning a localizer on this side"), ("no longer offered",)),
    Source(FMS, (), (), (TAKEN_AWAY,), ()),
)


def usual_rules(**other: "str | tuple[str, ...] | tuple[Source, ...]") -> Rules:
    """The first choice of every rule, everything announced, except what is given; DomainError as `Rules`."""
    chosen: dict[str, str | tuple[str, ...] | tuple[Source, ...]] = {
        key: choices[0] for key, (_, choices) in RULES.items()}
    chosen["armed_by"] = LISTS["armed_by"][1][:1]
    chosen["arming_needs"] = LISTS["arming_needs"][1][:1]
    chosen["announced"] = ANNOUNCED
    chosen["sources"] = USUAL_SOURCES
    chosen.update(other)
    return Rules(**chosen)

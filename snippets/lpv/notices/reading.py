"""What a notice says, whatever airport it meets: its subjects, what is said of each, and what was not understood.

The text is cut into sentences of subjects ("LPV", "WAAS", "RWY 09") and what is said of them ("NA", "MAY NOT BE AVBL").
What is said belongs to the subjects before it, or to those after it where it stands first.  A word that the reader
does not know can only add doubt, never take any away.
"""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from lpv.notices import kinds, words
from lpv.notices.kinds import STATES, Kind, State, worst_state
from lpv.notices.notam import Notam, read_notam, same_place

NAMED_LINES = (kinds.MAY_NOT_BE, kinds.LINE_NOT_AVAILABLE, kinds.MINIMA_CHANGED, kinds.LIMITED)
SBAS_SATELLITES = range(120, 159)
SATELLITE = frozenset(words.SATELLITE_LINES)
SBAS = frozenset(words.SBAS_LINES)
STRAIGHT_IN = SATELLITE - {"circling"}
EVERY_LINE = frozenset(words.ALL_LINES)


@dataclass(frozen=True)
class Effect:
    """What a notice does to some lines.

    state:        "noted" (know it), "changed" (the chart's figures no longer hold), "doubted" or "gone"
    whole:        whether it is about a whole procedure, whatever its lines
    system:       whether it is about a system or an airport rather than about one procedure or runway
    categories:   approach categories that it is limited to, "" for all
    without_sbas: whether it counts only for a receiver without SBAS, or where SBAS is missing too
    altitude_ft:  the new minimum that it gives, None if it gives none
    """

    state: State
    lines: frozenset[str]
    kind: Kind
    system: bool = False
    whole: bool = False
    categories: str = ""
    without_sbas: bool = False
    altitude_ft: float | None = None


@dataclass(frozen=True)
class Procedure:
    """A procedure that a notice or a chart names: the lines it can have, the letter in its title, its runway."""

    lines: frozenset[str]
    letter: str
    runway: str


@dataclass(frozen=True)
class Notice:
    """A notice that was read.

    kind:       what it mostly is
    effects:    what it does, as far as it was understood
    relevant:   whether it names GPS, SBAS or an approach
    unread:     words that the reader does not know
    understood: whether every subject in it got a meaning
    procedures: the procedures that it names, every_procedure whether it speaks of all of them
    """

    notam: Notam
    kind: Kind
    effects: tuple[Effect, ...] = ()
    relevant: bool = True
    unread: tuple[str, ...] = ()
    understood: bool = True
    procedures: tuple[Procedure, ...] = ()
    runways: tuple[str, ...] = ()
    every_procedure: bool = False

    @property
    def text(self) -> str:
        """The notice on one line, in capitals."""
        return self.notam.text

    def unknown_words(self, known: Collection[str] = ()) -> tuple[str, ...]:
        """The words that are not read, without location identifiers that the reader is told of."""
        return tuple(word for word in self.unread if word not in known)

    def in_doubt(self, known: Collection[str] = ()) -> bool:
        """Whether it names GPS, SBAS or an approach and was not understood to its end."""
        return self.relevant and (not self.understood or bool(self.unknown_words(known)) or not self.effects)

    @property
    def minima(self) -> tuple[str, ...]:
        """The lines of minima that it affects by name, without those it affects through a system."""
        named = {line for effect in self.effects for line in effect.lines if effect.kind in NAMED_LINES}
        short = {line.split(" by ")[0] for line in named}
        return tuple(line for line in ("LPV", "LP", "LNAV/VNAV", "LNAV", "circling") if line in short)

    @property
    def radius_nm(self) -> float | None:
        """The largest radius that it names."""
        return max((ring.radius_nm for ring in self.notam.area.rings), default=None)


def read_notice(text: str) -> Notice:
    """What a notice says, whatever airport it meets; DomainError for more than 5000 characters."""
    notam = read_notam(text)
    body = _with_subject(notam)
    scan = _Scan(body)
    effects, understood = _effects(scan)
    procedures, runways = _procedures(body)
    known = tuple(
        _of_procedures(effect, procedures) for effect in effects if effect.state != "unaffected"
        if _of_procedures(effect, procedures).lines
    )
    relevant = bool(words.SUSPECT.search(scan.about_approach))
    unread = tuple(dict.fromkeys(word for word in scan.unread if not _known_place(word, notam)))
    return Notice(
        notam, _kind(notam, known, relevant), known, relevant, unread, understood and not notam.takes_back, procedures,
        runways, bool(EVERY_PROCEDURE.search(body)),
    )


def _of_procedures(effect: Effect, procedures: tuple[Procedure, ...]) -> Effect:
    """An effect on a whole procedure, on the lines of the procedures that are named."""
    if not effect.whole or not procedures:
        return effect
    lines = frozenset(line for procedure in procedures for line in procedure.lines)
    return replace(effect, lines=lines, kind=effect.kind if lines & SATELLITE else kinds.GROUND_AID_OUT)


def _kind(notam: Notam, effects: tuple[Effect, ...], relevant: bool) -> Kind:
    """What the notice mostly is: the kind of its gravest effect."""
    if notam.takes_back:
        return kinds.TAKES_BACK
    if effects:
        return max(effects, key=lambda effect: STATES.index(effect.state)).kind
    return kinds.NOT_KNOWN if relevant else kinds.OTHER_SUBJECT


def kind_name(text: str) -> str:
    """The name of the kind of a notice."""
    return read_notice(text).kind.name


def _known_place(word: str, notam: Notam) -> bool:
    return any(same_place(place, word) for place in notam.places)


def _with_subject(notam: Notam) -> str:
    """The body; where it names no system, the one that its head names is put before it."""
    about = {"GA": "GNSS", "GW": "GNSS", "PI": "IAP", "IC": "ILS"}.get(notam.q_code[:2], notam.system)
    named = words.SUSPECT.search(notam.body)
    return f"{about} {notam.body}" if about and not named else notam.body


EVERY_PROCEDURE = re.compile(r"\bALL\s+(?:\w+\s+|\(\w+\)\s+){0,3}(?:PROCEDURES|PROCS|APPROACHES|APCHS|IAPS)\b")
TITLE = re.compile(
    r"(?<![A-Z])(?P<name>RNAV ?\((?:GPS|GNSS|RNP)\)|RNAV|RNP ?\(?AR\)?|RNP|GPS|GNSS|GLS|ILS|LOC(?:ALIZER)?|LDA|VOR"
    r"|NDB|TACAN)"
    r"(?:[ /-](?:OR|AND|APCH|APPROACH|LOC|DME|TACAN|\(AR\)|(?P<letter>[A-Z](?![A-Z]))))*[ ,]*" + words.RUNWAY.pattern
)


def _procedures(body: str) -> tuple[tuple[Procedure, ...], tuple[str, ...]]:
    """The procedures named with their runways, and all runways named."""
    procedures = []
    for title in TITLE.finditer(body):
        lines = _lines_of_title(title["name"])
        procedures += [Procedure(lines, title["letter"] or "", runway) for runway in _runways(title["numbers"])]
    every = [runway for match in words.RUNWAY.finditer(body) for runway in _runways(match["numbers"])]
    return tuple(procedures), tuple(dict.fromkeys(every))


def _lines_of_title(name: str) -> frozenset[str]:
    """The lines of minima that a procedure can have by the first words of its title; none for RNP AR."""
    ground = {"ILS": ("ILS", "LOC"), "LOC": ("LOC",), "LDA": ("LOC",), "VOR": ("VOR",), "TACAN": ("VOR",),
              "NDB": ("NDB",), "GLS": ("GLS",)}
    if name[:3] in ("RNA", "RNP", "GPS", "GNS"):
        return frozenset() if "AR" in name or "(RNP)" in name else SATELLITE
    return frozenset(next(lines for start, lines in ground.items() if name.startswith(start)))


def _runways(numbers: str) -> list[str]:
    return [number.zfill(3 if number[-1].isalpha() else 2) for number in re.findall(r"\d{1,2}[LCR]?", numbers)]


def procedure_of(title: str, runway: str) -> Procedure:
    """The procedure of a chart, from its title and runway."""
    named, _ = _procedures(title.upper())
    return named[0] if named else Procedure(SATELLITE, "", runway)


class _Scan:
    """A body cut into sentences of tagged words, with what is not known."""

    def __init__(self, body: str) -> None:
        self.sentences: list[list[tuple[str, str, str]]] = [[]]
        self.unread: list[str] = []
        self.about_approach = ""
        forgiven = [match.span() for pattern in FORGIVEN for match in pattern.finditer(body)]
        at = 0
        while at < len(body):
            tag, detail, end = _token(body, at)
            if tag == "stop":
                self.sentences.append([])
            elif tag == "unread":
                if not any(start <= at < stop for start, stop in forgiven):
                    self.unread.append(body[at:end])
                    self.sentences[-1].append((tag, "", body[at:end]))
            elif tag:
                self.sentences[-1].append((tag, detail, body[at:end]))
            self.about_approach += " " if tag in ("lights", "other") else body[at:end]
            at = end


FORGIVEN = (
    # The name of the airport between IAP and the title.
    re.compile(r"\bIAP\b.*?(?=\b(?:RNAV|RNP|GPS|GNSS|ILS|LOC|LDA|VOR|NDB|GLS|TACAN)\b)"),
    # The name of an exercise.
    re.compile(r"\([A-Z0-9 -]+ GPS \d\d-\d+\)"),
    # The reason.
    re.compile(r"\bDUE TO\b.*?(?=[.;]\s|[.;]$|$)"),
)
EDGE = r"(?![A-Z0-9])"
TOKENS = (
    [("runway", "", words.RUNWAY), ("condition", "changed", re.compile(f"(?:{words.FIGURE}){EDGE}"))]
    + [("", "", re.compile(f"{words.BY_AN_AID}{EDGE}")), ("for", "", re.compile(f"FOR{EDGE}"))]
    + [(tag, detail, re.compile(f"(?:{pattern}){EDGE}")) for tag, detail, pattern in words.SUBJECTS]
    + [("use", "", re.compile(f"(?:{words.NEXT_IS_FINE}){EDGE}"))]
    + [("condition", state, re.compile(f"(?:{pattern}){EDGE}")) for state, pattern in words.CONDITIONS]
    + [("if", "", re.compile(f"(?:{words.QUALIFIERS}){EDGE}")), ("category", "", words.CATEGORIES)]
)
STOP = re.compile(r"\.+(?=\s|$)|;")
WORD = re.compile(r"[^\W_]+(?:'[A-Z]+)?")


def _token(body: str, at: int) -> tuple[str, str, int]:
    """The tag of what begins here, its detail, and where it ends; "" for what says nothing."""
    if stop := STOP.match(body, at):
        return "stop", "", stop.end()
    if at and body[at - 1].isalnum():
        return "", "", at + 1
    for tag, detail, pattern in TOKENS:
        if match := pattern.match(body, at):
            return tag, detail, match.end()
    if word := WORD.match(body, at):
        text = word[0]
        silent = len(text) == 1 or any(c.isdigit() for c in text) or text in words.SILENT
        return "" if silent else "unread", "", word.end()
    return "", "", at + 1


class _Group:
    """Subjects named together, and what is said of them: (state, text)."""

    def __init__(self) -> None:
        self.subjects: list[tuple[str, str, str]] = []
        self.states: list[tuple[State, str]] = []
        self.categories: list[str] = []
        self.allowed = False

    def details(self, tag: str) -> list[str]:
        """The details of all subjects of a tag."""
        return [detail for kind, detail, _ in self.subjects if kind == tag]

    def has(self, *tags: str) -> bool:
        """Whether any subject has one of these tags."""
        return any(kind in tags for kind, _, _ in self.subjects)

    def only(self, tag: str) -> bool:
        """Whether all subjects have this tag."""
        return all(kind == tag for kind, _, _ in self.subjects)

    def says(self, *texts: str) -> bool:
        """Whether one of these words is said."""
        return any(text in texts for _, text in self.states)

    @property
    def significant(self) -> bool:
        """Whether it names something that a condition is expected for."""
        return self.has("line", "system", "straight-in", "satellite", "lights", "ground", "vdp", "airport")


SUBJECT_TAGS = {tag for tag, _, _ in words.SUBJECTS} | {"runway"}


def _effects(scan: _Scan) -> tuple[list[Effect], bool]:
    """Everything that the sentences do, and whether each subject named got a meaning."""
    effects: list[Effect] = []
    understood, context = True, _Group()
    for sentence in scan.sentences:
        qualified = any(tag == "if" for tag, _, _ in sentence)
        leading, groups = _groups(sentence)
        before = leading
        for group in groups:
            if not group.subjects:
                group.subjects = context.subjects
            if not group.states and group.significant:
                group.states = before
            if group.subjects and (group.states or group.has("altimeter")):
                effects += _effects_of(group, qualified)
                before = group.states
            elif group.states or group.significant:
                understood = False
            if group.significant or group.has("title", "procedure"):
                context = group
    return effects, understood


def _groups(sentence: list[tuple[str, str, str]]) -> tuple[list[tuple[State, str]], list[_Group]]:
    """What is said before any subject is named, and the groups of a sentence.

    A group ends with what is said of it: "LPV AND LNAV/VNAV NA, LNAV MDA 600" has two.  What is allowed after "use"
    is a group without anything against it, unless something is said of it too.  What follows "for" belongs to the
    group before it: "EGNOS NOT AVBL FOR LPV".
    """
    leading: list[tuple[State, str]] = []
    groups, group = [], _Group()
    limited = False
    for tag, detail, text in sentence:
        limited = tag == "for" or (limited and tag in SUBJECT_TAGS)
        if tag == "use" or (tag in SUBJECT_TAGS and group.states and not limited and not group.only("minimum")):
            groups.append(group)
            group = _Group()
            group.allowed = tag == "use"
        if tag in SUBJECT_TAGS:
            group.subjects.append((tag, detail, text))
        elif tag == "condition" and (group.subjects or any(other.subjects for other in groups)):
            group.states.append((_as_state(detail), text))
        elif tag == "condition":
            leading.append((_as_state(detail), text))
        elif tag == "category":
            group.categories.append(text)
    groups.append(group)
    for other in groups:
        if other.allowed and other.subjects and not other.states:
            other.states = [("unaffected", "USE")]
    if leading and not any(other.subjects for other in groups):
        group.states = leading
    return leading, [other for other in groups if other.subjects or other.states]


def _as_state(detail: str) -> State:
    return next(state for state in STATES if state == detail)


def _effects_of(group: _Group, qualified: bool) -> Iterator[Effect]:
    """What a group of subjects with its conditions does."""
    state, systems = _state(group, qualified), group.details("system")
    lines = _lines(group)
    if group.has("satellite"):
        yield _satellite(group, state)
    elif "RAIM" in systems:
        weak = _at_most_doubted(state)
        yield Effect(weak, frozenset(words.WITHOUT_SBAS), kinds.RAIM_NOT_AVAILABLE, system=True, without_sbas=True)
    elif lines:
        yield from _on_lines(group, state, lines, "SBAS" in systems)
    elif "GPS" in systems:
        kind = kinds.GPS_NOT_AVAILABLE if state == "gone" else kinds.INTERFERENCE
        yield Effect(state, SATELLITE | {"GLS"}, kind, system=True)
    elif "SBAS" in systems:
        yield Effect(state, SBAS, kinds.NOT_AVAILABLE if state == "gone" else kinds.MAY_NOT_BE, system=True)
    else:
        yield from _beside_lines(group, state)


def _beside_lines(group: _Group, state: State) -> Iterator[Effect]:
    """What a group does that names no line and no satellite system."""
    if group.has("vdp"):
        yield Effect("noted", frozenset({"LNAV", "LP"}), kinds.VDP_OUT)
    elif group.has("altimeter"):
        yield Effect("changed", SATELLITE, kinds.ALTIMETER)
    elif group.has("lights"):
        yield from _on_lights(group, state)
    elif group.has("airport"):
        yield Effect(state, EVERY_LINE, kinds.AIRPORT_CLOSED, system=True)
    elif group.has("ground"):
        lines = {"GBAS": "GLS"}
        yield Effect(state, frozenset(lines.get(aid, aid) for aid in group.details("ground")), kinds.GROUND_AID_OUT)
    elif group.has("part"):
        yield Effect(_at_most_doubted(state), SATELLITE, kinds.LIMITED, whole=True)
    elif group.has("title", "procedure", "minimum"):
        if "satellite" in group.details("title") or not group.has("title"):
            kind = _of_state(state, kinds.PROCEDURE_NOT_AVAILABLE)
            yield Effect(state, SATELLITE, kind, whole=True, categories=_categories(group))
    elif group.has("runway"):
        yield from _on_runway(group, state)


def _on_runway(group: _Group, state: State) -> Iterator[Effect]:
    """A runway closed or moved; where something else is named with it, it may be that which is closed."""
    if group.has("other"):
        if group.says("CLSD", "CLOSED"):
            yield Effect(_at_most_doubted(state), EVERY_LINE, kinds.RUNWAY_CLOSED)
    elif state == "changed":
        yield Effect(state, STRAIGHT_IN, kinds.RUNWAY_CHANGED)
    else:
        yield Effect(state, EVERY_LINE, kinds.RUNWAY_CLOSED)


def _lines(group: _Group) -> frozenset[str]:
    """The lines that a group names.  SBAS named beside them leaves the barometric path alone."""
    named, by_sbas = group.details("line"), "SBAS" in group.details("system")
    lines = {line for detail in named for line in words.LINES[detail]}
    if by_sbas and "baro-VNAV" not in named:
        lines.discard("LNAV/VNAV by altimeter")
    if by_sbas and "GLS" in group.details("ground"):
        lines.add("LPV")  # "GLS" stood for LPV on older charts
    return frozenset(lines) | (STRAIGHT_IN if group.has("straight-in") else frozenset())


def _state(group: _Group, qualified: bool) -> State:
    """The gravest of what is said; a condition that depends on something else is a doubt, whichever way it goes."""
    state = worst_state(state for state, _ in group.states)
    return "doubted" if qualified and state in ("gone", "unaffected") else state


def _at_most_doubted(state: State) -> State:
    return "doubted" if state == "gone" else state


def _of_state(state: State, gone: Kind) -> Kind:
    return {"gone": gone, "changed": kinds.MINIMA_CHANGED}.get(state, kinds.LIMITED)


def _categories(group: _Group) -> str:
    """The categories that a group is limited to; "" where more is said than what they could be the limit of."""
    return _letters(group.categories) if len(group.states) == 1 else ""


def _letters(categories: list[str]) -> str:
    letters = re.sub("CAT(?:EGORY|EGORIES|S)?", "", " ".join(categories))
    span = re.search(r"([A-E])\s?(?:-|TO|THRU|THROUGH)\s?([A-E])", letters)
    if span:
        return "".join(letter for letter in "ABCDE" if span[1] <= letter <= span[2])
    return "".join(sorted(set(re.findall(r"(?<![A-Z])[A-E](?![A-Z])", letters))))


def _on_lines(group: _Group, state: State, lines: frozenset[str], by_sbas: bool) -> Iterator[Effect]:
    """What is said of lines; without LNAV, circling is in doubt (AIM 5-4-20.f.5)."""
    kind = kinds.MAY_NOT_BE if state == "doubted" and by_sbas else _of_state(state, kinds.LINE_NOT_AVAILABLE)
    categories = _categories(group)
    yield Effect(state, lines, kind, categories=categories, altitude_ft=_altitude_ft(group))
    if "LNAV" in lines and state in ("gone", "doubted") and "circling" not in lines:
        yield Effect("doubted", frozenset({"circling"}), kind, categories=categories)


def _altitude_ft(group: _Group) -> float | None:
    """The new minimum, where one line and one altitude are named."""
    altitudes = [match[1] for _, text in group.states if (match := re.match(r"(?:DA|MDA|OCA)\D*(\d+)", text))]
    return float(altitudes[0]) if len(altitudes) == 1 and len(group.details("line")) == 1 else None


def _satellite(group: _Group, state: State) -> Effect:
    texts = [text for kind, _, text in group.subjects if kind == "satellite"]
    if any(int(number) in SBAS_SATELLITES for text in texts for number in re.findall(r"\d{1,3}", text)):
        return Effect(_at_most_doubted(state), SBAS, kinds.SBAS_SATELLITE_OUT, system=True)
    return Effect("unaffected" if state == "unaffected" else "noted", SATELLITE, kinds.SATELLITE_OUT, system=True)


def _on_lights(group: _Group, state: State) -> Iterator[Effect]:
    if state == "unaffected":
        return
    parts = set(group.details("lights"))
    if "runway" in parts:
        yield Effect("doubted", EVERY_LINE, kinds.LIGHTS_OUT)
    elif parts & {"approach", "center"}:
        yield Effect("changed", STRAIGHT_IN, kinds.LIGHTS_OUT)
    else:
        yield Effect("noted", SATELLITE, kinds.SLOPE_LIGHTS_OUT)

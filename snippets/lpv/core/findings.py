"""What a check found: chart, database and computation side by side, and how grave the difference is."""

GRAVITIES = ("stop", "resolve", "note", "ok")

MEANING = {
    "stop": "do not fly this guidance until the difference is settled",
    "resolve": "find the reason before the approach is flown",
    "note": "no error: know it and brief it",
    "ok": "checked, and the sources agree",
}


class Finding:
    """One thing that was checked.

    key:      permanent short name of the kind of finding ("remainder", "course"); pages link to it
    grave:    "stop", "resolve", "note" or "ok" (MEANING says what each asks for)
    what:     what was compared, in a few words
    chart:    what the chart prints, "" if it prints nothing about it
    database: what the database holds, "" likewise
    computed: what was computed from them, "" likewise
    why:      why it matters
    action:   what to do now, "" if nothing
    about:    the one fix or line of minima that it is about, "" if the approach as a whole
    """

    def __init__(
        self,
        key: str,
        grave: str,
        what: str,
        chart: str = "",
        database: str = "",
        computed: str = "",
        why: str = "",
        action: str = "",
        about: str = "",
    ) -> None:
        if grave not in GRAVITIES:
            raise ValueError(f"{grave} is not one of {', '.join(GRAVITIES)}")
        self.key = key
        self.grave = grave
        self.what = what
        self.chart = chart
        self.database = database
        self.computed = computed
        self.why = why
        self.action = action
        self.about = about

    def name(self) -> str:
        """The key, with the fix or line that it is about: "fix-altitude SANDY"."""
        return self.key + (" " + self.about if self.about else "")

    def __repr__(self) -> str:
        return f"Finding({self.grave}: {self.name()})"


def gravest(findings: "list[Finding]") -> str:
    """The gravest grade among the findings; "ok" if there are none."""
    graves = [finding.grave for finding in findings]
    for grave in GRAVITIES:
        if grave in graves:
            return grave
    return "ok"


def by_gravity(findings: "list[Finding]") -> "list[Finding]":
    """The findings, stop first and ok last; the order within one grade stays."""
    return [finding for grave in GRAVITIES for finding in findings if finding.grave == grave]


def counts(findings: "list[Finding]") -> "dict[str, int]":
    """How many findings there are of each grade, all four grades in order of gravity."""
    return {grave: len([f for f in findings if f.grave == grave]) for grave in GRAVITIES}


WORDS = {"stop": "stop", "resolve": "to resolve", "note": "note"}


def counted(number: int, word: str) -> str:
    """A number and its word: 1 note, 2 notes, 2 to resolve."""
    return f"{number} {word}" + ("s" if number != 1 and not word.startswith("to ") else "")


def verdict(findings: "list[Finding]") -> str:
    """One sentence: what the list asks for."""
    count = counts(findings)
    parts = [counted(count[grave], WORDS[grave]) for grave in GRAVITIES[:3] if count[grave]]
    if count["stop"]:
        lead = "Do not fly it"
    elif count["resolve"]:
        lead = "Settle first"
    else:
        lead = "Nothing stops it"
    return f"{lead}: {', '.join(parts) or 'no difference'}; {counted(count['ok'], 'check')} agree."

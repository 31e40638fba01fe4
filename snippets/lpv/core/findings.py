"""Findings: what was compared, what each source says, and how serious the difference is.

Every finding has one of five grades.  "ok" is only ever the result of a comparison with both sides present; what could
not be compared is a finding of its own, made with `not_compared`, that names one of REASONS.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Literal

    Grade = Literal["stop", "resolve", "note", "ok", "not compared"]
    Reason = Literal[
        "missing in the chart part", "missing in the database part", "no rule", "not read", "not stated"
    ]

GRADES: "tuple[Grade, ...]" = ("stop", "resolve", "note", "ok", "not compared")
# Most serious first: what was not compared may hide anything, so it ranks above what is known to be no error.
SEVERITY: "tuple[Grade, ...]" = ("stop", "resolve", "not compared", "note", "ok")

MEANING: "dict[Grade, str]" = {
    "stop": "do not fly this guidance until the difference is settled",
    "resolve": "find the reason before the approach is flown",
    "note": "no error: know it and brief it",
    "ok": "compared, and the sources agree",
    "not compared": "nothing is known about it: compare it yourself",
}

REASONS: "tuple[Reason, ...]" = (
    "missing in the chart part", "missing in the database part", "no rule", "not read", "not stated",
)
REASON_MEANING: "dict[Reason, str]" = {
    "missing in the chart part": "the chart part of the file has no value for it",
    "missing in the database part": "the database part of the file has no value for it",
    "no rule": "the check has no rule for it",
    "not read": "its text is kept, but it was not understood",
    "not stated": "nobody has stated what it has to be compared with",
}

# What a verdict begins with, by the most serious grade among its findings.
LEADS: "dict[Grade, str]" = {
    "stop": "Do not fly it",
    "resolve": "Settle first",
    "not compared": "Not everything was compared",
    "note": "Nothing stops it",
    "ok": "Nothing stops it",
}


# The fields of a finding, in the order in which a page is told of them.
FINDING_FIELDS = ("key", "grade", "what", "about", "chart", "database", "computed", "why", "action", "reason")


class Finding:
    """One thing that was checked, or that could not be.

    key:      permanent short name of the kind of finding ("remainder", "course"); pages link to it
    grade:    one of GRADES (MEANING says what each asks for)
    what:     what was compared, in a few words
    chart:    what the chart prints, "" if it prints nothing about it
    database: what the database holds, "" likewise
    computed: what was computed from them, "" likewise
    why:      why it matters
    action:   what to do now, "" if nothing
    about:    the fix or line of minima that it concerns, "" for the approach as a whole
    reason:   why it was not compared, one of REASONS; "" for every other grade
    """

    def __init__(
        self,
        key: str,
        grade: "Grade",
        what: str,
        chart: str = "",
        database: str = "",
        computed: str = "",
        why: str = "",
        action: str = "",
        about: str = "",
        reason: "Reason | Literal['']" = "",
    ) -> None:
        if grade not in GRADES:
            raise ValueError(f"{grade} is not one of {', '.join(GRADES)}")
        if reason not in (REASONS if grade == "not compared" else ("",)):
            raise ValueError(f"{key}: reason {reason!r} with grade {grade}; only not compared has one of {REASONS}")
        self.key = key
        self.grade = grade
        self.what = what
        self.chart = chart
        self.database = database
        self.computed = computed
        self.why = why
        self.action = action
        self.about = about
        self.reason = reason

    def name(self) -> str:
        """The key, with the fix or line that it concerns: "fix-altitude SANDY"."""
        return self.key + (" " + self.about if self.about else "")

    def __repr__(self) -> str:
        return f"Finding({self.grade}: {self.name()})"


def not_compared(
    key: str, what: str, reason: "Reason", chart: str = "", database: str = "", computed: str = "", why: str = "",
    action: str = "Compare it yourself.", about: str = "",
) -> Finding:
    """A Finding for what could not be compared; `why` defaults to the reason in words.

    Raises ValueError for a reason that is not in REASONS.
    """
    words = REASON_MEANING.get(reason, "")
    why = why or words[:1].upper() + words[1:] + "."
    return Finding(key, "not compared", what, chart, database, computed, why, action, about, reason)


def worst_grade(grades: "list[Grade]") -> "Grade":
    """The most serious of several grades; "not compared" for none at all."""
    for grade in SEVERITY:
        if grade in grades:
            return grade
    return "not compared"


def worst(findings: "Sequence[Finding]") -> "Grade":
    """The most serious grade among the findings; "not compared" if there are none."""
    return worst_grade([finding.grade for finding in findings])


def by_severity(findings: "Sequence[Finding]") -> "list[Finding]":
    """The findings, stop first and ok last; the order within a grade stays."""
    return [finding for grade in SEVERITY for finding in findings if finding.grade == grade]


def counts(findings: "Sequence[Finding]") -> "dict[Grade, int]":
    """How many findings there are of each grade, all five of them."""
    return {grade: len([f for f in findings if f.grade == grade]) for grade in GRADES}


def tally(findings: "Sequence[Finding]") -> str:
    """All five counts in one line: "0 stop, 1 resolve, 2 note, 40 ok, 3 not compared"."""
    count_of = counts(findings)
    return ", ".join([f"{count_of[grade]} {grade}" for grade in GRADES])


def uncompared(findings: "Sequence[Finding]") -> "list[str]":
    """What was not compared and why, one text each: "altitude at the fix SANDY (missing in the database part)"."""
    return [
        f.what + (" " + f.about if f.about else "") + f" ({f.reason})" for f in findings if f.grade == "not compared"
    ]


def verdict(findings: "Sequence[Finding]", leads: "dict[Grade, str]" = LEADS) -> str:
    """One sentence: what the findings ask for, and all five counts.

    leads: what the sentence begins with, by the most serious grade
    """
    return f"{leads[worst(findings)]}: {tally(findings)}."

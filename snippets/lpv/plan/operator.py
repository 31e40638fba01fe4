"""Operator files: whose rules, which approvals, own figures.  `docs/plan/operators/<name>.toml`; a flight names one.

    [operator]
    name = "Example charter"
    rules = "FAA part 135"      # one of lpv.plan.rules.NAMES
    lpv = "approved"            # left out where no approval in writing is asked, or nobody has looked

    [alternate_minimums]        # left out: the usual additions, from memory
    one_ft = 400                # added to the landing minimum of one usable approach
    one_sm = 1
    two_ft = 200                # with ground aids to two different runways
    two_sm = 0.5
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

from dataclasses import dataclass
from pathlib import Path

from lpv.aircraft.schema import APPROVED
from lpv.files import named_file, schema
from lpv.plan import rules


@dataclass(frozen=True, kw_only=True)
class Who:
    """Who operates, and by which rules."""

    name: str = schema.text("name of the operator")
    rules: str = schema.choice("the rules that its flights are planned by", rules.NAMES)
    lpv: str | None = schema.choice("the operator's approval in writing for LPV", APPROVED, required=False)
    invented: bool = schema.flag("whether the operator is made up")


@dataclass(frozen=True, kw_only=True)
class AlternateMinimums:
    """What the operations specifications add to landing minima for an alternate."""

    one_ft: float = schema.number("added to the height of one usable approach", "ft", 0, 2000)
    one_sm: float = schema.number("added to its visibility", "SM", 0, 10)
    two_ft: float = schema.number("added to the higher height of two approaches to different runways", "ft", 0, 2000)
    two_sm: float = schema.number("added to the higher visibility of the two", "SM", 0, 10)


@dataclass(frozen=True, kw_only=True)
class OperatorFile:
    """One operator.  slug is the file's name."""

    operator: Who = schema.table(Who, "who operates, and by which rules")
    alternate_minimums: AlternateMinimums | None = schema.table(
        AlternateMinimums, "additions of the operations specifications", required=False)
    slug: str = ""

    @property
    def rule_set(self) -> rules.RuleSet:
        """The rules as data."""
        return rules.rule_set(self.operator.rules)

    @property
    def additions(self) -> rules.Additions:
        """What is added to landing minima for an alternate: its own figures, or remembered ones."""
        minimums = self.alternate_minimums
        if minimums is None:
            return rules.remembered_additions()
        return rules.Additions(minimums.one_ft, minimums.one_sm, minimums.two_ft, minimums.two_sm, own=True)


def read(path: Path | str) -> OperatorFile:
    """The operator in a file; DataError with every fault found in it."""
    return named_file.read(Path(path), OperatorFile)


def read_text(text: str, name: str = "text") -> OperatorFile:
    """The operator in the text of a file; DataError with every fault."""
    return named_file.read_text(text, name, OperatorFile)

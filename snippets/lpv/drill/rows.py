"""The list of drills, docs/practice/drills.toml: what a row may say (`lpv.drill.drills` has an example)."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, ClassVar

from lpv.approach.schema import FaultRow
from lpv.decide.lines import LEVELS
from lpv.drill import database_mistakes as drill_data
from lpv.drill import minimum_mistakes as drill_minimum
from lpv.drill import numbers, sequence
from lpv.drill import side_mistakes as drill_sides
from lpv.files import named_file, schema

MISTAKES = drill_sides.MISTAKES | drill_minimum.MISTAKES | drill_data.MISTAKES
DIFFICULTIES = ("plain", "subtle", "mixed")


class Numbered:
    """What is known by its permanent number."""

    number: int

    @property
    def name(self) -> str:
        """The drill's permanent id: drill-07."""
        return f"drill-{self.number:02d}"


@dataclass(frozen=True, kw_only=True)
class Row(Numbered):
    """One drill of the list."""

    RENAMED: ClassVar[dict[str, str]] = {"grade": "difficulty"}
    number: int = schema.whole("permanent number of the drill", "", 1, 999)
    difficulty: str = schema.choice("level of difficulty", DIFFICULTIES)
    approach: str = schema.text("name of the approach file, without its ending", pattern=named_file.SLUG,
                                example="zzak-rnav-09")
    aircraft: str = schema.text("name of the aircraft file, without its ending", pattern=named_file.SLUG,
                                example="light-jet")
    other: str | None = schema.text(
        "name of another approach of the airport, to be mixed up with", pattern=named_file.SLUG, example="zzak-rnav-16",
        required=False)
    mistakes: tuple[str, ...] = schema.texts("kinds of mistakes planted", most=2)
    seed: int | None = schema.whole("seed of what is picked; the number if not given", "", 0, 10**9, required=False)
    temperature_c: float | None = schema.number("temperature reported", "deg C", -50, 60, required=False)
    level: str | None = schema.choice("level of service annunciated", LEVELS[:4], required=False)

    def faults(self) -> Iterator[FaultRow]:
        """The mistakes are known, and as many and as subtle as the difficulty says."""
        for key in self.mistakes:
            if key not in MISTAKES:
                yield "mistakes", key, ", ".join(MISTAKES), "Correct its name."
                return
        if self.difficulty == "mixed":
            if len(self.mistakes) not in (0, 2):
                yield "mistakes", f"{len(self.mistakes)} of them", "two or none", "Correct the list or the difficulty."
        elif [MISTAKES[key].subtle for key in self.mistakes] != [self.difficulty == "subtle"]:
            allowed = [key for key, mistake in MISTAKES.items() if mistake.subtle == (self.difficulty == "subtle")]
            yield "mistakes", ", ".join(self.mistakes) or "none", f"one of {', '.join(allowed)}", "Correct it."


def _own_name(what: str, example: str) -> Any:
    return schema.text(
        f"name of the {what} file, without its ending; any that the kind makes sense for if not given",
        pattern=named_file.SLUG, example=example, required=False)


@dataclass(frozen=True, kw_only=True)
class NumberRow(Numbered):
    """One numbers drill of the list."""

    number: int = schema.whole("permanent number of the drill", "", 1, 999)
    kind: str = schema.choice("kind of number", tuple(numbers.KINDS))
    approach: str | None = _own_name("approach", "zzak-rnav-09")
    aircraft: str | None = _own_name("aircraft", "light-jet")
    seed: int | None = schema.whole("seed of what is picked; the number if not given", "", 0, 10**9, required=False)


@dataclass(frozen=True, kw_only=True)
class SequenceRow(Numbered):
    """One sequence of the list."""

    number: int = schema.whole("permanent number of the drill", "", 1, 999)
    kind: str = schema.choice("kind of sequence", tuple(sequence.KINDS))
    approach: str | None = _own_name("approach", "zzak-rnav-09")
    aircraft: str | None = _own_name("aircraft", "light-jet")
    seed: int | None = schema.whole("seed of what is picked; the number if not given", "", 0, 10**9, required=False)


@dataclass(frozen=True, kw_only=True)
class Listed:
    """The list of drills."""

    # What a schema for editors can say of several keys together; `faults` decides.
    SCHEMA_ALSO: ClassVar[tuple[dict[str, Any], ...]] = (
        {"anyOf": [{"required": [kind]} for kind in ("drill", "number", "sequence")]},)

    drills: tuple[Row, ...] = schema.tables(
        Row, "find-the-error drills", least=0, most=400, unique="number", key="drill")
    numbers: tuple[NumberRow, ...] = schema.tables(
        NumberRow, "numbers drills", least=0, most=400, unique="number", key="number")
    sequences: tuple[SequenceRow, ...] = schema.tables(
        SequenceRow, "sequences", least=0, most=200, unique="number", key="sequence")

    def faults(self) -> Iterator[FaultRow]:
        """A number is given once in the whole file, and there is a drill at all."""
        used = [row.number for rows in (self.drills, self.numbers, self.sequences) for row in rows]
        for number in sorted({number for number in used if used.count(number) > 1}):
            yield "number", f"{number} a second time", "each number once in the file", "Take the next free one."
        if not used:
            yield "", "no drill", "at least one [[drill]], [[number]] or [[sequence]]", "Add one."

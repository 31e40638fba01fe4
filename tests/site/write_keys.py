"""Writes snippets/lpv/facts/__init__.pyi: the keys of all facts as types, so that a wrong key fails the type check.

    python tests/site/write_keys.py

The facts run on the phone, which knows no `typing`; so the types stand in a file of their own, beside them.
"""

from pathlib import Path

from lpv.facts import FACTS, SUBJECTS

STUB = Path(__file__).resolve().parents[2] / "snippets" / "lpv" / "facts" / "__init__.pyi"
HEAD = '''"""The types of the registry of facts.  Made by tests/site/write_keys.py; run it after adding a fact."""

from typing import Literal

Row = tuple[float | str, str, str, str, str, str, str]
STATUSES: tuple[str, ...]
IN_TABLES: tuple[str, ...]

class Fact:
    key: str
    ours: Fact | None
    value: float | str
    unit: str
    what: str
    source: str
    place: str
    status: str
    remark: str
    def __init__(self, key: str, row: Row, ours: Fact | None = None) -> None: ...

SUBJECTS: dict[str, dict[str, Row]]
FACTS: dict[str, Fact]

def override(rows: dict[str, Row]) -> None: ...
def fact(key: str) -> Fact: ...
def remembered(*keys: str) -> str: ...
def value(key: NumberKey) -> float: ...
def value_of(key: str) -> float: ...
'''


def stub() -> str:
    """The whole file."""
    numbers = [key for rows in SUBJECTS.values() for key in rows if not isinstance(FACTS[key].value, str)]
    words = [key for rows in SUBJECTS.values() for key in rows if isinstance(FACTS[key].value, str)]
    return f"{HEAD}\nNumberKey = {literal(numbers)}\nWordKey = {literal(words)}\nFactKey = NumberKey | WordKey\n"


def literal(keys: list[str]) -> str:
    return "Literal[\n" + "".join(f'    "{key}",\n' for key in sorted(keys)) + "]"


if __name__ == "__main__":
    STUB.write_text(stub(), "utf-8")

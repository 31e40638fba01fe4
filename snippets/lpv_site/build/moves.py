"""The lists of moves and of withdrawals, on which `lpv_site.build.moved` and `lpv_site.build.withdrawn` act:
docs/moved.toml, and one of its kind in a department's folder.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import datetime
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from lpv.approach.schema import FaultRow
from lpv.core.errors import DataError, Fault
from lpv.files import schema
from lpv.files import toml_reader as tomlfile

FILE = "moved.toml"
OWN_FILE = f"department/{FILE}"  # a department's own list below docs/ of the build
PAGE = "[a-z0-9/-]+\\.md"
ADDRESS = f"{PAGE}(#[a-z0-9-]+)?"


@dataclass(frozen=True, kw_only=True)
class Move:
    """One page or heading: the address it had below docs/, and the one it has since."""

    came_from: str = schema.text("old address", pattern=ADDRESS, example="verify/old.md#one", key="from", longest=120)
    to: str = schema.text("new address", pattern=ADDRESS, example="final/other.md#one", longest=120)


@dataclass(frozen=True, kw_only=True)
class Withdrawal:
    """One page that was taken back: copies of it on devices say so, from the next time they have a network."""

    page: str = schema.text("address of the page", pattern=PAGE, example="approaches/zzxx-27.md", longest=120)
    on: datetime.date = schema.day("the day it was withdrawn")
    why: str | None = schema.text("why, and what to use now", longest=300, required=False)


@dataclass(frozen=True, kw_only=True)
class Moves:
    """The list of moves, and that of withdrawals."""

    moves: tuple[Move, ...] = schema.tables(Move, "moves", most=2000, unique="came_from", key="moved")
    withdrawn: tuple[Withdrawal, ...] = schema.tables(Withdrawal, "withdrawals", most=2000, unique="page")

    def faults(self) -> Iterator[FaultRow]:
        """No move may end where it began."""
        table = {move.came_from: move.to for move in self.moves}
        for number, move in enumerate(self.moves, 1):
            if followed(table, move.to) is None:
                yield (f"moved[{number}].to", f"{move.to}, which leads back", "a way that ends", "Correct the list.")


def moves(docs: Path) -> dict[str, str]:
    """Old address -> the next one, as listed, a department's own last; DataError with every fault of a list."""
    return {move.came_from: move.to for move_list in lists(docs) for move in move_list.moves}


def lists(docs: Path) -> list[Moves]:
    """Our list, and a department's own; DataError with every fault of the first that has some."""
    return [tomlfile.read_file(docs / name, Moves) for name in (FILE, OWN_FILE) if (docs / name).is_file()]


def file_faults(path: Path) -> list[Fault]:
    """Every fault of a list by itself; none where there is no list."""
    try:
        if path.is_file():
            tomlfile.read_file(path, Moves)
    except DataError as error:
        return error.faults
    return []


def followed(table: dict[str, str], address: str) -> str | None:
    """Where an address leads in the end; None if nowhere."""
    visited: set[str] = set()
    while address not in visited:
        visited.add(address)
        page, _, part = address.partition("#")
        if address in table:
            address = table[address]
        elif page in table:
            address = table[page] if "#" in table[page] or not part else f"{table[page]}#{part}"
        else:
            return address
    return None

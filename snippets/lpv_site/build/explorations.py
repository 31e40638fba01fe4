"""What each type of aircraft can get into, explored once: for all processes of a build, and for the next build."""

from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import Any

from lpv.aircraft import record
from lpv.core.errors import DataError
from lpv.modes import exploration
from lpv.modes.exploration import Chosen, Exploration, Explorer
from lpv_site.build import reach, store

SOURCE = frozenset([exploration.__name__])


def kept(chosen: Chosen, explore: Explorer) -> Exploration:
    """What these rules lead to, or what they led to when the same was explored last."""
    key = store.key_of(reach.version(SOURCE), "exploration", repr([(rule, _plain(words)) for rule, words in chosen]))
    return exploration.from_fields(store.kept(key, partial(_fields, chosen, explore)))


def _plain(words: Any) -> Any:
    return words if isinstance(words, str) else [word if isinstance(word, str) else word.key() for word in words]


def _fields(chosen: Chosen, explore: Explorer) -> dict[str, Any]:
    return exploration.to_fields(explore(chosen))


def read(path: Path) -> tuple[dict[str, Any], bytes]:
    """Explore the type of an aircraft file, whose faults are found elsewhere; an entry of the store that says so."""
    with suppress(DataError):
        record.read(path)
    return {}, b""


exploration.keep_with(kept)

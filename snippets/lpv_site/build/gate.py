"""What an edition has that somebody should know of before it is published, and what keeps it back.

Counted from the lines of its approaches; a department says in `refuse` of department.toml what it does not publish
with.  The demo by itself is refused nothing.
"""

from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from lpv.core import airac
from lpv.core.errors import DomainError
from lpv.core.text import listed
from lpv_site.briefing.briefing import IndexEntry
from lpv_site.department.department import FILE, GATE, department

# Kind -> what it says of an approach.
WORDS = {
    "stop": "with a stop: the guidance must not be flown",
    "duplicate": "with the channel of another, or the path identifier of another at the same airport",
    "unresolved": "with a difference to resolve",
    "to be filled": "with something to be filled from the chart",
    "not verified": "not verified by a second person",
    "not compared": "with something that was not compared",
    "expired": "out of date today",
    "not yet in force": "not yet in force today",
}
MAX_NAMED = 5
Entries = Mapping[str, IndexEntry]


@dataclass(frozen=True)
class Gate:
    """What was found in an edition.

    count: how many approaches it has;  by_kind: kind -> slugs;  refused: the kinds among them that keep it back
    """

    count: int
    by_kind: dict[str, list[str]]
    refused: tuple[str, ...]

    def lines(self) -> Iterator[str]:
        """The summary that ends a build."""
        yield f"{self.count} approach{'' if self.count == 1 else 'es'}:"
        for kind, slugs in self.by_kind.items():
            named = ", ".join(slugs[:MAX_NAMED])
            more = f" and {len(slugs) - MAX_NAMED} more" if len(slugs) > MAX_NAMED else ""
            yield f"  {len(slugs):5} {WORDS[kind]}" + (f": {named}{more}" if slugs else "")
        if self.refused:
            yield f"Kept back, not published: {FILE} refuses {listed(list(self.refused))}."


def gate(entries: Entries, demo: Collection[str], today: int) -> Gate:
    """What an edition has; today: day number (see `lpv.core.airac`).

    demo: slugs of approaches that belong to no set of the department's
    """
    own = {slug: entry for slug, entry in sorted(entries.items()) if slug not in demo}
    twice = _duplicates(own)
    of_each = {slug: kinds(entry, today) | ({"duplicate"} if slug in twice else set()) for slug, entry in own.items()}
    by_kind = {kind: [slug for slug, kinds_there in of_each.items() if kind in kinds_there] for kind in WORDS}
    owner = department()
    refuse = owner.refuse if owner else ()
    return Gate(len(own), by_kind, tuple(kind for kind in WORDS if kind in refuse and by_kind[kind]))


def kinds(entry: IndexEntry, today: int) -> set[str]:
    """What is to be known of one approach."""
    counted = {"stop": entry.stops, "unresolved": entry.unresolved, "not compared": entry.not_compared,
               "to be filled": entry.to_be_filled, "not verified": entry.unverified}
    return {kind for kind, count in counted.items() if count} | _held(entry.cycle, today)


def _held(cycle: str, today: int) -> set[str]:
    try:
        dates = airac.cycle(cycle)
    except DomainError:
        return {"expired"}
    return {"expired"} if today >= dates.expiry else {"not yet in force"} if today < dates.effective else set()


def _duplicates(entries: Entries) -> set[str]:
    """Slugs of approaches that share what only one may have."""
    holders: dict[object, list[str]] = defaultdict(list)
    for slug, entry in entries.items():
        holders[entry.channel].append(slug)
        holders[entry.airport, entry.path_id].append(slug)
    return {slug for slugs in holders.values() if len(slugs) > 1 for slug in slugs}


assert set(WORDS) == set(GATE)

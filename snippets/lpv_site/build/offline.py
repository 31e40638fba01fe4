"""What the built site needs to work without network: lists of files with hashes, the worker, the manifest.

`write` runs when the site is finished: a file that changes afterwards no longer agrees with its hash.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from lpv_site.build import edition as editions
from lpv_site.build.digests import Digest, digest, digests
from lpv_site.build.withdrawn import LIST as WITHDRAWN
from lpv_site.figures import icons
from lpv_site.text import short

WORKER = Path(__file__).with_name("worker.js")
PAGE = "reference/offline/"
BRIEFINGS = "approaches/"
MANIFEST = "manifest.webmanifest"
# The start page, the page about offline copies, what search reads, where short addresses lead and what was withdrawn;
# with the files that the start page names.
ALWAYS = {"", PAGE, "search/search_index.json", short.LIST, WITHDRAWN}
# The pages of short addresses are many and only lead on: without network the worker does that with the list.
LEFT_OUT = (
    "sw.js", "404.html", "sitemap.xml", "sitemap.xml.gz", "assets/javascripts/lunr/", "offline/", f"{short.ROOM}/",
)
HASH_DIGITS = 32


@dataclass(frozen=True)
class Entry:
    """One file of the site: its address below the site's root, part of its SHA-256, its size in bytes."""

    address: str
    digest: str
    size: int

    @property
    def is_briefing(self) -> bool:
        return self.address.startswith(BRIEFINGS) and self.address != BRIEFINGS

    @property
    def is_page(self) -> bool:
        return self.address.endswith(("/", ".html")) or not self.address

    def row(self) -> list[str | int]:
        return [self.address, self.digest, self.size]


def write(
    site: Path, name: str, description: str, named: Iterable[str], files: Mapping[str, Digest] | None = None,
    number: str = "",
) -> None:
    """Add manifest, lists and the worker to a finished site that has its icons.

    named: addresses as the pages write them, from `named_by_content`;  files: of the site, where they are known;
    number: of the edition, for people to read
    """
    _write_json(site / MANIFEST, manifest(name, description))
    all_files = {**(files or digests(site)), MANIFEST: digest((site / MANIFEST).read_bytes())}
    entries = listed(all_files, named)
    edition = {"version": version(entries), "built": editions.built(), "edition": number}
    groups = {
        "handbook": [entry for entry in entries if not entry.is_briefing],
        "briefings": [entry for entry in entries if entry.is_briefing],
    }
    (site / "offline").mkdir(exist_ok=True)
    for group, members in groups.items():
        _write_json(site / "offline" / f"{group}.json", edition | {"files": [entry.row() for entry in members]})
    _write_json(site / "offline" / "sizes.json", edition | {group: size(members) for group, members in groups.items()})
    framed = frame(entries, (site / "index.html").read_text("utf-8"))
    more = [entry.row()[:2] for entry in compared(entries) if entry not in framed]
    rows = [entry.row() for entry in framed]
    (site / "sw.js").write_text(worker(edition | {"frame": rows, "files": more}), "utf-8")


def listed(files: Mapping[str, Digest], named: Iterable[str]) -> list[Entry]:
    """Every file that a reader can come to, in a fixed order."""
    written = {address.partition("?")[0]: address for address in named}
    entries = []
    for place in sorted(files, key=lambda place: place.split("/")):
        if not place.endswith(".map") and not place.startswith(LEFT_OUT):
            address = written.get(place) or quote(place.removesuffix("index.html") if _is_index(place) else place)
            entries.append(Entry(address, files[place].sha256[:HASH_DIGITS], files[place].size))
    return entries


def frame(entries: Sequence[Entry], start_page: str) -> list[Entry]:
    """What the worker takes at once: the entries that make any page work, and search."""
    def needed(entry: Entry) -> bool:
        return entry.address in ALWAYS or (not entry.is_page and f'"{entry.address}"' in start_page)

    return [entry for entry in entries if needed(entry)]


def compared(entries: Sequence[Entry]) -> list[Entry]:
    """What the worker compares with its list before it keeps it: all that is neither a page, which has its seal, nor
    beside a briefing, where thousands of files have their hash in their address.
    """
    return [entry for entry in entries if not entry.is_page and not entry.is_briefing]


def size(entries: Sequence[Entry]) -> dict[str, int]:
    return {"files": len(entries), "bytes": sum(entry.size for entry in entries)}


def version(entries: Sequence[Entry]) -> str:
    """One name for all that is listed: it changes when any file does."""
    return hashlib.sha256(json.dumps([entry.row() for entry in entries]).encode()).hexdigest()[:16]


def worker(edition: dict[str, object]) -> str:
    """The worker's script for one edition."""
    blank = "const EDITION = null;"
    text = WORKER.read_text("utf-8")
    if text.count(blank) != 1:
        raise ValueError(f"{WORKER.name}: {blank!r} must stand in it once, for the edition")
    return text.replace(blank, f"const EDITION = {json.dumps(edition)};")


def manifest(name: str, description: str) -> dict[str, object]:
    """What a phone needs to put the handbook on its home screen; addresses are relative to the manifest."""
    pictures = [
        {"src": f"assets/icon-{side}.png", "sizes": f"{side}x{side}", "type": "image/png", "purpose": purpose}
        for side in icons.PNG_SIDES
        for purpose in ("any", "maskable")
    ]
    return {
        "name": name,
        "short_name": name,
        "description": description,
        "lang": "en",
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": icons.GROUND,
        "theme_color": icons.GROUND,
        "icons": [{"src": "assets/icon.svg", "sizes": "any", "type": "image/svg+xml"}, *pictures],
    }


def _is_index(place: str) -> bool:
    return place == "index.html" or place.endswith("/index.html")


def _write_json(path: Path, content: object) -> None:
    path.write_text(json.dumps(content, separators=(",", ":")) + "\n", "utf-8")

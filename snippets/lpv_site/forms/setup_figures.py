"""What the forms of a set-up, of a recording and of an approach file fetch: the list of approaches, and of each its
figures and its file.

The file lies beside the approach's briefing, so that a device that keeps the briefing offline keeps the figures.
They are made and kept with the briefing (see `lpv_site.briefing.briefings`), by which the approach is read anyway.
"""

import hashlib
import json
from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from lpv.approach.record import Approach
from lpv.compose.form import head_of
from lpv.files.json_form import to_json
from lpv.files.toml_reader import plain_tables
from lpv.files.toml_writer import toml_text
from lpv_site.build.digests import NAME_DIGITS

BOX = "own-set-up"  # id of the form
LIST = "assets/set-up.json"
LIST_MARK = "hb-mark-set-up-list"  # on the pages of the forms, until the list is known: its address with its hash


def address(slug: str) -> str:
    """Where the figures of an approach lie, from the site's root."""
    return f"approaches/{slug}/set-up.json"


def check_link(page: str, slug: str) -> str:
    """Address of the form for an approach; page: the form's page as seen from the linking one."""
    return f"{page}?{urlencode({'approach': slug})}#{BOX}"


def figures(approach: Approach) -> dict[str, Any]:
    """The approach in its JSON form, with which the forms compare a set-up and a recorded flight."""
    return to_json(approach)


def file_of(text: str) -> str:
    """An approach file as the form of such files begins with it: without the comments below its head."""
    plain = text.lstrip("\ufeff").replace("\r\n", "\n")
    return head_of(plain) + toml_text(plain_tables(plain)).lstrip("\n")


def named(slug: str, text: str) -> str:
    """The same with the hash of the figures, so that no page meets those of another edition unknown."""
    return with_hash(address(slug), text)


def with_hash(place: str, text: str) -> str:
    """An address with part of the hash of the file's text."""
    return f"{place}?v={digits(text)}"


def digits(text: str) -> str:
    """The part of a file's hash that stands in its address."""
    return hashlib.sha256(text.encode()).hexdigest()[:NAME_DIGITS]


def listed(entries: Mapping[str, tuple[str, str, str]]) -> str:
    """The content of the list; found: slug -> airport, title of the approach, the text of its figures.

    A row is slug, airport, title, and the part of the figures' hash that stands in their address.
    """
    rows = [[slug, airport, title, digits(text)] for slug, (airport, title, text) in entries.items()]
    return as_json(sorted(rows, key=lambda row: (row[1], row[2], row[0])))


def as_json(value: object) -> str:
    """The content of such a file."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n"

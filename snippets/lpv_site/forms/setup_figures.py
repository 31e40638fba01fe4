"""What the forms of a set-up and of a recording fetch: the list of approaches, and figures of each of them.

The file lies beside the approach's briefing, so that a device that keeps the briefing offline keeps the figures.
They are made and kept with the briefing (see `lpv_site.briefing.briefings`), by which the approach is read anyway.
"""

import json
from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from lpv.approach.record import Approach
from lpv.files.json_form import to_json

BOX = "own-set-up"  # id of the form
LIST = "assets/set-up.json"


def address(slug: str) -> str:
    """Where the figures of an approach lie, from the site's root."""
    return f"approaches/{slug}/set-up.json"


def check_link(page: str, slug: str) -> str:
    """Address of the form for an approach; page: the form's page as seen from the linking one."""
    return f"{page}?{urlencode({'approach': slug})}#{BOX}"


def figures(approach: Approach) -> dict[str, Any]:
    """The approach in its JSON form, with which the forms compare a set-up and a recorded flight."""
    return to_json(approach)


def listed(found: Mapping[str, tuple[str, str]]) -> str:
    """The content of the list; found: slug -> airport and title of the approach."""
    rows = [[slug, airport, title] for slug, (airport, title) in found.items()]
    return as_json(sorted(rows, key=lambda row: (row[1], row[2], row[0])))


def as_json(value: object) -> str:
    """The content of such a file."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n"

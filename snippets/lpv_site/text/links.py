"""Headings that can be linked to, and links from one page of docs/ to another."""

import os
import re
from pathlib import PurePosixPath

HEADING = re.compile(r"^(#{1,4}) (.+?) \{ #([a-z0-9-]+)(?: [^}]*)?\}$", re.M)


def relative(address: str, page: str) -> str:
    """The link from one page to an address, both below docs/."""
    target, _, fragment = address.partition("#")
    path = os.path.relpath(target, str(PurePosixPath(page).parent)) if target != page else ""
    return path + (f"#{fragment}" if fragment else "")

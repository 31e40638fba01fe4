"""Our scripts and styles, named by part of their hash wherever a page names them: a page never takes another one's, and
the worker and a cache know half of one from the whole (`worker.js`).
"""

import re
from functools import cache
from pathlib import Path

from lpv_site.build.digests import NAME_DIGITS, digest
from lpv_site.build.search_worker import with_mended

ASSETS = "assets"
NAMING = re.compile(r'(?<= )(?:src|data-script)="[^"]*"')
SCRIPT = re.compile(rf'{ASSETS}/[a-z-]+\.js(?=[ "])')


def named_by_content(address: str, folder: Path) -> str:
    """The address of a style or script with part of its hash; as it is where there is no such file."""
    path = folder / address
    return f"{address}?v={digest(path.read_bytes()).sha256[:NAME_DIGITS]}" if path.is_file() else address


@cache
def scripts(folder: Path) -> dict[str, str]:
    """Address of each of our scripts -> the same with part of its hash."""
    addresses = (f"{ASSETS}/{path.name}" for path in sorted((folder / ASSETS).glob("*.js")))
    return {address: named_by_content(address, folder) for address in addresses}


def with_names(html: str, folder: Path) -> str:
    """A page whose attributes name our scripts by their content."""
    known = scripts(folder)
    html = with_mended(html)
    return NAMING.sub(lambda tag: SCRIPT.sub(lambda name: known.get(name[0], name[0]), tag[0]), html)

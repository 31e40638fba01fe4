"""What the forms of a set-up and of a recording fetch: the list of approaches, and figures of each of them.

The file lies beside the approach's briefing, so that a device that keeps the briefing offline keeps the figures.
"""

import hashlib
import json
import os
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from urllib.parse import urlencode

from lpv import approach
from lpv.setup_data import charted_texts
from lpv.setup_file import charted
from lpv.track_data import against_texts
from lpv.track_held import against
from render import store
from render.data import DOCS

BOX = "own-set-up"  # id of the form
LIST = "assets/set-up.json"
KEPT = store.FOLDER / "set-up"
WORTH_A_POOL = 200


def address(slug: str) -> str:
    """Where the figures of an approach lie, from the site's root."""
    return f"approaches/{slug}/set-up.json"


def check_link(page: str, slug: str) -> str:
    """Address of the form for an approach; page: the form's page as seen from the linking one."""
    return f"{page}?{urlencode({'approach': slug})}#{BOX}"


def figures(path: Path) -> dict[str, str]:
    """The texts that a set-up and a recorded flight are compared with, of one approach file; DataError for faults."""
    found = approach.read(path)
    return dict([*charted_texts(charted(found)), *against_texts(against(found))])


def files(docs: Path = DOCS) -> dict[str, str]:
    """Address -> content of the list and of every approach's figures; DataError if a file has faults."""
    found = all_figures(docs)
    rows = [[slug, texts["airport"], texts["title"]] for slug, texts in found.items()]
    rows.sort(key=lambda row: (row[1], row[2], row[0]))
    made = {address(slug): _json(texts) for slug, texts in found.items()}
    return {LIST: _json(rows)} | made


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n"


def all_figures(docs: Path) -> dict[str, dict[str, str]]:
    """Slug -> texts of every approach of docs/approaches; those of files that did not change are kept."""
    paths = sorted((docs / "approaches").glob("*.toml"))
    keys = {path: store.key_of("set-up", path.name, path.read_bytes()) for path in paths}
    name = hashlib.sha256(str(docs.resolve()).encode()).hexdigest()
    known = store.load(KEPT, name) or {}
    new = [path for path in paths if keys[path] not in known]
    made = {keys[path]: texts for path, texts in zip(new, _read(new), strict=True)}
    rows = {keys[path]: made.get(keys[path]) or known[keys[path]] for path in paths}
    if new or len(rows) != len(known):
        store.keep(KEPT, name, rows)
    return {path.stem: rows[keys[path]] for path in paths}


def _read(paths: list[Path]) -> Iterable[dict[str, str]]:
    """The texts of these files; in worker processes where there are enough of them."""
    if len(paths) < WORTH_A_POOL:
        return [figures(path) for path in paths]
    with ProcessPoolExecutor(os.cpu_count() or 1, mp_context=get_context("spawn")) as pool:
        return list(pool.map(figures, paths, chunksize=50))

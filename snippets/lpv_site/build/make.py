"""Let MkDocs make the site into an empty folder, strictly: `python -m lpv_site.build.make FOLDER`.

Exit code 0 made, 2 faults, each of them named.  `lpv_site.build.build` calls it in a process of its own, and publishes
the folder when it held.
"""

import logging
import sys
from pathlib import Path
from typing import Any

from lpv.command.runner import BAD_INPUT, run

CONFIG = "mkdocs.yml"
PUBLISHING = "publishing"  # under `extra`: an edition that is published has a time of its own


def make(site: Path, root: Path, polyfills: tuple[str, ...] = (), **settings: Any) -> list[str]:
    """Make the site of an edition to publish; lines that say what was wrong, none where it is whole.

    polyfills: scripts that the theme is to load before its own;  settings: of MkDocs, in place of those in its file
    """
    from mkdocs.commands.build import build
    from mkdocs.config import load_config
    from mkdocs.exceptions import Abort, ConfigurationError

    logging.basicConfig(level=logging.WARNING, format="%(levelname)s - %(message)s")
    try:
        config = load_config(str(root / CONFIG), site_dir=str(site), strict=True, **settings)
        config.extra |= {PUBLISHING: True, **({"polyfills": list(polyfills)} if polyfills else {})}
        build(config)
    except (Abort, ConfigurationError) as error:
        return [str(error)]
    return []


def main(arguments: list[str]) -> int:
    said = make(Path(arguments[0]), Path.cwd())
    print("\n".join(said), end="\n" if said else "", file=sys.stderr)
    return BAD_INPUT if said else 0


if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))

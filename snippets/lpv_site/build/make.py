"""Let MkDocs make the site into an empty folder, strictly: `python -m lpv_site.build.make [PROCESS] FOLDER`.

PROCESS is the number of the process that starts it: killed however, it takes this one with it.

Exit code 0 made, 1 made and kept back by what the department refuses, 2 faults, each of them named.
`lpv_site.build.build` calls it in a process of its own, and publishes the folder when it held.
"""

import logging
import sys
from pathlib import Path
from typing import Any, NamedTuple

from lpv.command.runner import ATTENTION, BAD_INPUT, NOTHING_TO_STOP, run
from lpv_site.build.workers import end_with

CONFIG = "mkdocs.yml"
PUBLISHING = "publishing"  # under `extra`: an edition that is published has a time of its own
PASSED_OVER = "passed_over"  # under `extra`: files of the department's folder that no page is made from
FOUND = "gate"  # under `extra`: what was found in it (`lpv_site.build.gate.Gate`)


class Made(NamedTuple):
    """What became of a site: the code that the process ends with, and words for its end."""

    code: int
    words: str


def make(site: Path, root: Path, polyfills: tuple[str, ...] = (), **settings: Any) -> Made:
    """Make the site of an edition to publish.

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
        return Made(BAD_INPUT, str(error))
    outcome = config.extra[FOUND]
    edition = config.extra["edition"]
    passed = [f"Passed over: {place}" for place in config.extra[PASSED_OVER]]
    words = "\n".join([f"Edition {edition['number']}, {edition['time']}", *passed, *outcome.lines()])
    return Made(ATTENTION if outcome.refused else NOTHING_TO_STOP, words)


def main(arguments: list[str]) -> int:
    *starter, site = arguments
    for process in starter:
        end_with(int(process))
    made = make(Path(site), Path.cwd())
    print(made.words, file=sys.stderr if made.code == BAD_INPUT else sys.stdout)
    return made.code


if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))

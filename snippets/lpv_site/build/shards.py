"""A part of the briefings, made and kept for a later build: for machines that share the work.

    python -m lpv_site.build --shard 1/3        on each machine another part, HANDBOOK_STORE naming a folder of its own
    cp -r store-*/* .cache/ && make build     the folders put into one: the build finds every briefing made

What a part makes depends on the files alone, so the site is the same as one built whole, and a part that is missing
is made by the build.
"""

import sys
from pathlib import Path

from lpv.core.errors import DataError
from lpv_site.briefing.briefings import STORE, made_or_kept
from lpv_site.build import store
from lpv_site.build.build import part
from lpv_site.department import files as department_files


def files_of(number: int, of: int, docs: Path) -> list[Path]:
    """The approach files of part `number` (from 1) of `of`: every file belongs to one part."""
    return sorted((docs / "approaches").glob("*.toml"))[number - 1 :: of]


def make_part(number: int, of: int, docs: Path, kept_in: Path = STORE) -> int:
    """Make the briefings of a part, or find them kept; how many.  DataError with every fault of its files."""
    return len(made_or_kept(files_of(number, of, docs), kept_in, store.site_url()))


def main(arguments: list[str]) -> int:
    number, of = part(arguments[0])
    try:
        print(f"part {number} of {of}: {make_part(number, of, department_files.put_together())} briefings")
    except DataError as error:
        print(f"The data files have {len(error.faults)} fault(s):\n{error}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))

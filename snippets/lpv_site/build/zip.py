"""The handbook as one file to hand out: unzip it, open index.html, no server needed.

python -m lpv_site.build.zip [--output handbook.zip] [--data FOLDER] [--time 2026-11-20T08:00Z]
"""

import argparse
import json
import os
import sys
import tempfile
import time
import zipfile
from pathlib import Path

from lpv.command.runner import run
from lpv.core.text import quantity
from lpv_site.build.build import ROOT, data_folder, set_up, with_data
from lpv_site.build.edition import SECONDS, seconds
from lpv_site.build.make import Made, make

SEARCH = Path(__file__).with_name("file_search.js")
SEARCH_ADDRESS = "assets/file_search.js"
FOLDER = "handbook"
FIRST_TIME = (1980, 1, 1, 0, 0, 0)  # a zip knows no earlier one


def build_for_file(site: Path, root: Path = ROOT) -> Made:
    """Build the site strictly so that its pages, links and search work when opened from a file."""
    made = make(site, root, polyfills=(SEARCH_ADDRESS,), use_directory_urls=False)
    if made.code:
        return made
    (site / SEARCH_ADDRESS).write_bytes(SEARCH.read_bytes())
    index = site / "search" / "search_index.json"
    index.with_suffix(".js").write_text(f"var __index = {json.dumps(json.loads(index.read_text('utf-8')))}\n", "utf-8")
    for unused in (index, site / "sitemap.xml", site / "sitemap.xml.gz", site / "404.html"):
        unused.unlink(missing_ok=True)
    return made


def pack(site: Path, output: Path) -> None:
    """Zip a folder, the same bytes for the same content and SOURCE_DATE_EPOCH; output is replaced when it is whole."""
    at = max(FIRST_TIME, time.gmtime(int(os.environ.get("SOURCE_DATE_EPOCH", 0)))[:6])
    aside = output.with_name(f"{output.name}.next")
    with zipfile.ZipFile(aside, "w") as packed:
        for path in sorted(path for path in site.rglob("*") if path.is_file()):
            entry = zipfile.ZipInfo(f"{FOLDER}/{path.relative_to(site).as_posix()}", at)
            entry.external_attr = 0o644 << 16
            entry.create_system = 3
            packed.writestr(entry, path.read_bytes(), zipfile.ZIP_DEFLATED, 9)
    aside.replace(output)


def main(arguments: list[str] | None = None) -> int:
    parser = with_data(argparse.ArgumentParser(prog="python -m lpv_site.build.zip", description=__doc__))
    parser.add_argument("--output", type=Path, default=ROOT / "handbook.zip")
    options = parser.parse_args(arguments)
    set_up(options)
    if (at := seconds(ROOT, data_folder())) is not None:
        os.environ[SECONDS] = str(at)
    with tempfile.TemporaryDirectory() as folder:
        made = build_for_file(Path(folder))
        if made.code:
            print(made.words, f"The build stopped; {options.output} is as it was.", sep="\n", file=sys.stderr)
            return made.code
        pack(Path(folder), options.output)
    print(f"{made.words}\n{options.output.name}: {quantity(options.output.stat().st_size / 1e6, 'MB', 0.1)}")
    return 0


if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))

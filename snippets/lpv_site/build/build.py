"""Build the site aside and swap it in: a failed build leaves the last good one untouched.

python -m lpv_site.build [--site-dir site] [--data FOLDER]

--data    a department's own folder, in the place of the demo (see docs/reference/publish.md)
"""

import argparse
import os
import shutil
import subprocess
import sys
from pathlib import Path

from lpv_site.build import store

ROOT = Path(__file__).resolve().parents[3]


def commit_time(root: Path = ROOT) -> str:
    """Seconds since 1970 of the last commit, so that two builds of a commit are the same; "0" outside git."""
    run = subprocess.run(["git", "log", "-1", "--format=%ct"], cwd=root, capture_output=True, text=True)
    return run.stdout.strip() or "0"


def build(site_dir: Path, root: Path = ROOT) -> int:
    """Run MkDocs strictly into a folder aside; swap it in if it held.  Returns the exit code."""
    site_dir = site_dir.resolve()  # where a link leads: the link itself stays
    aside, last = (site_dir.with_name(f"{site_dir.name}.{suffix}") for suffix in ("next", "last"))
    shutil.rmtree(aside, ignore_errors=True)
    environment = {"SOURCE_DATE_EPOCH": commit_time(root), "NO_MKDOCS_2_WARNING": "1", **os.environ}
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(aside.resolve())]
    code = subprocess.run(command, cwd=root, env=environment).returncode
    if code:
        shutil.rmtree(aside, ignore_errors=True)
        print(f"The build stopped; {site_dir} is as it was.", file=sys.stderr)
        return code
    shutil.rmtree(last, ignore_errors=True)
    if site_dir.exists():
        site_dir.rename(last)
    aside.rename(site_dir)
    shutil.rmtree(last, ignore_errors=True)
    store.tidy()
    return 0


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(prog="python -m lpv_site.build", description=__doc__)
    parser.add_argument("--site-dir", type=Path, default=ROOT / "site")
    parser.add_argument("--data", type=Path)
    given = parser.parse_args(arguments)
    if given.data:
        os.environ["HANDBOOK_DATA"] = str(given.data.resolve())
    return build(given.site_dir)


if __name__ == "__main__":
    raise SystemExit(main())

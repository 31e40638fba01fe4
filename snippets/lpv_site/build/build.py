"""Build the site aside and exchange it for the published one: a failed build leaves the last good one untouched.

python -m lpv_site.build [--site-dir site] [--data FOLDER] [--time 2026-11-20T08:00Z]

--data    a department's own folder, in the place of the demo (see docs/reference/publish.md)
--time    the edition's time, where handbook or folder are not under git

Exit code: 0 published; 1 kept back, by what the department does not publish with; 2 faults of data or arguments, or
no place to write to; 3 an error of the program; 4 another build of the same site is under way.
"""

import argparse
import os
import subprocess
import sys
from pathlib import Path

from lpv_site.build import edition, exchange, store

ROOT = Path(__file__).resolve().parents[3]
BUSY = 4
READABLE_BY_ALL = 0o022  # the umask of what is published, whatever that of who builds it


def build(site_dir: Path, root: Path = ROOT) -> int:
    """Make the site strictly in a folder aside, and publish it if it held.  Returns the exit code."""
    site_dir = site_dir.resolve()  # where a link leads: the link itself stays
    try:
        with exchange.locked(site_dir):
            if exchange.mend(site_dir):
                print(f"{site_dir}: the last build stopped halfway; the last good site is back in place.")
            with exchange.aside(site_dir) as aside:
                return _published(site_dir, aside, root)
    except exchange.Busy as error:
        print(error, file=sys.stderr)
        return BUSY


def _published(site_dir: Path, aside: Path, root: Path) -> int:
    """Make the site aside, and exchange it for the published one."""
    environment = {"NO_MKDOCS_2_WARNING": "1", **os.environ}
    at = edition.seconds(root, data_folder())
    if at is not None:
        environment[edition.SECONDS] = str(at)
    command = [sys.executable, "-m", "lpv_site.build.make", str(os.getpid()), str(aside)]
    code = subprocess.run(command, cwd=root, env=environment, umask=READABLE_BY_ALL).returncode
    if code:
        print(f"The build stopped; {site_dir} is as it was.", file=sys.stderr)
        return code if code > 0 else 128 - code
    exchange.put(aside, site_dir)
    store.tidy()
    return 0


def data_folder() -> Path | None:
    """The department's folder of this build; None for the handbook as it comes."""
    named = os.environ.get("HANDBOOK_DATA")
    return Path(named).resolve() if named else None


def set_up(options: argparse.Namespace) -> None:
    """Let the arguments that all builds have act on this process and those that it starts."""
    if options.data:
        os.environ["HANDBOOK_DATA"] = str(options.data.resolve())
    if options.time is not None:
        os.environ[edition.SECONDS] = str(options.time)


def with_data(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Add the arguments that all builds have."""
    parser.add_argument("--data", type=Path, help="a department's own folder")
    parser.add_argument("--time", type=_time, help="the edition's time in UTC, if no commit gives it")
    return parser


def _time(text: str) -> int:
    try:
        return edition.seconds_of(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"found {text}; allowed: a time in UTC, such as 2026-11-20T08:00Z") from None


def main(arguments: list[str] | None = None) -> int:
    parser = with_data(argparse.ArgumentParser(prog="python -m lpv_site.build", description=__doc__,
                                               formatter_class=argparse.RawDescriptionHelpFormatter))
    parser.add_argument("--site-dir", type=Path, default=ROOT / "site")
    options = parser.parse_args(arguments)
    set_up(options)
    return build(options.site_dir)

"""Nothing hangs on the day, the place or the order in which it is run."""

import ast
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# What may read the clock, and why.
MAY = {
    "lpv_site/build/store.py": "drops what was long unused",
    "lpv_site/build/edition.py": "the time of a build without a commit",
    "lpv_site/build/site.py": "the day on which a department's edition is let out or not",
    "lpv/crosscheck/check.py": "the command's day where none is given",
}
CLOCK = {"time.time", "time.localtime", "time.tzset", "time.ctime", "locale.setlocale", "locale.getlocale",
         "datetime.now", "datetime.utcnow", "datetime.today", "date.today"}


def clocks(path: Path) -> set[str]:
    """Calls in a file that read the clock, the time zone or the locale."""
    calls = (node.func for node in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(node, ast.Call))
    return {ast.unparse(call) for call in calls if ast.unparse(call).removeprefix("datetime.") in CLOCK}


def test_only_allowed_modules_read_clock_or_locale():
    snippets = ROOT / "snippets"
    readers = {path.relative_to(snippets).as_posix(): clocks(path) for path in snippets.rglob("*.py")}
    assert {name for name, calls in readers.items() if calls} == set(MAY)


def test_no_test_reads_current_date():
    readers = {path.name: clocks(path) - {"time.time", "time.tzset"} for path in (ROOT / "tests").rglob("test_*.py")}
    assert not {name for name, calls in readers.items() if calls}

"""What live figures cost to bring: the first one in all, and what each further one adds."""

import gzip

from lpv.figures import TASKS
from lpv_site.forms import phone
from lpv_site.forms.lean import lean
from support import ROOT

FIRST_KB, FURTHER_KB = 350.0, 40.0
SCRIPTS = ("python.js", "calculator.js", "live.js")


def kilobytes(text):
    return len(gzip.compress(text if isinstance(text, bytes) else text.encode(), 9)) / 1000.0


def test_first_figure_total_size():
    runtime = [(ROOT / "docs" / phone.runtime(suffix)).read_bytes() for suffix in ("js", "wasm")]
    scripts = [(ROOT / "docs" / "assets" / name).read_bytes() for name in SCRIPTS]
    parts = [kilobytes(part) for part in (*runtime, *scripts, phone.code("figures")[1])]
    assert 250.0 < sum(parts) <= FIRST_KB, parts


def test_each_further_figure_size():
    """All figures share one file, so a further one brings nothing; and what each has for itself alone is small."""
    reach = {module: reached(f"lpv.figures.{module}") for module, _ in TASKS}
    for module, own in reach.items():
        others = set.union(*(modules for other, modules in reach.items() if other != module))
        alone = {phone.source(name) for name in own - others}
        assert alone, module
        assert kilobytes("".join(lean(path.read_text("utf-8")) for path in sorted(alone))) <= FURTHER_KB, module


def reached(name):
    """A module and all that it imports."""
    modules, waiting = set(), [name]
    while waiting:
        here = waiting.pop()
        if here not in modules and phone.source(here).is_file():
            modules.add(here)
            waiting += phone.imported(here)
    return modules

"""Processor time of the steps of a briefing or of a build, as one line of JSON: step -> text.  Run in a project.

    python tests/bench_steps.py briefing|build
"""

import functools
import json
import os
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable
from pathlib import Path
from typing import Any

spent: dict[str, float] = defaultdict(float)
running: list[str] = []


def clocked(place: Any, name: str, step: str) -> None:
    """Count what a function takes under a step, less what steps inside it take."""
    work: Callable[..., Any] = getattr(place, name)

    @functools.wraps(work)
    def counted(*given: Any, **named: Any) -> Any:
        start = time.process_time()
        running.append(step)
        try:
            return work(*given, **named)
        finally:
            took = time.process_time() - start
            running.pop()
            spent[step] += took
            if running:
                spent[running[-1]] -= took

    setattr(place, name, counted)


def briefing_steps(count: int = 60) -> dict[str, str]:
    """Milliseconds of the steps of one briefing, the mean of some."""
    from lpv_site.briefing import briefing, briefings
    from lpv_site.briefing import scale as briefing_scale

    paths = sorted(Path("docs/approaches").glob("zz-scale-*.toml"))[: count + 5]
    for path in paths[:5]:  # what is loaded and compiled once
        briefings.make(path)
    clocked(briefings, "make", "the rest")
    clocked(briefings, "read", "reading")
    clocked(briefings, "make_page", "Markdown")
    clocked(briefings, "build_briefing_page", "sections")
    for place, name in ((briefing, "profile"), (briefing, "plan"), (briefing_scale, "narrowing")):
        clocked(place, name, "figures")
    clocked(briefing, "crosschecked", "cross-check")
    for path in paths[5:]:
        briefings.make(path)
    return {step: f"{1000 * seconds / count:.1f} ms" for step, seconds in spent.items()}


def build_steps() -> dict[str, str]:
    """Seconds of the steps of a build with everything kept."""
    import jinja2
    from mkdocs import plugins, utils
    from mkdocs.__main__ import cli
    from mkdocs.commands import build

    os.environ["NO_MKDOCS_2_WARNING"] = "1"
    clocked(build, "build", "the rest")
    for event, step in {
        "on_config": "starting", "on_files": "generated pages", "on_page_markdown": "expressions",
        "on_page_context": "search", "on_post_page": "drawings, links, policy", "on_post_build": "hashes and lists",
    }.items():
        clocked(plugins.PluginCollection, event, step)
    clocked(build, "_populate_page", "Markdown")
    clocked(build, "_build_page", "templates")
    clocked(jinja2.Template, "render", "templates")
    clocked(utils, "write_file", "writing")
    start = time.process_time()
    with tempfile.TemporaryDirectory() as site:
        cli(["build", "--strict", "--quiet", "--site-dir", site], standalone_mode=False)
    whole = {"all": time.process_time() - start, **spent}
    return {step: f"{seconds:.2f} s" for step, seconds in whole.items()}


if __name__ == "__main__":
    print(json.dumps({"briefing": briefing_steps, "build": build_steps}[sys.argv[1]]()))

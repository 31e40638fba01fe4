"""What other builders take for the same pages: MkDocs by itself, and Sphinx with the plots of matplotlib's directive.

MkDocs gets the Markdown of the briefings without their figures; Sphinx gets their figures alone, drawn from the same
points.  Sphinx is installed below .cache from the lock file in tests/sphinx, for this benchmark only.
"""

import re
import shutil
import subprocess
import sys
import tempfile
import venv
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import yaml

from lpv.approach.record import Approach, read
from lpv.decide.final_path import course_full_scale_ft, glidepath, path_full_scale_ft, pfaf_distance_nm
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft
from lpv_site.briefing.briefing import build_briefing_page
from lpv_site.briefing.figures import along_across_nm, legs
from lpv_site.figures.figure import fill
from lpv_site.text.convert import settings
from lpv_site.text.inline import expand
from support import ROOT

LOCK = ROOT / "tests" / "sphinx" / "requirements.txt"
INSTALLED = ROOT / ".cache" / "sphinx"
PLOTTED = 40
FIGURE = re.compile(r"<figure.*?</figure>", re.S)
NEEDS_OURS = {"pymdownx.snippets"}
NOT_AS_TEXT = {"pymdownx.superfences"}  # its settings name functions
CONF = """project = "pages"
extensions = ["matplotlib.sphinxext.plot_directive"]
plot_formats = ["svg"]
plot_html_show_source_link = plot_html_show_formats = False
"""
Row = tuple[str, str, str]


def rows(written: list[Path], ours: Any, timed: Callable[..., Any], in_ms: Callable[[Any], str]) -> Iterator[Row]:
    """Cost per page of both, beside ours; timed and in_ms as in bench_many."""
    approaches = list(map(read, written))
    by_mkdocs = per_page(lambda folder, some: mkdocs(folder, some, timed), approaches)
    yield f"MkDocs alone, same Markdown without figures, per page of {len(approaches)}", in_ms(by_mkdocs), ""
    lacking = install()
    if lacking:
        yield "Sphinx, same figures", f"not run: {lacking}", ""
        return
    by_sphinx = per_page(lambda folder, some: sphinx(folder, some, timed), approaches[:PLOTTED])
    yield f"Sphinx, the three figures alone, per page of {PLOTTED}", in_ms(by_sphinx), ""
    yield f"this project, Markdown and figures, per page of {len(approaches)}", in_ms(ours), ""


def per_page(build: Callable[[Path, list[Approach]], Any], approaches: list[Approach]) -> Any:
    """What a page more costs: a build of all against a build of the first alone."""
    with tempfile.TemporaryDirectory() as name:
        single, whole = (build(Path(name) / str(len(some)), some) for some in (approaches[:1], approaches))
    more = len(approaches) - 1
    return type(whole)((whole.clock_s - single.clock_s) / more, (whole.cpu_s - single.cpu_s) / more)


def mkdocs(folder: Path, approaches: list[Approach], timed: Callable[..., Any]) -> Any:
    """A build of MkDocs with the theme and the extensions that we use, none of our hooks and no list of all pages."""
    (folder / "docs").mkdir(parents=True)
    (folder / "docs" / "index.md").write_text("# Pages\n", "utf-8")
    for approach in approaches:
        page = fill(FIGURE.sub("", expand(build_briefing_page(approach), f"{approach.slug}.md")))
        (folder / "docs" / f"{approach.slug}.md").write_text(page, "utf-8")
    named = [name for name in settings() if name not in NEEDS_OURS]
    used = [name if name in NOT_AS_TEXT else {name: settings()[name]} for name in named]
    config = {
        "site_name": "Pages", "theme": {"name": "material", "font": False}, "plugins": ["search"], "nav": ["index.md"],
        "not_in_nav": "*", "markdown_extensions": used, "validation": {"links": {"not_found": "ignore"}},
    }
    (folder / "mkdocs.yml").write_text(yaml.safe_dump(config), "utf-8")
    return timed([sys.executable, "-m", "mkdocs", "build", "--quiet"], folder)


def install() -> str:
    """Sphinx as the lock file says, in an environment below .cache; "" or why it could not be had."""
    done = INSTALLED / "installed.txt"
    if done.exists() and done.read_bytes() == LOCK.read_bytes():
        return ""
    shutil.rmtree(INSTALLED, ignore_errors=True)
    venv.create(INSTALLED, with_pip=True)
    command = [INSTALLED / "bin" / "python", "-m", "pip", "install", "--quiet", "--require-hashes", "-r", LOCK]
    run = subprocess.run(command, capture_output=True, text=True)
    if run.returncode:
        return (run.stderr.strip().splitlines() or ["pip failed"])[-1]
    done.write_bytes(LOCK.read_bytes())
    return ""


def sphinx(folder: Path, approaches: list[Approach], timed: Callable[..., Any]) -> Any:
    """A build of Sphinx, by as many processes as there are cores."""
    (folder / "source").mkdir(parents=True)
    names = [approach.slug for approach in approaches]
    contents = "Pages\n=====\n\n.. toctree::\n\n" + "".join(f"   {name}\n" for name in names)
    (folder / "source" / "index.rst").write_text(contents, "utf-8")
    (folder / "source" / "conf.py").write_text(CONF, "utf-8")
    for approach in approaches:
        title = approach.identity.title
        plots = "\n".join(".. plot::\n\n" + indented(code) for code in plots_of(approach))
        (folder / "source" / f"{approach.slug}.rst").write_text(f"{title}\n{'=' * len(title)}\n\n{plots}", "utf-8")
    command = [INSTALLED / "bin" / "python", "-m", "sphinx", "-q", "-j", "auto", "source", "built"]
    return timed([str(part) for part in command], folder)


def indented(code: str) -> str:
    return "".join(f"    {line}\n" for line in code.splitlines())


def plots_of(approach: Approach) -> list[str]:
    """The three figures of a briefing as code for the directive, with their points written into it."""
    arguments, far_nm = glidepath(approach), pfaf_distance_nm(approach)
    places = [far_nm * step / 30 for step in range(31)]
    at = along_across_nm(approach)
    profile = plot(
        [[straight_path_height_ft(nm, *arguments) for nm in places],
         [barometric_path_height_ft(nm, *arguments) for nm in places]],
        places, "distance to the threshold, NM", "altitude, ft",
        [(fix.name, at[fix.name][0], fix.altitude_ft) for fix in approach.chart.fixes if fix.role == "PFAF"],
    )
    scale = plot(
        [[full(approach, nm) for nm in places]
         for full in (course_full_scale_ft, path_full_scale_ft)],
        places, "distance to the threshold, NM", "full scale, ft", [],
    )
    lines = "".join(
        f"axes.plot({[at[name][1] for name in leg]}, {[-at[name][0] for name in leg]})\n" for leg in legs(approach))
    names = [(name, across, -along) for name, (along, across) in at.items()]
    plan = HEAD + lines + marks(names) + labels("left or right of the course, NM", "along the course, NM")
    return [profile, plan, scale]


HEAD = "import matplotlib.pyplot as plt\nfigure, axes = plt.subplots(figsize=(3.8, 2.8))\naxes.grid(True)\n"


def plot(curves: list[list[float]], places: list[float], x: str, y: str, named: list[tuple[str, float, Any]]) -> str:
    return HEAD + "".join(f"axes.plot({places}, {curve})\n" for curve in curves) + marks(named) + labels(x, y)


def marks(named: list[tuple[str, float, Any]]) -> str:
    return "".join(
        f"axes.plot({x}, {y}, 'o')\naxes.annotate({name!r}, ({x}, {y}), xytext=(7, 0), textcoords='offset points')\n"
        for name, x, y in named
    )


def labels(x: str, y: str) -> str:
    return f"axes.set(xlabel={x!r}, ylabel={y!r})\n"

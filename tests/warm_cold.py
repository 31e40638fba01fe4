"""Whether a build with what an earlier one kept is the build from nothing, after one change of each kind.

    python tests/warm_cold.py                 all changes, about half a minute each
    python tests/warm_cold.py heading css     only those named

To be run after a change of what is kept or of its keys (`lpv_site.build.store` and who calls it).  Exit code 1 if any
file of any site differs.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from support import COMMIT, copy_of_project

DEMO, OWN = "demo", "own"
Change = Callable[[Path], None]


def put(name: str, pattern: str, new: str, count: int = 1) -> Change:
    """A change of a file of the project: what a pattern finds in it first, in other words."""
    def change(project: Path) -> None:
        text, done = re.subn(pattern, new, (project / name).read_text("utf-8"), count=count, flags=re.M)
        assert done, (name, pattern)
        (project / name).write_text(text, "utf-8")

    return change


def also(name: str) -> Change:
    """A copy of a file of docs/ in the department's folder, under a name of its own, not edited yet."""
    own = f"{Path(name).parent}/own-{Path(name).name}"
    return lambda project: shutil.copy(project / "docs" / name, project / "own" / own)  # type: ignore[return-value]


def page_moved(project: Path) -> None:
    """A page with another address, all that names it, and a line in the list of moves."""
    (project / "docs" / "final" / "gates.md").rename(project / "docs" / "final" / "doors.md")
    for path in [project / "mkdocs.yml", *(project / "docs").rglob("*"), *(project / "snippets").rglob("*.py")]:
        if path.suffix in {".md", ".toml", ".py", ".yml"}:
            text = path.read_text("utf-8")
            path.write_text(re.sub(r"(final/|\()gates\.md", r"\1doors.md", text), "utf-8")
    put("docs/moved.toml", r"^moved = \[$", 'moved = [\n  { from = "final/gates.md", to = "final/doors.md" },')(project)


LINE = "docs/approaches/zzak-rnav-09.toml"
CHANGES: dict[str, tuple[str, Change]] = {
    "nothing": (DEMO, lambda project: None),
    "prose": (DEMO, put("docs/final/rate.md", "^## ", "A new sentence.\n\n## ")),
    "title": (DEMO, put("docs/final/rate.md", "^title: ", "title: Other ")),
    "heading": (DEMO, put("docs/set-up/index.md", r"^(### )(.+) \{", r"\1Other \2 {", 0)),
    "entries": (DEMO, put("docs/verify/course.md", r"^(#{2,3} )(.+) \{", r"\1Other \2 {", 0)),
    "new-heading": (DEMO, put("docs/final/rate.md", "^## ", "## Added { #added }\n\nText.\n\n## ")),
    "page-moved": (DEMO, page_moved),
    "heading-moved": (DEMO, put("docs/moved.toml", r"^moved = \[$", 'moved = [\n  '
                                '{ from = "final/rate.md#gone", to = "final/gates.md#do" },')),
    "approach": (DEMO, put(LINE, '^airport_name = "', 'airport_name = "Other ')),
    "quotes": (DEMO, put(LINE, '^level_of_service = "LPV"', "level_of_service = 'LPV'")),
    "aircraft": (DEMO, put("docs/aircraft/light-jet.toml", '^name = "', 'name = "Other ')),
    "codes": (DEMO, put("docs/debrief/codes.toml", 'what = "', 'what = "Other ')),
    "glossary": (DEMO, put("docs/reference/glossary.toml", '= "', '= "Other ')),
    "scenario": (DEMO, put("docs/set-up/zzak-09-errors.toml", '^name = "', 'name = "Other ')),
    "check-value": (DEMO, put("tests/reference/atmosphere.toml", 'what = "', 'what = "Other ')),
    "fact": (DEMO, put("snippets/lpv/facts/motion.py", r'("gate_imc_ft": \(\s*)\d+', r"\g<1>1100")),
    "script": (DEMO, put("snippets/final/rate.py", '"""', '"""Other: ')),
    "function": (DEMO, put("snippets/lpv/crosscheck/final.py", r'f", \{variation', 'f", then {variation')),
    "method": (DEMO, put("snippets/lpv/drawing/panel.py", "^TICK = 35", "TICK = 45")),
    "table": (DEMO, put("snippets/lpv/modes/annunciation.py", '"nothing shown"', '"nothing on view"')),
    "calculator": (DEMO, put("snippets/lpv/calculators/final.py", '"Ground speed", "kt"', '"Speed over ground", "kt"')),
    "figure": (DEMO, put("snippets/lpv/figures/energy.py", "^LABEL = 13", "LABEL = 9")),
    "phone": (DEMO, put("snippets/lpv/setup/statements.py", '"ok", what', '"ok", "other " + what')),
    "render": (DEMO, put("snippets/lpv_site/text/text.py", '"""', '"""Other: ')),
    "hook": (DEMO, put("snippets/hooks.py", "^ +env.lstrip_blocks = True.*\n", "")),
    "template": (DEMO, put("snippets/lpv_site/theme/main.html", "{% endblock %}", "<p>More</p>{% endblock %}")),
    "style": (DEMO, put("docs/assets/handbook.css", r"\A", ".other { color: red }\n")),
    "form-script": (DEMO, put("docs/assets/setup.js", r"\A", "// other\n")),
    "markdown": (DEMO, put("mkdocs.yml", "permalink_title: Copy the link to this place", "permalink_title: Copy it")),
    "name": (DEMO, put("mkdocs.yml", "^site_name: ", "site_name: Other ")),
    "features": (DEMO, put("mkdocs.yml", "^    - navigation.top\n", "")),
    "address": (DEMO, put("mkdocs.yml", r"\A", "site_url: https://handbook.example/crew/\n")),
    "own-words": (OWN, put("own/department.toml", '^meaning = "', 'meaning = "Other ')),
    "own-name": (OWN, put("own/department.toml", '^name = "', 'name = "Other ')),
    "own-figure": (OWN, put("own/department.toml", "^value = 5", "value = 6")),
    "own-caution": (OWN, put("own/department.toml", "250 feet", "260 feet")),
    "own-colour": (OWN, put("own/department.toml", "#3b2a5c", "#2b2a5c")),
    "own-page": (OWN, put("own/pages/brief.md", "^## ", "## Other ")),
    "own-approach": (OWN, put("own/approaches/zzab-rnav-07.toml", '^airport_name = "', 'airport_name = "Other ')),
    "own-copy-of-an-approach": (OWN, also("approaches/zzak-rnav-16.toml")),
    "own-copy-of-a-type": (OWN, also("aircraft/light-jet.toml")),
}


def project_in(folder: Path) -> Path:
    """The project anew, with the example of a department's folder in own/."""
    shutil.rmtree(folder, ignore_errors=True)
    copy_of_project(folder)
    shutil.copytree(folder / "tests" / "department", folder / "own")
    return folder


def built(project: Path, edition: str, store: Path, site: Path) -> dict[str, bytes]:
    """Address -> content of all files of a site; its build ends this run if it fails."""
    environment = {**os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0",
                   "HANDBOOK_COMMIT": COMMIT, "HANDBOOK_STORE": str(store)}
    command = [sys.executable, "-m", "lpv_site.build", "--site-dir", str(site)]
    command += ["--data", str(project / "own")] if edition == OWN else []
    run = subprocess.run(command, cwd=project, env=environment, capture_output=True, text=True)
    if run.returncode:
        raise SystemExit(run.stdout + run.stderr)
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()}


def differing(first: dict[str, bytes], other: dict[str, bytes]) -> list[str]:
    return sorted(name for name in first.keys() | other.keys() if first.get(name) != other.get(name))


def main(names: list[str]) -> int:
    wrong = 0
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        before: dict[str, dict[str, bytes]] = {}
        for name in names or CHANGES:
            edition, change = CHANGES[name]
            if edition not in before:
                project = project_in(folder / "project")
                before[edition] = built(project, edition, folder / edition, folder / "site")
            project = project_in(folder / "project")
            change(project)
            for each in ("warm", "cold"):
                shutil.rmtree(folder / each, ignore_errors=True)
            shutil.copytree(folder / edition, folder / "warm")
            warm, cold = (built(project, edition, folder / each, folder / "site") for each in ("warm", "cold"))
            stale = differing(warm, cold)
            wrong += bool(stale)
            changed = len(differing(before[edition], cold))
            result = f"{len(stale)} are stale: {', '.join(stale[:9])}" if stale else "warm and cold are equal"
            print(f"{name}: {changed} files changed; {result}", flush=True)
    return int(wrong > 0)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))

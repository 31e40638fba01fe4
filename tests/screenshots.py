"""One picture of each type of page, as a phone shows it, into tests/screenshots/.

    python tests/screenshots.py [SITE]       SITE: a site that is built already, else one is built
"""

import io
import os
import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

from support import ROOT, chromium, served

FOLDER = ROOT / "tests" / "screenshots"
SIZE = {"width": 360, "height": 740}
COLOURS = 64
BELOW_HEADER = 60
# Name of the file -> what it shows, address, colours, and what is brought into sight or pressed first.
PAGES = {
    "start": ("The start page", "", "light", ""),
    "tasks": ("Tasks in flight order", "tasks/", "dark", ""),
    "task": ("A task page: the answer above the fold", "final/rate/", "light", ""),
    "figure": ("A figure on a task page, at night", "final/deviation/", "dark", "figure"),
    "calculator": ("A calculator, open", "final/rate/", "light", ".hb-calculator summary"),
    "briefing": ("The briefing of an approach", "approaches/{briefing}/", "light", ""),
    "card": ("Its card, to print", "approaches/{briefing}/", "dark", "#card"),
    "aircraft": ("An aircraft type", "aircraft/large-jet/", "light", ""),
    "flight": ("A flight to watch", "modes/scenarios/", "dark", ""),
    "wrong": ("When it goes wrong", "modes/loss/", "light", "#wrong"),
    "planning": ("A planning sheet", "{sheet}/", "light", ""),
    "practice": ("Drills", "practice/", "dark", ""),
    "debrief": ("What happened? The debrief index", "debrief/", "light", ""),
    "recorded": ("A recorded flight against its approach", "{recorded}/", "light", ""),
    "cycle": ("What changed this cycle", "approaches/changes/", "dark", ""),
    "validation": ("Published values against computed ones", "reference/validation-final/", "light", ""),
    "offline": ("Keeping the handbook on the phone", "reference/offline/", "dark", ""),
}
HEAD = "# One of each type of page\n\nMade by `python tests/screenshots.py`; 360 by 740, light and dark in turn.\n"


def found_on(site: Path) -> dict[str, str]:
    """Addresses that depend on the data: the first of each kind."""
    def first(pattern: str) -> str:
        return sorted(site.glob(f"{pattern}/index.html"))[0].parent.relative_to(site).as_posix()

    return {"briefing": Path(first("approaches/zz*")).name, "sheet": first("plan/*-sheet"),
            "recorded": first("debrief/flights/*")}


def taken(page, address: str, scheme: str, to_see: str) -> bytes:
    """The picture of a page, brought to what it is to show."""
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    page.goto(address, wait_until="networkidle")
    if to_see:
        place = page.locator(to_see).first
        if to_see.endswith("summary"):
            place.click()
            page.wait_for_load_state("networkidle")
        place.evaluate(f"(element) => scrollTo(0, element.getBoundingClientRect().top + scrollY - {BELOW_HEADER})")
        page.wait_for_timeout(600)
    return page.screenshot()


def written(picture: bytes, path: Path) -> None:
    """The picture as a small file."""
    Image.open(io.BytesIO(picture)).convert("RGB").quantize(COLOURS).save(path, optimize=True)


def main(arguments: list[str]) -> int:
    from playwright.sync_api import sync_playwright

    if not chromium():
        print("No Chromium on this machine (Debian: apt install chromium).", file=sys.stderr)
        return 1
    with tempfile.TemporaryDirectory() as folder:
        site = Path(arguments[0]) if arguments else Path(folder) / "site"
        if not arguments:
            command = [sys.executable, "-m", "lpv_site.build", "--site-dir", str(site)]
            subprocess.run(command, cwd=ROOT, env=dict(os.environ), check=True)
        FOLDER.mkdir(exist_ok=True)
        named, lines = found_on(site), [HEAD]
        with served(site) as address, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=chromium(whole=True), args=["--no-sandbox"])
            page = browser.new_page(viewport=SIZE, service_workers="block")
            for name, (words, place, scheme, to_see) in PAGES.items():
                written(taken(page, address + place.format(**named), scheme, to_see), FOLDER / f"{name}.png")
                lines.append(f"\n## {words}\n\n![{words}]({name}.png)\n")
            browser.close()
    (FOLDER / "README.md").write_text("".join(lines), "utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
